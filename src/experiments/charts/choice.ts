import { toldRange } from "../lost-in-noise.ts"
import { baselineText, comparedWith, namedValue, plain, rateOf, signed, valueText } from "../report/words.ts"
import type { PointResult, RunResults } from "../results.ts"
import {
  type Chart,
  chartNumber,
  domainOf,
  inPercent,
  questionOf,
  type Spec,
  settingLine,
  stepOf,
  titleOf,
  VEGA_LITE_SCHEMA,
} from "./chart.ts"
import { COLOURS, CONFIG, seriesMark, TEXT, WIDTH } from "./look.ts"
import { bestPoint, wholePlay } from "./series.ts"
import { textWidth, wrapText } from "./text-width.ts"

interface Row {
  readonly label: string
  readonly y: number
  readonly value: number
  readonly low: number
  readonly high: number
  readonly assumedLow: number | null
  readonly assumedHigh: number | null
  readonly text: string
  readonly isCase: boolean
  readonly best: boolean
}

const ROW = 48
const HEADING = 34
/** Paper behind a number, so that no line runs through it. */
const HALO = { color: COLOURS.ice, stroke: COLOURS.ice, strokeWidth: 6, strokeJoin: "round" }

/**
 * Dot and interval for each named alternative, the rates on the left and the differences from the baseline on the
 * right. Dots, not bars: no axis has to start at zero.
 */
export function choiceChart(results: RunResults): Chart | null {
  const isLone = results.experiment.points.length === 1
  const rated = results.points.filter((point) => rateOf(point) !== null)
  // one point shot at from several places: the whole and each place
  const points = isLone ? rated : wholePlay(rated)
  if (points.length === 0) return null
  const names = points.map((point) => rowName(results, point))
  const room = Math.max(120, ...names.map((name) => textWidth(name, TEXT.label))) + 16
  const plot = isLone ? WIDTH - 64 - room : (WIDTH - 64 - room) / 2
  const rates = rowsOf(results, points, false)
  const views = [
    dotView(rates, { plot, title: "Save rate, %", room, zero: false }),
    ...(isLone ? [] : [differenceView(results, points, plot)]),
  ]
  const hasRange = rates.some((row) => row.assumedLow !== null)
  const marks = [...(hasRange ? ["thin: assumptions"] : []), ...(isLone ? [] : ["ring: the highest"])]
  const description = names.map((name, at) => `${name}: ${rates.filter((row) => !row.isCase)[at]!.text}`).join("; ")
  return {
    name: "bars",
    title: questionOf(results.experiment),
    description,
    language: "vega-lite",
    spec: {
      $schema: VEGA_LITE_SCHEMA,
      title: titleOf(
        questionOf(results.experiment),
        [settingLine(results, "thick:"), ...(marks.length === 0 ? [] : [marks.join(" · ")])],
        WIDTH - 40,
      ),
      description,
      config: CONFIG,
      spacing: 28,
      hconcat: views,
    },
  }
}

function differenceView(results: RunResults, points: readonly PointResult[], plot: number): Spec {
  const title = `Points against ${baselineText(results.experiment, valueName(results))}`
  return dotView(rowsOf(results, points, true), { plot, title, room: 0, zero: true })
}

function rowName(results: RunResults, point: PointResult): string {
  const named = valueName(results)
  const values = results.experiment.sweep.map((swept, at) => named(swept, point.swept[at]!))
  const spot = point.spot === "all" ? [] : [point.spot]
  const name = [...spot, ...values].join(", ") || point.case
  if (name !== "") return name
  return results.points.length > 1 ? "all places" : "this run"
}

/** How a value is written: a number beside other values is told by its name, and one alone by the question. */
function valueName({ experiment }: RunResults): typeof namedValue {
  return (swept, value) =>
    swept.kind === "quantity" && experiment.sweep.length > 1 ? namedValue(swept, value) : valueText(swept, value)
}

/** Rows from the top, a heading before each case; y in px. */
function rowsOf(results: RunResults, points: readonly PointResult[], isDifference: boolean): Row[] {
  const rows: Row[] = []
  let y = 0
  const cases = new Set(points.map((point) => point.case))
  for (const name of cases) {
    const group = points.filter((point) => point.case === name)
    const best = bestPoint(points.length === cases.size ? points : group)
    if (name !== "" && rowName(results, group[0]!) !== name) {
      rows.push({ ...NOTHING, label: name, y: y + HEADING / 2, isCase: true })
      y += HEADING
    }
    for (const point of group) {
      rows.push({
        ...rowOf(point, isDifference),
        // its own baseline: a dot on the line of no difference says it
        ...(isDifference && comparedWith(results.experiment, point.index) === point.index ? { text: "" } : {}),
        label: rowName(results, point),
        y: y + ROW * 0.62,
        best: point === best && results.experiment.points.length > 1,
      })
      y += ROW
    }
  }
  return rows
}

