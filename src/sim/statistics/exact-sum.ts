/**
 * Sums that do not depend on order. Every contribution is rounded to a multiple of 2^-30 before it is added, and a
 * double holds every such multiple below 2^23: as long as sums stay under 2^22 nothing is ever rounded again, so adding
 * is associative and any cut of the work into batches, threads or shards merges to the same bits.
 *
 * The rounding is at most 2^-31 for each contribution, half up and half down: no figure of a report can show it.
 */
export const QUANTUM = 2 ** -30
/** Sums must stay below this; a replicate of 4 million shots with weight 1 reaches it. */
export const GREATEST_SUM = 2 ** 22
/** Doubles in [2^22, 2^23) are 2^-30 apart, so adding and taking off 1.5 * 2^22 rounds to a multiple of it. */
const ROUNDER = 1.5 * GREATEST_SUM

/** The multiple of 2^-30 nearest to `value` (halves to even). Right for |value| < 2^21. */
export function quantise(value: number): number {
  return value + ROUNDER - ROUNDER
}

/** Adds `value`, rounded, to `sums[at]`. Call {@link checkSums} after each batch. */
export function addExactly(sums: Float64Array, at: number, value: number): void {
  sums[at] = sums[at]! + (value + ROUNDER - ROUNDER)
}

/** Adds `from` to `into`, place by place, and checks the sums. Throws a RangeError as {@link checkSums} does. */
export function mergeSums(into: Float64Array, from: Float64Array): void {
  if (into.length !== from.length) {
    throw new RangeError(
      `Cannot merge sums as their lengths must be equal: current values are ${into.length} and ${from.length}`,
    )
  }
  for (let i = 0; i < into.length; i++) into[i] = into[i]! + from[i]!
  checkSums(into)
}

/**
 * Throws a RangeError when a sum has reached 2^22 or is not a number: from there on it could depend on the order. Once
 * per batch is often enough, since a batch that starts below 2^22 and adds less than 2^22 has stayed exact.
 */
export function checkSums(sums: Float64Array): void {
  for (let i = 0; i < sums.length; i++) {
    if (!(Math.abs(sums[i]!) < GREATEST_SUM)) {
      throw new RangeError(
        `Cannot add exactly as sum ${i} must be between ${-GREATEST_SUM} and ${GREATEST_SUM}: current value is ${sums[i]}`,
      )
    }
  }
}
