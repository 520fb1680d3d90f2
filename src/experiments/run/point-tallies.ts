import type { Sums, Tally } from "../../sim/tally.ts"
import type { Experiment } from "../experiment.ts"
import { ALL_SPOTS } from "./columns.ts"
import type { Earlier } from "./firing-state.ts"
import type { Group } from "./groups.ts"
import { type Share, sharesOf } from "./shares.ts"

/** Where a design point's sums are: its group's tallies by replicate, its pose among them, and of how many shots. */
export interface PointTallies {
  readonly tallies: readonly Tally[]
  readonly pose: number
  readonly shots: number
  /** The group's sums when it had taken fewer shots, for a comparison with a point that took no more. */
  readonly earlier: readonly { readonly shots: number; readonly sums: readonly Sums[] }[]
}

/** The sums of all points. */
export interface SumsOfPoints {
  /** [groups][replicates] */
  readonly tallies: readonly (readonly Tally[])[]
  /** [points] shots of each. */
  readonly shots: readonly number[]
  /** Sums after as many shots as some points took, where others took more. */
  readonly earlier: readonly Earlier[]
}

/** Shots of all points together. */
export function shotsInAll({ shots }: Pick<SumsOfPoints, "shots">): number {
  return shots.reduce((sum, ofPoint) => sum + ofPoint, 0)
}

/** Finds the tallies of every design point. */
export function talliesOfPoints(
  experiment: Experiment,
  groups: readonly Group[],
  { tallies, shots, earlier }: SumsOfPoints,
): PointTallies[] {
  const found: PointTallies[] = new Array(experiment.points.length)
  groups.forEach((group, g) => {
    const before = earlier.map((one) => ({ shots: one.shots, sums: one.sums[g]! }))
    group.points.forEach((point, pose) => {
      found[point] = { tallies: tallies[g]!, pose, shots: shots[point]!, earlier: before }
    })
  })
  return found
}

/** The most shots that all of some points have taken: what they are compared by. */
export function commonShots(sums: readonly PointTallies[], points: readonly number[]): number {
  return Math.min(...points.map((point) => sums[point]!.shots))
}

/**
 * The shares of a design point at one spot, after its first `shots` shots, those that a point with fewer has met as well.
 * @throws RangeError when its sums after so many shots were not kept
 */
export function sharesAfter(
  { tallies, pose, shots, earlier }: PointTallies,
  first: number,
  spot = ALL_SPOTS,
): Readonly<Record<string, Share>> {
  const sums = first === shots ? tallies : earlier.find((one) => one.shots === first)?.sums
  if (sums !== undefined) return sharesOf(sums, pose, spot)
  const rule = `${[...earlier.map((one) => one.shots), shots].join(" or ")}, after which sums were kept`
  throw new RangeError(`Cannot compare two points as their common shots must be ${rule}: current value is ${first}`)
}
