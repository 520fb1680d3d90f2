import { invertNormal } from "../random/normal.ts"
import type { Probability } from "../units.ts"
import { twoSidedDeviates } from "./wilson.ts"

/**
 * Shots on goal each of two arms needs before a change of the save rate from `before` to `after` shows, with
 * probability `power`, as different at the two-sided level `level`. Normal approximation with each arm's own variance:
 * n = (z(1 - level / 2) + z(power))² (p1 (1 - p1) + p2 (1 - p2)) / (p1 - p2)². Not rounded; Infinity for no change.
 * Throws a RangeError unless power and level lie strictly between 0 and 1.
 */
export function shotsToSee(before: Probability, after: Probability, power = 0.8, level = 0.05): number {
  return shotsForContrast([before, after], after - before, power, level)
}

/**
 * Shots on goal each of several arms needs before a sum of their save rates with signs +1 and -1, `contrast`, shows as
 * different from nothing: n = (z(1 - level / 2) + z(power))² (sum of p (1 - p) over all arms) / contrast². Two arms give
 * {@link shotsToSee}, four a difference of differences. Not rounded; Infinity for no contrast. Throws as that one does.
 */
export function shotsForContrast(rates: readonly Probability[], contrast: number, power = 0.8, level = 0.05): number {
  for (const [name, value] of [
    ["power", power],
    ["level", level],
  ] as const) {
    if (!(value > 0 && value < 1)) {
      throw new RangeError(`Cannot plan shots as ${name} must be above 0 and below 1: current value is ${value}`)
    }
  }
  const deviates = twoSidedDeviates(1 - level) + invertNormal(power)
  const spread = rates.reduce((sum, rate) => sum + rate * (1 - rate), 0)
  return contrast === 0 ? Infinity : (deviates * deviates * spread) / contrast ** 2
}

/** Half-width of the plain normal interval of a share from n independent shots: what a coach may expect to see by luck. */
export function halfWidthFromShots(share: Probability, n: number, confidence = 0.95): number {
  return twoSidedDeviates(confidence) * Math.sqrt((share * (1 - share)) / n)
}

/** Independent shots for a wanted half-width: the inverse of {@link halfWidthFromShots}. Not rounded. */
export function shotsForHalfWidth(share: Probability, halfWidth: number, confidence = 0.95): number {
  return share * (1 - share) * (twoSidedDeviates(confidence) / halfWidth) ** 2
}
