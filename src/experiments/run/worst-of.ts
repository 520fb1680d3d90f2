import { indexOfHighest, topOfCurve } from "../../sim/statistics/curve-best.ts"
import { type CurveBootstrap, estimateFromResamples } from "../../sim/statistics/curve-bootstrap.ts"
import { isDecision } from "../decision.ts"
import { ratedBy, signOf } from "../rated.ts"
import type { RunResults } from "../results.ts"
import { rangeAround } from "./assumption-range.ts"
import type { PairSource } from "./curve-pairs.ts"
import { type CurveSet, findingOf, resampledRates } from "./curves.ts"
import { CONFIDENCE } from "./intervals.ts"
import { commonShots } from "./point-tallies.ts"

/**
 * The worst of the cases a file names, along every curve they share: at each place the lowest rate of them, under each
 * luck anew. `rates` is [sets + 1][points] of the assumption sets, row 0 the default. Nothing along what the goalie cannot
 * decide.
 */
export function worstFindings(source: PairSource): Pick<RunResults, "worst"> {
  const { experiment, sets, sums, key, rates } = source
  const { worstOf } = experiment
  if (worstOf === undefined) return {}
  const rated = ratedBy(experiment)
  const lines = new Map<string, CurveSet[]>()
  for (const set of sets) {
    if (!worstOf.includes(set.case) || set.points.length < 3 || !isDecision(set.key)) continue
    const id = JSON.stringify([set.others, set.x])
    lines.set(id, [...(lines.get(id) ?? []), set])
  }
  const worst = [...lines.values()]
    .filter((line) => line.length === worstOf.length)
    .map((line) => {
      const { key: along, others, x } = line[0]!
      const shots = commonShots(
        sums,
        line.flatMap(({ points }) => points),
      )
      const curves = line.map((set) => resampledRates(set, sums, key, rated, shots))
      const lowest = lowestOf(curves)
      const finding = findingOf({ case: `the worst of ${listed(worstOf)}`, key: along, others, x }, lowest)
      const whose = x.map((_, at) => line[lowestAt(curves, at)]!.case)
      const top = indexOfHighest(lowest.curve)
      const resampled = Float64Array.from({ length: lowest.resamples }, (_, i) => lowest.resampled[i * x.length + top]!)
      const rate = estimateFromResamples(lowest.curve[top]!, resampled, lowest, CONFIDENCE)
      const places = (rates ?? []).slice(1).map((row) => topOfCurve(x, underSet(line, row, signOf(rated))))
      return { ...finding, worst: whose, rate, bestAssumptions: rates === null ? null : rangeAround(0, places) }
    })
  return { worst }
}

/** The lowest of some curves at every place, and under every luck. */
function lowestOf(curves: readonly CurveBootstrap[]): CurveBootstrap {
  const least = (of: (curve: CurveBootstrap) => Float64Array): Float64Array =>
    of(curves[0]!).map((_, i) => Math.min(...curves.map((curve) => of(curve)[i]!)))
  return { ...curves[0]!, curve: least(({ curve }) => curve), resampled: least(({ resampled }) => resampled) }
}

function lowestAt(curves: readonly CurveBootstrap[], at: number): number {
  return curves.reduce((low, { curve }, i) => (curve[at]! < curves[low]!.curve[at]! ? i : low), 0)
}

function underSet(line: readonly CurveSet[], row: Float64Array, sign: number): number[] {
  return line[0]!.x.map((_, at) => Math.min(...line.map(({ points }) => sign * row[points[at]!]!)))
}

/** "shot and deke", "shot, deke and braked shot". */
function listed(names: readonly string[]): string {
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`
}
