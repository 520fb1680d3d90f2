import type { SeedKey } from "../../sim/random/streams.ts"
import { topOfCurve } from "../../sim/statistics/curve-best.ts"
import { type CurveBootstrap, estimateFromResamples, resampledCurve } from "../../sim/statistics/curve-bootstrap.ts"
import { areaBetween, crossingOfCurves, crossings, mainCrossing } from "../../sim/statistics/curve-crossing.ts"
import { valueAt } from "../../sim/statistics/curve-missed.ts"
import { casesAreAlternatives, isDecision, isGoalies } from "../decision.ts"
import type { Experiment } from "../experiment.ts"
import { ratedBy, signOf } from "../rated.ts"
import { namedValue, valueText } from "../report/words.ts"
import type { AssumptionRange, Crossing, Rival, Shift } from "../results.ts"
import { rangeAround } from "./assumption-range.ts"
import { type CurveSet, resampledRates } from "./curves.ts"
import { WEIGHTS_ALONE } from "./groups.ts"
import { CONFIDENCE } from "./intervals.ts"
import { commonShots, type PointTallies } from "./point-tallies.ts"

/** What pairs of curves are made from. `rates` is [sets + 1][points] of the assumption sets, row 0 the default. */
export interface PairSource {
  readonly experiment: Experiment
  readonly sets: readonly CurveSet[]
  readonly sums: readonly PointTallies[]
  readonly key: SeedKey
  readonly rates: readonly Float64Array[] | null
}

type Pair = readonly [CurveSet, CurveSet]

/** Where the curves of two alternatives cross: two cases, or two names of one choice, with all else the same. */
export function crossingFindings(source: PairSource): Crossing[] {
  return pairsOf(source.sets).flatMap((pair) => {
    const [a, b] = pair
    const differing = differingOthers(a, b)
    const isPair = a.case === b.case ? isOneChoice(source.experiment, a, differing) : differing.length === 0
    if (!isPair || areMixes(source, pair) || a.points.length < 2 || JSON.stringify(a.x) !== JSON.stringify(b.x))
      return []
    const [one, other] = curvesOf(source, pair)
    const rest = source.experiment.sweep.filter((swept) => swept.key !== a.key)
    const shared = a.others.flatMap((value, at) => (differing.includes(at) ? [] : [namedValue(rest[at]!, value)]))
    const places = crossings(one.x, one.curve, other.curve)
    const where = [a.case === b.case ? a.case : "", ...shared].filter((part) => part !== "").join(", ")
    const label = (set: CurveSet): string =>
      a.case === b.case ? valueText(rest[differing[0]!]!, set.others[differing[0]!]!) : set.case
    return [
      {
        cases: [label(a), label(b)] as const,
        key: a.key,
        ...crossingOf(source, pair, one, other),
        ...(places.length > 1 ? { places } : {}),
        where,
        ...(playOf(source, a) === playOf(source, b) ? {} : { plays: true }),
      },
    ]
  })
}

/** How the best place moves with a trait, from its least to its largest value; curves along a decision alone. */
export function shiftFindings(source: PairSource): Shift[] {
  const { experiment, sets } = source
  const rest = experiment.sweep.filter((swept) => swept.key !== sets[0]?.key)
  return pairsOf(sets.filter((set) => isDecision(set.key) && set.points.length >= 3)).flatMap((pair) => {
    const differing = differingOthers(...pair)
    const swept = rest[differing[0] ?? -1]
    if (pair[0].case !== pair[1].case || differing.length !== 1 || swept?.kind !== "quantity") return []
    const [low, high] = pair.toSorted((a, b) => Number(a.others[differing[0]!]) - Number(b.others[differing[0]!]))
    const [from, to] = [Number(low!.others[differing[0]!]), Number(high!.others[differing[0]!])]
    const isWhole = from === Math.min(...swept.values) && to === Math.max(...swept.values)
    if (!isGoalies(swept.key) || isDecision(swept.key) || !isWhole) return []
    return [{ case: low!.case, key: swept.key, from, to, along: low!.key, ...shiftBetween(source, [low!, high!]) }]
  })
}

/** What each way of the goalie is worth against the baseline's way, each at its own best; curves along a decision alone. */
export function rivalFindings(source: PairSource): Rival[] {
  const { experiment, sets } = source
  if (!casesAreAlternatives(experiment)) return []
  const base = experiment.points[experiment.baseline]!.case
  const lines = sets.filter((set) => isDecision(set.key) && set.points.length >= 3)
  return pairsOf(lines).flatMap((pair) => {
    if (differingOthers(...pair).length > 0) return []
    const against = pair.find((set) => set.case === base)
    const rival = pair.find((set) => set.case !== base)
    if (against === undefined || rival === undefined) return []
    const { rate, rateAssumptions } = shiftBetween(source, [against, rival])
    return [{ case: rival.case, against: base, along: rival.key, others: rival.others, rate, rateAssumptions }]
  })
}

