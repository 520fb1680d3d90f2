import type { UsualCourse } from "../models/plays/usual-course.ts"
import type { OffTheLine } from "../models/reference/cue-error.ts"
import type { Rink } from "../models/rink/rink.ts"
import type { Estimate } from "../sim/estimate.ts"
import type { Experiment } from "./experiment.ts"
import type { SensitivityFinding } from "./sensitivity/finding.ts"

/** A range over parameter sets drawn within their low and high, on the same shots: 5 % to 95 %. */
export interface AssumptionRange {
  readonly low: number
  readonly high: number
  readonly sets: number
  /** Shots of each point under each set; absent where it is not told. */
  readonly shots?: number
  /** Standard error that sampling leaves in what one set changes, in the unit of the range; absent where it is not known. */
  readonly noise?: number
}

/** Names of the measures a run can report; each has a definition in measures.ts. */
export interface PointResult {
  readonly index: number
  readonly case: string
  /** Place the shots were taken from; "all" for the whole play. */
  readonly spot: string
  readonly swept: readonly (number | string)[]
  /** Shots fired at this design point, all its spots together. */
  readonly shots: number
  /** Sampled measures: save_rate, goal_rate, on_goal_rate, position_rate … each with its interval. */
  readonly estimates: Readonly<Record<string, Estimate>>
  /** Exact measures of geometry: net_covered, box_area_m2, solid_angle_sr, clear_circle_m … */
  readonly exact: Readonly<Record<string, number>>
  /** Difference from the baseline point on the same shots, by measure. */
  readonly differences: Readonly<Record<string, Estimate>>
  /** Assumption ranges by measure, of the value and of its difference ("save_rate", "save_rate_vs_baseline"). */
  readonly assumptions: Readonly<Record<string, AssumptionRange>>
  /** Where the file waits for a half-width: "half-width" when this point has it, or what ended the run before. */
  readonly stoppedBy?: string
  /** Depth actually taken when standing further out was not possible, and such remarks. */
  readonly remarks: readonly string[]
}

/** What the curve of one case along the first swept quantity says. */
export interface CurveFinding {
  readonly case: string
  readonly spot: string
  /** Key of the swept quantity; all values below are in SI. */
  readonly key: string
  /** Values of the other swept keys along this curve, in the order of the sweep; absent when only one is swept. */
  readonly others?: readonly (number | string)[]
  readonly best: Estimate
  readonly bestAssumptions: AssumptionRange | null
  /** Probability that each value of the sweep is the best, in sweep order. */
  readonly probabilityBest: readonly number[]
  /** Values within half a point of the best, and its width with interval. */
  readonly plateau: { readonly from: number; readonly to: number; readonly width: Estimate }
  /** Change of the save rate when the best is missed by this much to either side (a depth: 0.2 m), where in range. */
  readonly missed: readonly { readonly by: number; readonly change: Estimate }[]
}

/**
 * What the curve of the worst says: at each place the lowest save rate among some cases, whichever of them comes. Named
 * by `case` together; its spot is "all".
 */
export interface WorstFinding extends CurveFinding {
  /** Which case is the worst at each value of the sweep, in sweep order. */
  readonly worst: readonly string[]
  /** The worst rate where it is best. */
  readonly rate: Estimate
}

/** Where the curves of two cases cross along the swept quantity; `at` is null when they do not in this range. */
export interface Crossing {
  readonly cases: readonly [string, string]
  readonly key: string
  readonly at: Estimate | null
  /**
   * Over all sets, those that cross beyond the sweep put at its end; where the run itself does not cross, over the sets
   * that do. Null when none does or none was drawn.
   */
  readonly assumptions: AssumptionRange | null
  /** Which of the two is the better before the crossing and which past it; absent where they do not cross. */
  readonly ahead?: readonly [0, 1] | readonly [1, 0]
  /** Sets under which the curves cross before the sweep begins or after it ends; absent when none does. */
  readonly beyond?: { readonly below: number; readonly above: number }
  /** All places where the estimated curves cross, SI, upward; absent where they cross once or not at all. */
  readonly places?: readonly number[]
  /** What both curves share beside the axis, in words; absent or "" when nothing. */
  readonly where?: string
  /** Two plays that the goalie meets, not two ways of the goalie; absent otherwise. */
  readonly plays?: boolean
}

