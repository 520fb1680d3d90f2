import type { Estimate } from "../estimate.ts"

/**
 * How much wider an interval is made where sampling ended as soon as it was narrow enough. Such a run is likelier to end
 * on a spread that came out small by chance. With few counts to end at, each twice the one before, that costs little:
 * for sums over 32 replicates Student's interval at 95 % holds the truth in 94.3 to 95.0 % of runs, whatever half-width
 * is wanted, and in 95.0 to 95.6 % when it is judged and reported three hundredths wider.
 */
export const WIDENING = 1.03

/** The estimate with both ends moved out from the mean by {@link WIDENING}, and held between `least` and `most`. */
export function widened(estimate: Estimate, least: number, most: number): Estimate {
  const { mean, low, high, method } = estimate
  const [below, above] = [mean - WIDENING * (mean - low), mean + WIDENING * (high - mean)]
  // without a number in the middle there is nothing to move out from
  if (Number.isNaN(mean) || low === high) return estimate
  return {
    ...estimate,
    low: Math.max(Math.min(least, low), below),
    high: Math.min(Math.max(most, high), above),
    method: `${method}, 3 % wider as it was waited for`,
  }
}
