import { axisOf } from "../decision.ts"
import type { Swept } from "../experiment.ts"
import { inFileUnit, namedValue } from "../report/words.ts"
import type { CurveFinding, PointResult, RunResults } from "../results.ts"
import { type SeriesMark, seriesMark } from "./look.ts"

/** A swept quantity, as an axis needs it. */
export type SweptQuantity = Swept & { readonly kind: "quantity" }

/** One line of a chart: a case, a value of the other swept keys, or a spot. */
export interface Series {
  readonly label: string
  readonly mark: SeriesMark
  /** In the order of the axis. */
  readonly points: readonly PointResult[]
  readonly finding: CurveFinding | null
}

/** The quantity on the horizontal axis with its place in the sweep; null when only choices are swept. */
export function axisQuantity(results: RunResults): { readonly swept: SweptQuantity; readonly at: number } | null {
  const at = axisOf(results.experiment.sweep)
  return at < 0 ? null : { swept: results.experiment.sweep[at] as SweptQuantity, at }
}

/** Points of the whole play; of every spot where no point speaks for all. */
export function wholePlay(points: readonly PointResult[]): readonly PointResult[] {
  const whole = points.filter((point) => point.spot === "all")
  return whole.length > 0 ? whole : points
}

/** Splits a run's points into lines along the axis at `along`. */
export function seriesOf(results: RunResults, along: number): Series[] {
  const groups = new Map<string, PointResult[]>()
  for (const point of wholePlay(results.points)) {
    const key = JSON.stringify([point.case, point.spot, others(point.swept, along)])
    groups.set(key, [...(groups.get(key) ?? []), point])
  }
  return [...groups.values()].map((points, index) => ({
    label: labelOf(results, points[0]!, along),
    mark: seriesMark(index),
    points: points.toSorted((a, b) => Number(a.swept[along]) - Number(b.swept[along])),
    finding: findingOf(results, points[0]!, along),
  }))
}

function others(swept: readonly (number | string)[], along: number): readonly (number | string)[] {
  return swept.filter((_, at) => at !== along)
}

function labelOf(results: RunResults, point: PointResult, along: number): string {
  const values = results.experiment.sweep.flatMap((swept, at) =>
    at === along ? [] : [namedValue(swept, point.swept[at]!)],
  )
  const spot = point.spot === "all" ? [] : [point.spot]
  return [point.case, ...spot, ...values].filter((part) => part !== "").join(", ")
}

function findingOf(results: RunResults, point: PointResult, along: number): CurveFinding | null {
  const rest = others(point.swept, along)
  const same = (curve: CurveFinding): boolean =>
    curve.case === point.case &&
    curve.spot === point.spot &&
    curve.key === results.experiment.sweep[along]!.key &&
    (curve.others === undefined ? rest.length === 0 : JSON.stringify(curve.others) === JSON.stringify(rest))
  return results.curves.find(same) ?? null
}

/** The point of a line that is best by its mean. */
export function bestPoint(points: readonly PointResult[], measure = "save_rate"): PointResult | undefined {
  const rate = (point: PointResult): number => {
    const mean = point.estimates[measure]?.mean
    return mean === undefined || Number.isNaN(mean) ? Number.NEGATIVE_INFINITY : mean
  }
  return points.reduce<PointResult | undefined>(
    (best, point) => (best === undefined || rate(point) > rate(best) ? point : best),
    undefined,
  )
}

/** Value of a point on the axis, in the unit of the file. */
export function axisValue(swept: SweptQuantity, point: PointResult, at: number): number {
  return inFileUnit(swept, Number(point.swept[at]))
}