/** How the best place moves, and what the save rate gains, from the least to the largest value of a trait. */
export interface Shift {
  readonly case: string
  /** The trait that tells the two curves apart, and its two values, SI. */
  readonly key: string
  readonly from: number
  readonly to: number
  /** Key of the quantity whose best place moves. */
  readonly along: string
  /** Best place at `to` less that at `from`, SI. */
  readonly best: Estimate
  readonly bestAssumptions: AssumptionRange | null
  /** Save rate at `to` less that at `from`, each at its own best place. */
  readonly rate: Estimate
  readonly rateAssumptions: AssumptionRange | null
}

/** What one way of the goalie is worth against the one it is compared with, each at its own best place. */
export interface Rival {
  /** The two cases: the way, and the one it is compared with. */
  readonly case: string
  readonly against: string
  /** Key of the quantity whose best place each takes, and the values of the other swept keys, which both share. */
  readonly along: string
  readonly others: readonly (number | string)[]
  /** Save rate of `case` less that of `against`; where goals rate the run, goals fewer. */
  readonly rate: Estimate
  readonly rateAssumptions: AssumptionRange | null
}

/** How much more a change is worth in one circumstance than in another, in save rates on the same shots. */
export interface Interaction {
  readonly name: string
  readonly key: string
  readonly from: string
  readonly to: string
  readonly between: readonly [string, string]
  readonly where: string
  /** Indices of `from` and `to` in the first circumstance, then in the second. */
  readonly points: readonly [number, number, number, number]
  /** Save rate at `to` less that at `from`, in each circumstance. */
  readonly effects: readonly [Estimate, Estimate]
  /** The second effect less the first. */
  readonly difference: Estimate
  readonly assumptions: AssumptionRange | null
  /** This difference less that of the interaction asked for before it, where the change is the same. */
  readonly sincePrevious: Estimate | null
}

export interface Warning {
  readonly kind: string
  /** Measures, explains and advises. */
  readonly text: string
}

/** A closed outline on the plane of the mouth as the puck sees it, metres (y to the goalie's left, z up). */
export interface Outline {
  readonly region: string
  readonly part: string
  /** [y, z] corners in order, first not repeated. Nearer parts come later, so painting in order is right. */
  readonly points: readonly (readonly [number, number])[]
}

/** One clear opening of the mouth that a puck fits through. */
export interface Opening {
  readonly zone: string
  /** Middle of the opening, goal plane. */
  readonly y: number
  readonly z: number
  readonly area: number
  /** Limb that would close its middle soonest, and how far it has to travel. */
  readonly limb: string
  readonly travel: number
}

/** The mouth as the puck sees it with the goalie in one pose. */
export interface PuckEyePanel {
  readonly title: string
  readonly subtitle: string
  /** Opening between the posts and under the bar, metres, and the radius of the iron. */
  readonly mouthWidth: number
  readonly mouthHeight: number
  readonly iron: number
  readonly outlines: readonly Outline[]
  readonly openings: readonly Opening[]
  readonly clearCircle: { readonly y: number; readonly z: number; readonly radius: number }
  readonly netCovered: number
  readonly boxArea: number
  /** Milliseconds to spare at places of the mouth: latest saving reaction minus the median; negative is beaten. */
  readonly spare: readonly { readonly y: number; readonly z: number; readonly milliseconds: number | null }[]
}

/** Reach over the whole mouth for one spot and one pose, on a grid: rows of z from the ice up, columns of y. */
export interface ReachMapPicture {
  readonly title: string
  readonly subtitle: string
  readonly y: readonly number[]
  readonly z: readonly number[]
  /** Latest saving reaction minus the median, ms; null where no reaction saves, Infinity where the stance covers. */
  readonly milliseconds: readonly (readonly (number | null)[])[]
  /** Chance of a save; absent unless the run was asked for it. */
  readonly probability?: readonly (readonly number[])[]
  /** Whether a puck can get there past posts and bar: at a sharp angle not everywhere. */
  readonly clear: readonly (readonly boolean[])[]
  readonly cell: number
}

