import type { Probability } from "../units.ts"
import { cumulativeNormal, densityNormal, invertNormal } from "./normal.ts"

/**
 * Normal cut at `mean` ± `CUT` standard deviations, exactly: the uniform is mapped to the probabilities between the
 * cuts and inverted, so that one draw makes one value and the bulk keeps its shape. Standard deviation 0 makes a point.
 */
export const CUT = 3
/** Probability of an uncut normal below the lower cut, and between the cuts; a test holds them to cumulativeNormal. */
const BELOW = 0.0013498980316300946
const BETWEEN = 0.9973002039367398
/** The standard deviation that remains after the cut, as a share of the uncut one. */
export const SD_AFTER_CUT = 0.9865783925581086

/** One uniform in (0, 1) becomes one draw, monotone. */
export function sampleTruncatedNormal(u: Probability, mean: number, sd: number): number {
  return mean + sd * invertNormal(BELOW + BETWEEN * u)
}

/** Density at x; 0 outside the cuts. */
export function densityTruncatedNormal(x: number, mean: number, sd: number): number {
  const z = (x - mean) / sd
  return Math.abs(z) > CUT ? 0 : densityNormal(z) / (sd * BETWEEN)
}

/** Probability of a value below x, the inverse of {@link sampleTruncatedNormal}. */
export function cumulativeTruncatedNormal(x: number, mean: number, sd: number): Probability {
  const z = (x - mean) / sd
  if (z <= -CUT) return 0
  if (z >= CUT) return 1
  return (cumulativeNormal(z) - BELOW) / BETWEEN
}