const NOTHING: Row = {
  label: "",
  y: 0,
  value: 0,
  low: 0,
  high: 0,
  assumedLow: null,
  assumedHigh: null,
  text: "",
  isCase: false,
  best: false,
}

function rowOf(point: PointResult, isDifference: boolean): Row {
  const estimate = isDifference ? point.differences.save_rate : point.estimates.save_rate
  if (estimate === undefined) return NOTHING
  const range = toldRange(point.assumptions[isDifference ? "save_rate_vs_baseline" : "save_rate"])
  const value = inPercent(estimate.mean)
  return {
    ...NOTHING,
    value,
    low: inPercent(estimate.low),
    high: inPercent(estimate.high),
    assumedLow: range === undefined ? null : inPercent(range.low),
    assumedHigh: range === undefined ? null : inPercent(range.high),
    text: isDifference ? signed(value, 1) : plain(value, 1),
  }
}

interface View {
  readonly plot: number
  readonly title: string
  /** Room for row names on the left; 0 draws none. */
  readonly room: number
  readonly zero: boolean
}

function dotView(rows: readonly Row[], view: View): Spec {
  const drawn = rows.filter((row) => !row.isCase)
  const all = drawn.flatMap((row) => [row.low, row.high, row.assumedLow ?? row.low, row.assumedHigh ?? row.high])
  const values = view.zero ? [...all, 0] : all
  const domain = domainOf(values, stepOf(values)).map(chartNumber)
  const height = rows.at(-1)!.y + ROW / 2
  const from = view.room
  const x = {
    type: "quantitative",
    scale: { domain, range: [from, from + view.plot], nice: false, zero: false },
    axis: {
      title: wrapText(view.title, TEXT.axisTitle, view.plot, true),
      tickCount: 5,
      gridColor: COLOURS.line,
      domain: false,
      ticks: false,
      titleAnchor: "start",
      labelFlush: false,
    },
  }
  return {
    width: from + view.plot,
    height,
    view: { stroke: null },
    layer: [
      ...(view.zero ? [zeroLayer(x)] : []),
      ...drawn.flatMap((row) => rowLayers(row, x)),
      ...(from === 0 ? [] : rows.map(nameLayer)),
    ],
  }
}

/** The line of no difference. */
function zeroLayer(x: Spec): Spec {
  return {
    data: { values: [{ x: 0 }] },
    mark: { type: "rule", color: COLOURS.ink, strokeWidth: 1.5 },
    encoding: { x: { field: "x", ...x } },
  }
}

/** Name of an alternative, or of a case in bold above its own. */
function nameLayer(row: Row): Spec {
  const plainName = { type: "text", align: "left", baseline: "middle" }
  return {
    data: { values: [{ label: row.label }] },
    mark: row.isCase ? { ...plainName, fontWeight: 700, fontSize: TEXT.axisTitle } : plainName,
    encoding: { x: { value: 0 }, y: { value: row.y }, text: { field: "label" } },
  }
}

function rowLayers(row: Row, x: Spec): Spec[] {
  const { colour } = seriesMark(row.best ? 0 : 4)
  const y = { value: row.y }
  const data = { values: [row] }
  const rule = (low: string, high: string, strokeWidth: number): Spec => ({
    data,
    mark: { type: "rule", color: colour, strokeWidth, strokeCap: "round" },
    encoding: { x: { field: low, ...x }, x2: { field: high }, y },
  })
  return [
    ...(row.assumedLow === null ? [] : [rule("assumedLow", "assumedHigh", 1.6)]),
    rule("low", "high", 5.5),
    {
      data,
      mark: { type: "point", filled: true, size: 130, color: colour, opacity: 1 },
      encoding: { x: { field: "value", ...x }, y },
    },
    ...(row.best
      ? [
          {
            data,
            mark: { type: "point", filled: false, size: 420, color: COLOURS.ink, strokeWidth: 2.5, opacity: 1 },
            encoding: { x: { field: "value", ...x }, y },
          },
        ]
      : []),
    ...[true, false].map((halo) => ({
      data,
      mark: { type: "text", dy: -21, fontSize: TEXT.label, fontWeight: 600, ...(halo ? HALO : { color: COLOURS.ink }) },
      encoding: { x: { field: "value", ...x }, y, text: { field: "text" } },
    })),
  ]
}
