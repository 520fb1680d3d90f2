import { toldRange } from "../lost-in-noise.ts"
import { type Measure, measureOf, VERSUS_BASELINE } from "../measures.ts"
import { printOf } from "../report/measure-text.ts"
import type { PointResult } from "../results.ts"
import { chartNumber, inPercent } from "./chart.ts"
import { axisValue, bestPoint, type Series, type SweptQuantity } from "./series.ts"

/** One place on one line, in percent or points, and in the unit of the file along the axis. */
export interface CurveRow {
  readonly series: number
  readonly x: number
  readonly y: number
  readonly low: number
  readonly high: number
  readonly assumedLow: number | null
  readonly assumedHigh: number | null
  readonly best: boolean
}

/** Lines ready to draw. */
export interface Curve {
  readonly series: readonly Series[]
  readonly rows: readonly CurveRow[]
  /** Saved by position alone, where it was measured; drawn thin. */
  readonly frozen: readonly { readonly series: number; readonly x: number; readonly y: number }[]
  readonly plateau: { readonly from: number; readonly to: number } | null
}

export interface CurvePick {
  readonly pick: "value" | "difference"
  readonly assumptions: boolean
  /** Key of the measure; the save rate unless given. */
  readonly measure?: string
  /** Marks the best of each line; only where the axis is the goalie's to decide. */
  readonly ring?: boolean
  /** Draws what position alone saves into the same panel. */
  readonly frozen?: boolean
}

interface Axis {
  readonly swept: SweptQuantity
  readonly at: number
}

/** Numbers of a curve panel: the save rate itself, or its difference from the baseline. */
export function curveOf(series: readonly Series[], axis: Axis, what: CurvePick): Curve {
  const rows = series.flatMap((one, index) => {
    const best = what.ring === false ? undefined : markedPoint(one, axis)
    return one.points.flatMap((point) => {
      const row = rowOf(point, what)
      return row === null ? [] : [{ ...row, series: index, x: at(axis, point), best: point === best }]
    })
  })
  const single = series.length === 1 && (what.measure ?? "save_rate") === "save_rate" ? series[0]!.finding : null
  return {
    series,
    rows,
    frozen: what.frozen === true ? frozenRows(series, axis) : [],
    plateau: single === null ? null : { from: toFile(axis, single.plateau.from), to: toFile(axis, single.plateau.to) },
  }
}

/** The point a ring marks: the one nearest the best that was found, else the highest. */
function markedPoint(one: Series, axis: Axis): PointResult | undefined {
  const { finding, points } = one
  if (finding === null) return bestPoint(points)
  const away = (point: PointResult): number => Math.abs(Number(point.swept[axis.at]) - finding.best.mean)
  return points.toSorted((a, b) => away(a) - away(b))[0]
}

function rowOf(point: PointResult, what: CurvePick): Omit<CurveRow, "series" | "x" | "best"> | null {
  const key = what.measure ?? "save_rate"
  const measure = measureOf(key)
  if (measure?.kind === "exact") return exactRow(point, measure)
  const isValue = what.pick === "value"
  const estimate = isValue ? point.estimates[key] : point.differences[key]
  if (estimate === undefined || !Number.isFinite(estimate.mean)) return null
  const range = what.assumptions ? toldRange(point.assumptions[isValue ? key : `${key}${VERSUS_BASELINE}`]) : undefined
  const shown = (value: number): number => chartNumber(value * factorOf(measure))
  return {
    y: shown(estimate.mean),
    low: shown(estimate.low),
    high: shown(estimate.high),
    assumedLow: range === undefined ? null : shown(range.low),
    assumedHigh: range === undefined ? null : shown(range.high),
  }
}

/** Geometry has no interval: its band has no width. */
function exactRow(point: PointResult, measure: Measure): Omit<CurveRow, "series" | "x" | "best"> | null {
  const value = point.exact[measure.key]
  if (value === undefined || !Number.isFinite(value)) return null
  const y = chartNumber(value * factorOf(measure))
  return { y, low: y, high: y, assumedLow: null, assumedHigh: null }
}

function factorOf(measure: Measure | undefined): number {
  return measure === undefined ? 100 : printOf(measure).factor
}

function frozenRows(series: readonly Series[], axis: Axis): Curve["frozen"] {
  return series.flatMap((one, index) =>
    one.points.flatMap((point) => {
      const frozen = point.estimates.position_rate
      return frozen === undefined ? [] : [{ series: index, x: at(axis, point), y: inPercent(frozen.mean) }]
    }),
  )
}

function at(axis: Axis, point: PointResult): number {
  return chartNumber(axisValue(axis.swept, point, axis.at))
}

/** A value in SI along the axis, in the unit of the file. */
export function toFile(axis: Axis, value: number): number {
  return chartNumber((value - axis.swept.unitZero) / axis.swept.unitFactor)
}
