import type { Probability } from "../units.ts"
import { fastCumulativeNormal } from "./fast-normal.ts"
import { cumulativeNormal, densityNormal, invertNormal } from "./normal.ts"

/**
 * Lognormal: the logarithm is normal with mean log(median) and standard deviation `sdOfLog` (a positive number). Its
 * mean is median * exp(sdOfLog² / 2).
 */

/** One uniform in (0, 1) becomes one draw, monotone. */
export function sampleLognormal(u: Probability, median: number, sdOfLog: number): number {
  return median * Math.exp(sdOfLog * invertNormal(u))
}

/** Density at x; 0 at and below 0. */
export function densityLognormal(x: number, median: number, sdOfLog: number): number {
  if (!(x > 0)) return 0
  return densityNormal(Math.log(x / median) / sdOfLog) / (x * sdOfLog)
}

/** Probability of a value below x, the inverse of {@link sampleLognormal}; 0 at and below 0, 1 at Infinity. */
export function cumulativeLognormal(x: number, median: number, sdOfLog: number): Probability {
  return x > 0 ? cumulativeNormal(Math.log(x / median) / sdOfLog) : 0
}

/** The same within 1e-11, for kernels. */
export function fastCumulativeLognormal(x: number, median: number, sdOfLog: number): Probability {
  return x > 0 ? fastCumulativeNormal(Math.log(x / median) / sdOfLog) : 0
}
