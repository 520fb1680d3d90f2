import type { Dimension } from "../models/parameter.ts"
import type { ChoiceKey, QuantityKey, Settings } from "../models/settings.ts"
import { type Sampler, USUAL_SAMPLER } from "../sim/sampler.ts"

/** One swept key: its values in SI (or names), and the unit the file used, for axes and columns. */
export type Swept =
  | {
      readonly kind: "quantity"
      readonly key: QuantityKey
      readonly dimension: Dimension
      /** Unit as the file wrote it ("ft"), and how many SI units one of it is, with the zero of the scale in SI. */
      readonly unit: string
      readonly unitFactor: number
      readonly unitZero: number
      readonly values: readonly number[]
    }
  | { readonly kind: "choice"; readonly key: ChoiceKey; readonly values: readonly string[] }

/** One design point: one goalie variant in one play, fully resolved. */
export interface DesignPoint {
  readonly index: number
  /** Name of the compared case, "" when the file compares none. */
  readonly case: string
  /** Value of each swept key, SI or name, in the order of {@link Experiment.sweep}. */
  readonly swept: readonly (number | string)[]
  readonly settings: Settings
}

export const CHART_KINDS = [
  "curve",
  "heat map",
  "puck's eye",
  "reach map",
  "goal map",
  "bars",
  "goals saved",
  "plan view",
  "open net",
  "angle error",
] as const
export type ChartKind = (typeof CHART_KINDS)[number]

/** A quantity and the range it is varied over, SI. */
export interface Ranged {
  readonly key: QuantityKey
  readonly low: number
  readonly high: number
}

/** What a file asks about the quantities behind its result: which of them it hangs on most. */
export interface SensitivityAsked {
  /** Key of the measure. */
  readonly of: string
  /** What the file listed, everything a goalie can train, or everything assumed. */
  readonly over: "listed" | "training" | "assumptions"
  readonly ranges: readonly Ranged[]
  /** Points of each of the two sets of the design, a power of two. */
  readonly sets: number
  /** Shots behind each value, the same shots for all. */
  readonly shots: number
}

/** What a wanted half-width can be of: every save rate, or every difference from the baseline on the same shots. */
export const JUDGED = ["save rate", "difference"] as const
export type Judged = (typeof JUDGED)[number]

/** How much more a change is worth in one circumstance than in another: what a file asks, resolved to points. */
export interface InteractionAsked {
  /** "" where the file names none. */
  readonly name: string
  /** The swept key that changes, and its two values as the file would write them. */
  readonly key: string
  readonly from: string
  readonly to: string
  /** The two circumstances. */
  readonly between: readonly [string, string]
  /** For all that is the same: indices of `from` and `to` in the first circumstance, then in the second. */
  readonly of: readonly {
    /** What the four points share beside, in words; "" when nothing. */
    readonly where: string
    readonly points: readonly [number, number, number, number]
  }[]
}

export const DESIGN_KINDS = ["latin hypercube", "sobol"] as const
export type DesignKind = (typeof DESIGN_KINDS)[number]

/** Where the draws of an experiment's shots come from. */
export function samplingOf({ sampling }: Pick<Experiment, "sampling">): Sampler {
  return sampling ?? USUAL_SAMPLER
}

export interface Experiment {
  /** Folder name of the run, from the file's name. */
  readonly name: string
  readonly question: string
  readonly why: string
  /** Name and facts of the invented or measured goalie, for the report. */
  readonly goalieName: string
  readonly sweep: readonly Swept[]
  readonly cases: readonly string[]
  readonly points: readonly DesignPoint[]
  /** Index of the point every other is compared with. */
  readonly baseline: number
  /**
   * Where each point has a baseline of its own (today's depth in the same case): index of the point that point i is
   * compared with. Absent: every point is compared with {@link baseline}.
   */
  readonly baselineOf?: readonly number[]
  readonly measures: readonly string[]
  /** Shots for each design point; with a wanted half-width it is the ceiling. */
  readonly shots: number
  /** Wanted half-width of the save rate's interval (a share, 0.005 is half a point), or null. */
  readonly halfWidth: number | null
  /** What the half-width is of; absent: the save rate. */
  readonly judged?: Judged
  /** Where the draws of the shots come from; absent: {@link USUAL_SAMPLER}. */
  readonly sampling?: Sampler
  readonly seed: string
  readonly charts: readonly ChartKind[]
  readonly sensitivity?: SensitivityAsked
  readonly interactions?: readonly InteractionAsked[]
  /** Cases whose worst is asked for at each point; absent where none is. */
  readonly worstOf?: readonly string[]
  /** How the swept values were spread, where they are points of a design and no grid. */
  readonly design?: { readonly kind: DesignKind; readonly points: number }
  /** Settings that every point shares, for the report's tables. */
  readonly shared: Settings
  /** Keys the file itself set, so that the report can say "the file says" beside "default". */
  readonly setByFile: readonly string[]
}
