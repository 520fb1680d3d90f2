import { VERSUS_BASELINE } from "../measures.ts"
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
}

interface Axis {
  readonly swept: SweptQuantity
  readonly at: number
}

/** Numbers of a curve panel: the save rate itself, or its difference from the baseline. */
export function curveOf(series: readonly Series[], axis: Axis, what: CurvePick): Curve {
  const rows = series.flatMap((one, index) => {
    const best = markedPoint(one, axis)
    return one.points.flatMap((point) => {
      const row = rowOf(point, what)
      return row === null ? [] : [{ ...row, series: index, x: at(axis, point), best: point === best }]
    })
  })
  const single = series.length === 1 ? series[0]!.finding : null
  return {
    series,
    rows,
    frozen: what.pick === "value" && series.length === 1 ? frozenRows(series, axis) : [],
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
  const isValue = what.pick === "value"
  const estimate = isValue ? point.estimates.save_rate : point.differences.save_rate
  if (estimate === undefined || !Number.isFinite(estimate.mean)) return null
  const range = what.assumptions ? point.assumptions[isValue ? "save_rate" : `save_rate${VERSUS_BASELINE}`] : undefined
  return {
    y: inPercent(estimate.mean),
    low: inPercent(estimate.low),
    high: inPercent(estimate.high),
    assumedLow: range === undefined ? null : inPercent(range.low),
    assumedHigh: range === undefined ? null : inPercent(range.high),
  }
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
