import { quantileSorted, sortedCopy } from "../../sim/statistics/quantile.ts"
import type { AssumptionRange } from "../results.ts"

/** The range runs from the 5 % to the 95 % point of the sets. */
const LOW = 0.05
const HIGH = 0.95

/** Numbers of every design point under every set of assumed parameters, [sets + 1][points], row 0 the default. */
export type SetRows = readonly Float64Array[]

/** The same after all shots of a set, and after either half of its replicates, which tells how much of it is luck. */
export interface HalvedRows {
  readonly whole: SetRows
  readonly halves: readonly [SetRows, SetRows]
  /** Shots of each point under each set. */
  readonly shots: number
}

/** What the sets make of a number: `middle` and each set's departure from the default, with the noise left in a departure. */
export function rangeUnder(
  { whole, halves, shots }: HalvedRows,
  middle: number,
  numberOf: (row: Float64Array) => number,
): AssumptionRange {
  const departures = (rows: SetRows): number[] => {
    const usual = numberOf(rows[0]!)
    return rows.slice(1).map((row) => numberOf(row) - usual)
  }
  const [one, other] = halves.map(departures)
  // halves differ by twice the error of their mean
  const squares = one!.reduce((sum, value, set) => sum + (0.5 * (value - other![set]!)) ** 2, 0)
  return { ...rangeAround(middle, departures(whole)), shots, noise: Math.sqrt(squares / one!.length) }
}

/** 5 % to 95 % of departures, put onto a value. */
export function rangeAround(middle: number, departures: readonly number[]): AssumptionRange {
  const sorted = sortedCopy(departures)
  return {
    low: middle + quantileSorted(sorted, LOW),
    high: middle + quantileSorted(sorted, HIGH),
    sets: departures.length,
  }
}
