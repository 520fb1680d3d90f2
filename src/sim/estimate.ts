import type { Probability } from "./units.ts"

/** A number that knows how sure it is. Never a bare percentage. */
export interface Estimate {
  /** Shots behind it. */
  readonly n: number
  readonly mean: number
  readonly standardError: number
  readonly low: number
  readonly high: number
  readonly confidence: Probability
  /** How the interval was made: "ratio over replicates, t", "Wilson", "exact", "bootstrap over replicates" … */
  readonly method: string
}
