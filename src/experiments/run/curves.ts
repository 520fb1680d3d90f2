import type { Estimate } from "../../sim/estimate.ts"
import type { SeedKey } from "../../sim/random/streams.ts"
import { bestOfCurve } from "../../sim/statistics/curve-best.ts"
import { bootstrapCurve, type CurveBootstrap } from "../../sim/statistics/curve-bootstrap.ts"
import { crossingOfCurves } from "../../sim/statistics/curve-crossing.ts"
import { changeWhenMissed } from "../../sim/statistics/curve-missed.ts"
import { plateauOfCurve } from "../../sim/statistics/curve-plateau.ts"
import type { Experiment } from "../experiment.ts"
import type { Crossing, CurveFinding } from "../results.ts"
import { ALL_SPOTS } from "./columns.ts"
import { CONFIDENCE, type PointTallies } from "./point-results.ts"
import { sharesOf } from "./shares.ts"

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

/** Every curve of an experiment along its first swept quantity; none when only choices are swept. */
export function curveSets(experiment: Experiment): CurveSet[] {
  const along = experiment.sweep.findIndex((swept) => swept.kind === "quantity")
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

/** What each curve says: best place, plateau, cost of missing it. Curves of fewer than three points say nothing. */
export function curveFindings(
  sets: readonly CurveSet[],
  sums: readonly PointTallies[],
  shots: number,
  key: SeedKey,
): CurveFinding[] {
  return sets
    .filter((set) => set.points.length >= 3)
    .map((set) => {
      const bootstrap = resampled(set, sums, shots, key)
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
    })
}

/** Where the curves of two cases cross, for each pair of cases with the same other values. */
export function crossingFindings(
  sets: readonly CurveSet[],
  sums: readonly PointTallies[],
  shots: number,
  key: SeedKey,
): Crossing[] {
  const found: Crossing[] = []
  for (const [i, a] of sets.entries())
    for (const b of sets.slice(i + 1)) {
      if (
        a.case === b.case ||
        a.points.length < 2 ||
        JSON.stringify([a.others, a.x]) !== JSON.stringify([b.others, b.x])
      )
        continue
      const crossing = crossingOfCurves(resampled(a, sums, shots, key), resampled(b, sums, shots, key), CONFIDENCE)
      found.push({ cases: [a.case, b.case], key: a.key, at: crossing.place, assumptions: null })
    }
  return found
}

function resampled(set: CurveSet, sums: readonly PointTallies[], shots: number, key: SeedKey): CurveBootstrap {
  const shares = set.points.map((point) => sharesOf(sums[point]!.tallies, sums[point]!.pose, ALL_SPOTS)["save_rate"]!)
  return bootstrapCurve(
    set.x,
    shares.map((s) => s.above),
    shares.map((s) => s.below),
    shots,
    RESAMPLES,
    key,
  )
}

function missedBy(set: CurveSet): number[] {
  const by = set.key === "goalie.depth" ? MISSED_DEPTH : (set.x.at(-1)! - set.x[0]!) / 10
  return [-by, by]
}
