import type { QuantityKey } from "../../models/settings.ts"
import type { Estimate } from "../../sim/estimate.ts"

/** What one quantity is worth when it becomes a tenth better: the same shots before and after. */
export interface Gain {
  /** Value of the goalie and the better one, SI. */
  readonly from: number
  readonly to: number
  /** Change of the save rate, a share: times 100, goals saved in 100 shots on goal. */
  readonly change: Estimate
  /** The largest change less this one; null for the largest itself. */
  readonly behind: Estimate | null
}

/** How much of the result's variation one quantity answers for. */
export interface QuantityEffect {
  readonly key: QuantityKey
  /** Range it was varied over, SI. */
  readonly low: number
  readonly high: number
  /** Share of the variance that goes with it alone. */
  readonly first: Estimate
  /** Share of the variance that would be left if all others were known: alone and together with others. */
  readonly total: Estimate
  /** The largest total effect less this one; null for the largest itself. */
  readonly behind: Estimate | null
  /** Null for what no training changes. */
  readonly gain: Gain | null
}

/** What a measure hangs on, all quantities varied at once. */
export interface SensitivityFinding {
  /** Key of the measure. */
  readonly of: string
  readonly over: "listed" | "training" | "assumptions"
  readonly sets: number
  /** Values found, sets x (quantities + 2), and the shots behind each. */
  readonly values: number
  readonly shots: number
  /** Shots behind each value of a gain; 0 where none was asked for. */
  readonly gainShots: number
  /** Mean and standard deviation of the measure over the ranges. */
  readonly mean: number
  readonly deviation: number
  /** Largest total effect first. */
  readonly effects: readonly QuantityEffect[]
}
