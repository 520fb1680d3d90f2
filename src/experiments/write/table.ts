import { MEASURES, VERSUS_BASELINE } from "../measures.ts"
import { inFileUnit } from "../report/words.ts"
import type { PointResult, RunResults } from "../results.ts"
import { tableNumber } from "./number-text.ts"
import { columnOf } from "./unit-suffix.ts"

/** One column of the tidy table; a missing number is null. */
export type Column =
  | { readonly name: string; readonly kind: "number"; readonly values: readonly (number | null)[] }
  | { readonly name: string; readonly kind: "text"; readonly values: readonly string[] }

/** The tidy table behind results.csv and results.parquet: one row for each design point and spot. */
export interface Table {
  readonly columns: readonly Column[]
  readonly rows: number
}

type Pick = (point: PointResult) => number | undefined

/** The table of a run: swept values, case, spot, every measure with its interval, differences, assumptions, shots, seed. */
export function tableOf(results: RunResults): Table {
  const { points } = results
  const numbers = (name: string, pick: Pick): Column => ({
    name,
    kind: "number",
    values: points.map((point) => cell(pick(point))),
  })
  const texts = (name: string, pick: (point: PointResult) => string): Column => ({
    name,
    kind: "text",
    values: points.map(pick),
  })
  const columns = [
    ...sweptColumns(results),
    texts("case", (point) => point.case),
    texts("spot", (point) => point.spot),
    ...measureColumns(points, numbers),
    ...differenceColumns(points, numbers),
    ...assumptionColumns(points, numbers),
    numbers("shots", (point) => point.shots),
    ...(points.some(({ stoppedBy }) => stoppedBy !== undefined)
      ? [texts("stopped_by", (point) => point.stoppedBy ?? "")]
      : []),
    texts("seed", () => results.experiment.seed),
    texts("remarks", (point) => point.remarks.join("; ")),
  ]
  return { columns, rows: points.length }
}

function cell(value: number | undefined): number | null {
  return value === undefined || !Number.isFinite(value) ? null : tableNumber(value)
}

/** Swept quantities in the unit of the file, swept choices by name. */
function sweptColumns(results: RunResults): Column[] {
  return results.experiment.sweep.map((swept, at) =>
    swept.kind === "choice"
      ? { name: swept.key, kind: "text", values: results.points.map((point) => String(point.swept[at])) }
      : {
          name: columnOf(swept.key, swept.unit),
          kind: "number",
          values: results.points.map((point) => cell(inFileUnit(swept, Number(point.swept[at])))),
        },
  )
}

/** A measure that no point has gives no column. */
function measureColumns(points: readonly PointResult[], numbers: (name: string, pick: Pick) => Column): Column[] {
  return MEASURES.flatMap(({ key }) => {
    const isSampled = points.some((point) => key in point.estimates)
    if (isSampled) return withEnds(key, numbers, (point) => point.estimates[key])
    return points.some((point) => key in point.exact) ? [numbers(key, (point) => point.exact[key])] : []
  })
}

function differenceColumns(points: readonly PointResult[], numbers: (name: string, pick: Pick) => Column): Column[] {
  return MEASURES.flatMap(({ key }) =>
    points.some((point) => key in point.differences)
      ? withEnds(key + VERSUS_BASELINE, numbers, (point) => point.differences[key])
      : [],
  )
}

function withEnds(
  name: string,
  numbers: (name: string, pick: Pick) => Column,
  of: (point: PointResult) => { readonly mean: number; readonly low: number; readonly high: number } | undefined,
): Column[] {
  return [
    numbers(name, (point) => of(point)?.mean),
    numbers(`${name}_low`, (point) => of(point)?.low),
    numbers(`${name}_high`, (point) => of(point)?.high),
  ]
}

function assumptionColumns(points: readonly PointResult[], numbers: (name: string, pick: Pick) => Column): Column[] {
  const keys = MEASURES.flatMap(({ key }) => [key, key + VERSUS_BASELINE])
  return keys.flatMap((key) =>
    points.some((point) => key in point.assumptions)
      ? [
          numbers(`${key}_assumptions_low`, (point) => point.assumptions[key]?.low),
          numbers(`${key}_assumptions_high`, (point) => point.assumptions[key]?.high),
          numbers(`${key}_assumptions_noise`, (point) => point.assumptions[key]?.noise),
        ]
      : [],
  )
}
