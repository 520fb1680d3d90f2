import type { Estimate } from "../../sim/estimate.ts"
import * as T from "../../sim/tally.ts"
import type { Experiment } from "../experiment.ts"
import { measureOf } from "../measures.ts"
import { comparedWith } from "../report/words.ts"
import type { PointResult } from "../results.ts"
import { againstBaseline } from "./against-baseline.ts"
import { ALL_SPOTS, columnOf } from "./columns.ts"
import { depthOf } from "./groups.ts"
import { differenceOf, estimateOf, quantityDifferenceOf } from "./intervals.ts"
import { commonShots, type PointTallies, sharesAfter } from "./point-tallies.ts"
import { type Share, sharesOf } from "./shares.ts"

/** Measures whose difference from the baseline is reported, beside those that the file lists. */
const COMPARED = ["save_rate", "goal_rate", "position_rate", "second_goal_rate"] as const

/** Results of one design point: the whole play, and each spot where there are several. */
export function resultsOfPoint(
  experiment: Experiment,
  index: number,
  sums: readonly PointTallies[],
  spots: readonly string[],
  exact: Readonly<Record<string, number>>,
): PointResult[] {
  const { tallies, pose, shots } = sums[index]!
  // a way that this point never goes has no row
  const isMet = (spot: number): boolean => columnOf(tallies, pose, spot, T.SHOTS_COUNTED).some((sum) => sum > 0)
  const rows = [ALL_SPOTS, ...(spots.length > 1 ? [...spots.keys()].filter(isMet) : [])]
  return rows.map((spot) => {
    const base = comparedWith(experiment, index)
    const comparable = sums[base]!.tallies[0]!.spots === tallies[0]!.spots
    const common = commonShots(sums, [index, base])
    const pair = comparable
      ? ([sharesAfter(sums[index]!, common, spot), sharesAfter(sums[base]!, common, spot)] as const)
      : null
    const point = experiment.points[index]!
    return {
      index,
      case: point.case,
      spot: spot === ALL_SPOTS ? "all" : spots[spot]!,
      swept: point.swept,
      shots,
      estimates: {
        ...estimatesOf(experiment, sharesOf(tallies, pose, spot), shots),
        // a lone point has nothing to be compared with
        ...(pair === null || experiment.points.length < 2 ? {} : againstBaseline(experiment, ...pair, common)),
      },
      exact: spot === ALL_SPOTS ? exact : {},
      differences: pair === null ? {} : differencesOf(experiment, ...pair, common),
      assumptions: {},
      remarks: spot === ALL_SPOTS ? remarksOf(experiment, index, sums[index]!) : [],
    }
  })
}

function estimatesOf(
  experiment: Experiment,
  shares: Readonly<Record<string, Share>>,
  shots: number,
): Record<string, Estimate> {
  const known = Object.entries(shares).filter(([key]) => measureOf(key) !== undefined)
  return Object.fromEntries(known.map(([key, share]) => [key, estimateOf(experiment, share, shots)]))
}

function differencesOf(
  experiment: Experiment,
  mine: Readonly<Record<string, Share>>,
  theirs: Readonly<Record<string, Share>>,
  shots: number,
): Record<string, Estimate> {
  const differences: Record<string, Estimate> = {}
  for (const key of new Set([...COMPARED, ...experiment.measures])) {
    // second shots are there only where rebounds are played
    const [a, b] = [mine[key], theirs[key]]
    if (a === undefined || b === undefined) continue
    const difference = measureOf(key)?.unit === "share" ? differenceOf : quantityDifferenceOf
    differences[key] = difference(experiment, a, b, shots)
  }
  return differences
}

/** Remarks when the depth asked for was not the depth taken. */
function remarksOf(experiment: Experiment, index: number, { tallies, pose }: PointTallies): string[] {
  const sum = (column: number) => columnOf(tallies, pose, ALL_SPOTS, column).reduce((a, b) => a + b, 0)
  const onGoal = sum(T.ON_GOAL_SUM)
  const cut = onGoal > 0 ? sum(T.DEPTH_CUT) / onGoal : 0
  if (cut < 0.01) return []
  const asked = depthOf(experiment.points[index]!)
  const taken = sum(T.DEPTH_SUM) / onGoal
  return [
    `depth cut to ${taken.toFixed(2)} m on average of the ${asked.toFixed(2)} m asked for, as the puck was too near on ${(100 * cut).toFixed(0)} % of shots`,
  ]
}
