import type { Estimate } from "../../sim/estimate.ts"
import type { SeedKey } from "../../sim/random/streams.ts"
import { bestOfCurve } from "../../sim/statistics/curve-best.ts"
import { bootstrapCurve, type CurveBootstrap } from "../../sim/statistics/curve-bootstrap.ts"
import { changeWhenMissed } from "../../sim/statistics/curve-missed.ts"
import { plateauOfCurve } from "../../sim/statistics/curve-plateau.ts"
import { axisOf, isDecision } from "../decision.ts"
import type { Experiment } from "../experiment.ts"
import type { Rated } from "../rated.ts"
import type { CurveFinding } from "../results.ts"
import { less } from "./columns.ts"
import { CONFIDENCE } from "./intervals.ts"
import { commonShots, type PointTallies, sharesAfter } from "./point-tallies.ts"

/** Half a point: within it one place is as good as another. */
const HALF_A_POINT = 0.005
/** Resamples of the replicates behind each interval of a best place or a plateau. */
const RESAMPLES = 1000
/** By how much a best depth is missed for "what missing it costs", m; other quantities: a tenth of the sweep. */
const MISSED_DEPTH = 0.2

/** Design points along one curve: same case and other swept values, rising in the axis quantity. */
export interface CurveSet {
  readonly case: string
  readonly others: readonly (number | string)[]
  readonly key: string
  readonly x: readonly number[]
  readonly points: readonly number[]
}

/** Every curve of an experiment along its axis; none when only choices are swept. */
export function curveSets(experiment: Experiment): CurveSet[] {
  const along = axisOf(experiment.sweep)
  if (along < 0) return []
  const sets = new Map<string, { case: string; others: (number | string)[]; x: number[]; points: number[] }>()
  const rising = experiment.points.toSorted((a, b) => Number(a.swept[along]) - Number(b.swept[along]))
  for (const point of rising) {
    const others = point.swept.filter((_, at) => at !== along)
    const id = JSON.stringify([point.case, others])
    const set = sets.get(id) ?? { case: point.case, others, x: [], points: [] }
    sets.set(id, set)
    const x = Number(point.swept[along])
    if (x === set.x.at(-1)) continue // the same place twice in a sweep counts once
    set.x.push(x)
    set.points.push(point.index)
  }
  // in the order of the file, not of the axis
  return [...sets.values()]
    .toSorted((a, b) => Math.min(...a.points) - Math.min(...b.points))
    .map((set) => ({ ...set, key: experiment.sweep[along]!.key }))
}

/**
 * What each curve says: best place, plateau, cost of missing it. Curves of fewer than three points, and curves along
 * what the goalie cannot decide, say nothing of the kind.
 */
export function curveFindings(
  sets: readonly CurveSet[],
  sums: readonly PointTallies[],
  key: SeedKey,
  rated: Rated,
): CurveFinding[] {
  return sets
    .filter((set) => set.points.length >= 3 && isDecision(set.key))
    .map((set) => findingOf(set, resampledRates(set, sums, key, rated)))
}

/** What one curve says. */
export function findingOf(set: Omit<CurveSet, "points">, bootstrap: CurveBootstrap): CurveFinding {
  const { best, probabilityBest } = bestOfCurve(bootstrap, CONFIDENCE)
  const plateau = plateauOfCurve(bootstrap, HALF_A_POINT, CONFIDENCE)
  return {
    case: set.case,
    spot: "all",
    others: set.others,
    key: set.key,
    best,
    bestAssumptions: null,
    probabilityBest,
    plateau: { from: plateau.from.mean, to: plateau.to.mean, width: plateau.width },
    missed: missedBy(set).flatMap((by) => {
      const change = changeWhenMissed(bootstrap, by, CONFIDENCE)
      return change === null ? [] : [{ by, change: change satisfies Estimate }]
    }),
  }
}

/**
 * Save rates along a curve, or the share of plays without a goal, so that more is better; and what other luck would have
 * made of them: every curve with the same luck. From the first `shots` shots, those that all of its points have met.
 */
export function resampledRates(
  set: CurveSet,
  sums: readonly PointTallies[],
  key: SeedKey,
  rated: Rated,
  shots = commonShots(sums, set.points),
): CurveBootstrap {
  const shares = set.points.map((point) => sharesAfter(sums[point]!, shots)[rated]!)
  return bootstrapCurve(
    set.x,
    shares.map((s) => (rated === "goal_rate" ? less(s.below, s.above) : s.above)),
    shares.map((s) => s.below),
    shots,
    RESAMPLES,
    key,
  )
}

function missedBy(set: Pick<CurveSet, "key" | "x">): number[] {
  const by = set.key === "goalie.depth" ? MISSED_DEPTH : (set.x.at(-1)! - set.x[0]!) / 10
  return [-by, by]
}