/** Where goals went in: share of all goals in each cell. */
export interface GoalMapPicture {
  readonly title: string
  readonly subtitle: string
  readonly y: readonly number[]
  readonly z: readonly number[]
  readonly share: readonly (readonly number[])[]
  readonly cell: number
  /** Share of goals by zone of the mouth; `at` is the place [y, z] to print it, where the zone has one. */
  readonly zones: readonly {
    readonly zone: string
    readonly share: Estimate
    readonly at?: readonly [number, number]
  }[]
  /** Where the zones part: height between low and high, and half the width of the middle, metres. */
  readonly parting?: { readonly height: number; readonly middle: number }
}

/** One branch of a play from above, as it usually goes, with the goalie's way and the times of both. */
export interface PlanPicture {
  /** Index of the design point. */
  readonly index: number
  /** Branches its play has; not all need be shown. */
  readonly ways: number
  readonly title: string
  readonly subtitle: string
  readonly rink: Rink
  readonly mouthHalfWidth: number
  /** Half the distance between the outer edges of the skates. */
  readonly halfStance: number
  readonly course: UsualCourse
}

/** A goalie who goes by a cue: where the line to the puck is, and where it is taken to be at this depth. */
export interface AnglePicture extends OffTheLine {
  /** Index of the design point. */
  readonly index: number
  readonly title: string
  readonly subtitle: string
  readonly rink: Rink
  /** The sheet whose marks are remembered, where that is another. */
  readonly remembered: Rink | null
  readonly mouthHalfWidth: number
  readonly puck: { readonly x: number; readonly y: number }
  readonly depth: number
}

/** The open net against the time from the release, over some shots of one design point. */
export interface OpenNetCurve {
  /** s from the release; before it is negative. */
  readonly at: readonly number[]
  /** Open share of the mouth as the puck sees it: mean, and the 5 % and 95 % points over the shots. */
  readonly mean: readonly number[]
  readonly low: readonly number[]
  readonly high: readonly number[]
  /** What the puck does last before the shot, and when it usually starts, s from the release. */
  readonly move: "pass" | "carry" | "cut"
  readonly starts: number
  /** When the goalie is usually set, s from the release; null for one who never is. */
  readonly setAt: number | null
}

export interface OpenNetPicture extends OpenNetCurve {
  /** Index of the design point. */
  readonly index: number
  /** What its panel shares, and what the line is called; "" where there is one. */
  readonly panel: string
  readonly label: string
}

export interface RunResults {
  readonly experiment: Experiment
  readonly version: string
  readonly points: readonly PointResult[]
  readonly curves: readonly CurveFinding[]
  /** Where the file asks for the worst of some cases. */
  readonly worst?: readonly WorstFinding[]
  readonly crossings?: readonly Crossing[]
  /** How the best place moves with a swept trait of the goalie. */
  readonly shifts?: readonly Shift[]
  /** Where the cases are ways of the goalie, each with a best place of its own. */
  readonly rivals?: readonly Rival[]
  /** Where the file asks for any. */
  readonly interactions?: readonly Interaction[]
  /** What the measure hangs on, where the file asks. */
  readonly sensitivity?: SensitivityFinding
  readonly warnings: readonly Warning[]
  readonly puckEye: readonly PuckEyePanel[]
  readonly reachMaps: readonly ReachMapPicture[]
  readonly goalMaps: readonly GoalMapPicture[]
  readonly plans?: readonly PlanPicture[]
  readonly angles?: readonly AnglePicture[]
  readonly openNets?: readonly OpenNetPicture[]
  /** Share of saves by region of the body for the baseline, and other breakdowns, by title. */
  readonly breakdowns: readonly {
    readonly title: string
    readonly rows: readonly { readonly name: string; readonly share: Estimate }[]
  }[]
  /**
   * Where the shots were points of a scrambled sequence: in how many dimensions, and how many draws of a shot lay beyond
   * them and were independent. Absent: all draws were independent.
   */
  readonly spread?: { readonly dimensions: number; readonly beyond: number }
  /** Shots fired at a design point, at most; each point has its own number. */
  readonly shots: number
  readonly replicates: number
  readonly confidence: number
  /** What ended sampling: "shots", "half-width", "ceiling". */
  readonly stoppedBy: string
}
