import type { Probability } from "../units.ts"

/**
 * Quantile of values sorted upward, straight between neighbours: place (n - 1) p from the first. Type 7 of Hyndman and
 * Fan, The American Statistician 50 (1996), 361-365. Throws a RangeError for no values or p outside [0, 1].
 */
export function quantileSorted(sorted: ArrayLike<number>, p: Probability): number {
  if (sorted.length === 0 || !(p >= 0 && p <= 1)) {
    throw new RangeError(
      `Cannot take a quantile as p must be between 0 and 1 of at least one value: current values are ${p} of ${sorted.length}`,
    )
  }
  const place = (sorted.length - 1) * p
  const below = Math.floor(place)
  const low = sorted[below]!
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!
  // equal neighbours first: infinite ones have no difference
  return low === high ? low : low + (place - below) * (high - low)
}

/** A sorted copy, numbers upward. */
export function sortedCopy(values: ArrayLike<number>): Float64Array {
  return Float64Array.from(values).sort()
}
