import type { AssumptionRange } from "./results.ts"

/** The 5 % to 95 % range of a normal distribution in standard deviations. */
const WIDTH = 3.29

/**
 * Whether more than half of the variance behind an assumption range is of sampling, the shots of a set being few: the range
 * then tells of luck rather than of the assumptions. Never for a range whose noise is not known.
 */
export function isLostInNoise({ low, high, noise }: AssumptionRange): boolean {
  return noise !== undefined && 2 * (WIDTH * noise) ** 2 > (high - low) ** 2
}

/** A range that tells of the assumptions; undefined where there is none, or where it is lost in noise. */
export function toldRange(range: AssumptionRange | null | undefined): AssumptionRange | undefined {
  return range == null || isLostInNoise(range) ? undefined : range
}
