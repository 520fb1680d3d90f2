import { QUANTITIES, type QuantityKey } from "../../models/settings.ts"
import { fillUniforms, PLAY, type SeedKey } from "../../sim/random/streams.ts"
import { topOfCurve } from "../../sim/statistics/curve-best.ts"
import type { Tally } from "../../sim/tally.ts"
import * as T from "../../sim/tally.ts"
import type { Experiment } from "../experiment.ts"
import { GOALS_SAVED, PER_ATTEMPTS, VERSUS_BASELINE } from "../measures.ts"
import { type Rated, signOf } from "../rated.ts"
import type { AssumptionRange, CurveFinding, PointResult } from "../results.ts"
import { type HalvedRows, rangeAround, rangeUnder } from "./assumption-range.ts"
import { ALL_SPOTS, columnOf } from "./columns.ts"
import type { CurveSet } from "./curves.ts"
import type { Group } from "./groups.ts"
import { ALL_GOALS, sharesOf } from "./shares.ts"

/** Parameter sets drawn for the assumption range. */
export const ASSUMPTION_SETS = 64
/** Replicate number under which the sets are drawn: far from those of the shots. */
const SETS_REPLICATE = 0x5e75

/** Parameters that are drawn: those with a range that the file neither sets nor sweeps. */
export function assumedKeys(experiment: Experiment): QuantityKey[] {
  const chosen = new Set<string>([...experiment.setByFile, ...experiment.sweep.map((swept) => swept.key)])
  return (Object.keys(QUANTITIES) as QuantityKey[]).filter((key) => {
    const { low, high, source, value } = QUANTITIES[key]
    return source !== "choice" && high > low && Number.isFinite(value) && !chosen.has(key) && shared(experiment, key)
  })
}

/** A parameter that every point holds at its default is an assumption; one that a case changes is a choice. */
function shared(experiment: Experiment, key: QuantityKey): boolean {
  return experiment.points.every(({ settings }) => settings.quantities[key] === QUANTITIES[key].value)
}

/**
 * Latin hypercube over the ranges of the parameters: each parameter's range is cut into as many equal parts as there
 * are sets, and each part is drawn once. Set 0 is the default itself.
 */
export function assumptionSets(keys: readonly QuantityKey[], key: SeedKey): Record<string, number>[] {
  const draws = new Float64Array(ASSUMPTION_SETS * 2)
  const sets: Record<string, number>[] = Array.from({ length: ASSUMPTION_SETS + 1 }, () => ({}))
  keys.forEach((name) => {
    fillUniforms(key, SETS_REPLICATE, PLAY, columnOfKey(name) * ASSUMPTION_SETS, ASSUMPTION_SETS, 2, draws)
    // a random order of the parts: sort by the first draw, place inside the part by the second
    const order = Array.from({ length: ASSUMPTION_SETS }, (_, i) => i).toSorted((a, b) => draws[2 * a]! - draws[2 * b]!)
    const { low, high } = QUANTITIES[name]
    order.forEach((part, i) => {
      sets[i + 1]![name] = low + ((part + draws[2 * i + 1]!) / ASSUMPTION_SETS) * (high - low)
    })
  })
  return sets
}

/** Where the draws of a parameter begin: made from its name, so that a new parameter leaves the others' draws alone. */
function columnOfKey(name: string): number {
  let hash = 0x811c9dc5
  for (let i = 0; i < name.length; i++) hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193)
  return (hash >>> 0) % 0x1000000
}

/** What every design point comes to under every set, [sets + 1][points] each, row 0 the default. */
export interface UnderSets {
  /** As the file rates it. */
  readonly rates: HalvedRows
  /** Goals over all attempts, those on the rebound included. */
  readonly goals: HalvedRows
}

/** Writes the rate of every design point of a group under one set, from that set's tally, to `rates` [points]. */
export function ratesOf({ points }: Group, tally: Tally, rated: Rated, rates: Float64Array): void {
  points.forEach((point, pose) => {
    const sum = (column: number) => columnOf([tally], pose, ALL_SPOTS, column)[0]!
    rates[point] =
      rated === "save_rate"
        ? sum(T.SAVED) / sum(T.ON_GOAL_SUM)
        : (sum(T.ON_GOAL_SUM) - sum(T.SAVED)) / sum(T.SHOTS_COUNTED)
  })
}

/** Writes the goals over all attempts, those on the rebound included, likewise to `goals` [points]. */
export function goalsOf({ points }: Group, tally: Tally, goals: Float64Array): void {
  points.forEach((point, pose) => {
    const { above, below } = sharesOf([tally], pose, ALL_SPOTS)[ALL_GOALS]!
    goals[point] = above[0]! / below[0]!
  })
}

/**
 * Adds the assumption ranges: each set's departure from the default on the same shots, put onto the estimate of the
 * whole run.
 */
export function withAssumptions(
  results: readonly PointResult[],
  { rates, goals }: UnderSets,
  baselineOf: (index: number) => number,
  rated: Rated,
): PointResult[] {
  return results.map((point) => {
    if (point.spot !== "all") return point
    const i = point.index
    const b = baselineOf(i)
    const against = (row: Float64Array): number => row[i]! - row[b]!
    const assumptions: Record<string, AssumptionRange> = {}
    assumptions[rated] = asShare(rangeUnder(rates, point.estimates[rated]!.mean, (row) => row[i]!))
    const difference = point.differences[rated]
    if (difference !== undefined)
      assumptions[`${rated}${VERSUS_BASELINE}`] = rangeUnder(rates, difference.mean, against)
    const saved = point.estimates[GOALS_SAVED]
    if (saved !== undefined)
      assumptions[GOALS_SAVED] = rangeUnder(goals, saved.mean, (row) => -PER_ATTEMPTS * against(row))
    return { ...point, assumptions }
  })
}

/** Adds the range of each curve's best place: the best under every set. */
export function withBestAssumptions(
  findings: readonly CurveFinding[],
  sets: readonly CurveSet[],
  rates: readonly Float64Array[],
  rated: Rated,
): CurveFinding[] {
  return findings.map((finding) => {
    const set = sets.find(
      (s) => s.case === finding.case && JSON.stringify(s.others) === JSON.stringify(finding.others),
    )!
    const places = rates.slice(1).map((row) =>
      topOfCurve(
        set.x,
        set.points.map((point) => signOf(rated) * row[point]!),
      ),
    )
    return { ...finding, bestAssumptions: rangeAround(0, places) }
  })
}

/** A departure put onto a rate may lead past what a share can be: it ends at none and at all. */
function asShare(range: AssumptionRange): AssumptionRange {
  return { ...range, low: Math.max(0, range.low), high: Math.min(1, range.high) }
}
