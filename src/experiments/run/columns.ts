import { type Sums, TALLY_STRIDE } from "../../sim/tally.ts"

/** All spots of the play together. */
export const ALL_SPOTS = -1

/** One column of a pose's tallies, by replicate: sums at one spot, or over all of them. */
export function columnOf(tallies: readonly Sums[], pose: number, spot: number, column: number): Float64Array {
  return Float64Array.from(tallies, (tally) => {
    if (spot !== ALL_SPOTS) return tally.sums[(pose * tally.spots + spot) * TALLY_STRIDE + column]!
    let sum = 0
    for (let s = 0; s < tally.spots; s++) sum += tally.sums[(pose * tally.spots + s) * TALLY_STRIDE + column]!
    return sum
  })
}

/** Sum of several columns, by replicate. */
export function sumOf(...columns: readonly Float64Array[]): Float64Array {
  return columns[0]!.map((_, r) => columns.reduce((sum, column) => sum + column[r]!, 0))
}

/** One column less another, by replicate. */
export function less(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((value, r) => value - b[r]!)
}