function shiftBetween(
  source: PairSource,
  pair: Pair,
): Pick<Shift, "best" | "bestAssumptions" | "rate" | "rateAssumptions"> {
  const [low, high] = curvesOf(source, pair)
  const [lowTop, highTop] = [topOfCurve(low.x, low.curve), topOfCurve(high.x, high.curve)]
  const move = (a: ArrayLike<number>, b: ArrayLike<number>): number => topOfCurve(high.x, b) - topOfCurve(low.x, a)
  // each curve at the place a reader will aim for: the best of the whole run
  const gain = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
    valueAt(high.x, b, highTop) - valueAt(low.x, a, lowTop)
  const estimate = (of: typeof move) =>
    estimateFromResamples(of(low.curve, high.curve), overResamples(low, high, of), low, CONFIDENCE)
  const underSets = setCurves(source, pair, low, high)
  const range = (of: typeof move): AssumptionRange | null =>
    underSets === null
      ? null
      : rangeAround(
          0,
          underSets.map(([a, b]) => of(a, b)),
        )
  return { best: estimate(move), bestAssumptions: range(move), rate: estimate(gain), rateAssumptions: range(gain) }
}

function overResamples(
  a: CurveBootstrap,
  b: CurveBootstrap,
  of: (a: Float64Array, b: Float64Array) => number,
): Float64Array {
  return Float64Array.from({ length: a.resamples }, (_, i) => of(resampledCurve(a, i), resampledCurve(b, i)))
}

/** Whether two curves are mixes of the same shots: what lies between two pure plays crosses where they do, or nowhere. */
function areMixes({ experiment }: PairSource, [a, b]: Pair): boolean {
  const [one, other] = [a, b].map((set) => experiment.points[set.points[0]!]!.settings.quantities)
  const isPure = (share: number): boolean => share === 0 || share === 1
  const isPlain = one!["shooter.choice_skill"] === 0 && other!["shooter.choice_skill"] === 0
  const differs = WEIGHTS_ALONE.some((key) => key !== a.key && one![key] !== other![key])
  return differs && !(isPlain && isPure(one!["play.pass_share"]) && isPure(other!["play.pass_share"]))
}

/** Kind of the play behind a curve. */
function playOf({ experiment }: PairSource, set: CurveSet): string {
  return experiment.points[set.points[0]!]!.settings.choices["play.kind"]
}

/** Where two curves cross, which is the better before and after, and where under each set of assumed parameters. */
function crossingOf(
  source: PairSource,
  pair: Pair,
  one: CurveBootstrap,
  other: CurveBootstrap,
): Pick<Crossing, "at" | "ahead" | "assumptions" | "beyond"> {
  const { place: at, direction } = crossingOfCurves(one, other, CONFIDENCE)
  const { x } = one
  const curves = setCurves(source, pair, one, other) ?? []
  const way = direction === 0 ? undefined : direction
  const places = curves.map(([a, b]) => mainCrossing(x, a, b, way)?.place ?? null)
  const crossed = places.filter((place) => place !== null)
  if (at === null) return { at, assumptions: crossed.length === 0 ? null : rangeAround(0, crossed) }
  const ahead = direction === 1 ? ([0, 1] as const) : ([1, 0] as const)
  if (curves.length === 0) return { at, ahead, assumptions: null }
  // without such a crossing it lies beyond the sweep, on the side that tells which curve is ahead on the whole
  const isAbove = curves.map(
    ([a, b], set) => places[set] === null && direction * areaBetween(x, a, b, x[0]!, x.at(-1)!) > 0,
  )
  const held = places.map((place, set) => place ?? (isAbove[set] ? x.at(-1)! : x[0]!))
  const above = isAbove.filter(Boolean).length
  const beyond = { below: held.length - crossed.length - above, above }
  return { at, ahead, assumptions: rangeAround(0, held), ...(crossed.length < held.length ? { beyond } : {}) }
}

/** Both curves under each set of assumed parameters: the whole run's rates plus the set's departures on its own shots. */
function setCurves(
  { experiment, rates }: PairSource,
  [a, b]: Pair,
  one: CurveBootstrap,
  other: CurveBootstrap,
): (readonly [number[], number[]])[] | null {
  if (rates === null) return null
  const sign = signOf(ratedBy(experiment))
  const moved = (set: CurveSet, curve: Float64Array, row: Float64Array): number[] =>
    set.points.map((point, at) => curve[at]! + sign * (row[point]! - rates[0]![point]!))
  return rates.slice(1).map((row) => [moved(a, one.curve, row), moved(b, other.curve, row)] as const)
}

function curvesOf({ experiment, sums, key }: PairSource, [a, b]: Pair): [CurveBootstrap, CurveBootstrap] {
  const rated = ratedBy(experiment)
  const shots = commonShots(sums, [...a.points, ...b.points])
  return [resampledRates(a, sums, key, rated, shots), resampledRates(b, sums, key, rated, shots)]
}

function pairsOf(sets: readonly CurveSet[]): Pair[] {
  return sets.flatMap((a, i) => sets.slice(i + 1).map((b) => [a, b] as const))
}

/** Places among the other swept values at which two curves differ. */
function differingOthers(a: CurveSet, b: CurveSet): number[] {
  return a.others.flatMap((value, at) => (value === b.others[at] ? [] : [at]))
}

function isOneChoice(experiment: Experiment, set: CurveSet, differing: readonly number[]): boolean {
  const rest = experiment.sweep.filter((swept) => swept.key !== set.key)
  const swept = rest[differing[0] ?? -1]
  return differing.length === 1 && swept?.kind === "choice" && isGoalies(swept.key)
}
