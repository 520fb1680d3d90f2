import { axisTitle } from "../report/words.ts"
import { chartNumber, domainOf, type Spec, stepOf } from "./chart.ts"
import type { Curve } from "./curve-data.ts"
import { COLOURS, TEXT } from "./look.ts"
import type { Series, SweptQuantity } from "./series.ts"
import { spreadLabels } from "./text-width.ts"

/** Size and axes of one panel of the curve chart. */
export interface CurvePanel {
  readonly plot: number
  readonly labels: number
  readonly height: number
  readonly swept: SweptQuantity
  /** Whether the panel carries the labels of the shared axis. */
  readonly axisShown: boolean
  readonly title: string
  /** Draws the line of no difference. */
  readonly zero?: boolean
}

/** Horizontal axis shared by all panels: the scale ends with the plot, the room behind it is for labels. */
export function sharedAxis(panel: Omit<CurvePanel, "height" | "title">): Spec {
  const values = panel.swept.values.map((value) => (value - panel.swept.unitZero) / panel.swept.unitFactor)
  const [from, to] = [Math.min(...values), Math.max(...values)].map(chartNumber) as [number, number]
  const spare = from === to ? 1 : (to - from) * 0.025
  return {
    type: "quantitative",
    scale: { domain: [from - spare, to + spare], range: [0, panel.plot], nice: false, zero: false },
    axis: panel.axisShown
      ? { title: axisTitle(panel.swept), grid: false, tickCount: 8, titleAnchor: "start", domain: true }
      : { title: null, labels: false, ticks: false, grid: false, domain: false },
  }
}

/** One panel: bands, assumption whiskers, lines, dots, the best and the label at the end of each line. */
export function curvePanel(curve: Curve, panel: CurvePanel): Spec {
  const heights = curve.rows.flatMap((row) => [
    row.low,
    row.high,
    row.assumedLow ?? row.low,
    row.assumedHigh ?? row.high,
  ])
  const all = [...heights, ...curve.frozen.map((row) => row.y), ...(panel.zero ? [0] : [])]
  const step = stepOf(all)
  const domain = domainOf(all, step).map(chartNumber) as [number, number]
  const x = { field: "x", ...sharedAxis(panel) }
  const y = {
    field: "y",
    type: "quantitative",
    scale: { domain, nice: false, zero: false },
    axis: { title: panel.title, tickCount: 6, gridColor: COLOURS.line, domain: false, ticks: false, minExtent: 38 },
  }
  return {
    width: panel.plot + panel.labels,
    height: panel.height,
    layer: [
      ...plateauLayer(curve, panel),
      ...(panel.zero ? [zeroLayer(panel)] : []),
      ...frozenLayers(curve, panel, domain, x, y),
      ...curve.series.flatMap((_, index) => seriesLayers(curve, index, x, y)),
      ...labelLayers(curve, panel, domain),
    ],
  }
}

function plateauLayer(curve: Curve, panel: CurvePanel): Spec[] {
  if (curve.plateau === null) return []
  const x = { field: "from", ...sharedAxis(panel) }
  return [
    {
      data: { values: [curve.plateau] },
      mark: { type: "rect", color: COLOURS.plateau },
      encoding: { x, x2: { field: "to" } },
    },
  ]
}

function zeroLayer(panel: CurvePanel): Spec {
  return {
    data: { values: [{ y: 0, from: 0, to: panel.plot }] },
    mark: { type: "rule", color: COLOURS.ink, strokeWidth: 1.5 },
    encoding: { y: { field: "y", type: "quantitative" }, x: { value: 0 }, x2: { value: panel.plot } },
  }
}

/** The body frozen as it stands: what position alone would save. */
function frozenLayers(curve: Curve, panel: CurvePanel, domain: readonly [number, number], x: Spec, y: Spec): Spec[] {
  const last = curve.frozen.at(-1)
  if (last === undefined) return []
  const height = chartNumber(((domain[1] - last.y) * panel.height) / (domain[1] - domain[0]))
  return [
    {
      data: { values: curve.frozen },
      mark: { type: "line", color: COLOURS.quietInk, strokeWidth: 2, strokeDash: [3, 4] },
      encoding: { x, y },
    },
    {
      data: { values: [{ label: "limbs frozen" }] },
      mark: { type: "text", align: "left", baseline: "middle", color: COLOURS.quietInk, fontSize: TEXT.label },
      encoding: { x: { value: panel.plot + 12 }, y: { value: height }, text: { field: "label" } },
    },
  ]
}

function seriesLayers(curve: Curve, index: number, x: Spec, y: Spec): Spec[] {
  const { colour, dash, shape } = curve.series[index]!.mark
  const rows = curve.rows.filter((row) => row.series === index)
  const data = { values: rows }
  const assumed = rows.filter((row) => row.assumedLow !== null)
  const whiskers = {
    data: { values: assumed },
    mark: { type: "rule", color: colour, strokeWidth: 1.5, opacity: 0.55 },
    encoding: { x, y: { ...y, field: "assumedLow" }, y2: { field: "assumedHigh" } },
  }
  return [
    ...(assumed.length > 0 ? [whiskers] : []),
    {
      data,
      mark: { type: "area", color: colour, opacity: 0.2 },
      encoding: { x, y: { ...y, field: "low" }, y2: { field: "high" } },
    },
    {
      data,
      mark: { type: "line", color: colour, strokeWidth: 3, strokeDash: dash },
      encoding: { x, y },
    },
    { data, mark: { type: "point", shape, filled: true, color: colour, opacity: 1, size: 52 }, encoding: { x, y } },
    {
      data: { values: rows.filter((row) => row.best) },
      mark: {
        type: "point",
        shape: "circle",
        filled: false,
        color: COLOURS.ink,
        strokeWidth: 2.5,
        opacity: 1,
        size: 300,
      },
      encoding: { x, y },
    },
  ]
}

/** Labels at the ends of the lines, moved apart where they would touch; each repeats the shape of its line. */
function labelLayers(curve: Curve, panel: CurvePanel, domain: readonly [number, number]): Spec[] {
  const ends = curve.series.flatMap((series, index) => {
    const last = curve.rows.findLast((row) => row.series === index)
    return last === undefined || series.label === "" ? [] : [{ series, last }]
  })
  if (ends.length === 0) return []
  const scale = panel.height / (domain[1] - domain[0])
  const ideal = ends.map(({ last }) => (domain[1] - last.y) * scale)
  const placed = spreadLabels(ideal, TEXT.label * 1.3, 8, panel.height - 8)
  return ends.flatMap(({ series }, at) =>
    endLabel(series, { from: chartNumber(ideal[at]!), to: chartNumber(placed[at]!) }, panel),
  )
}

/** A thin leader from the end of the line, the line's own shape, and its name. */
function endLabel(series: Series, height: { readonly from: number; readonly to: number }, panel: CurvePanel): Spec[] {
  const { colour, shape } = series.mark
  const y = { value: height.to }
  const once = { values: [{ label: series.label }] }
  const name = { type: "text", align: "left", baseline: "middle", fontSize: TEXT.label, fontWeight: 600 }
  return [
    {
      data: once,
      mark: { type: "rule", color: colour, strokeWidth: 1, opacity: 0.6 },
      encoding: {
        x: { value: panel.plot - 4 },
        y: { value: height.from },
        x2: { value: panel.plot + 14 },
        y2: { value: height.to },
      },
    },
    {
      data: once,
      mark: { type: "point", shape, filled: true, color: colour, opacity: 1, size: 70 },
      encoding: { x: { value: panel.plot + 20 }, y },
    },
    {
      data: once,
      mark: { ...name, color: colour, limit: panel.labels - 30 },
      encoding: { x: { value: panel.plot + 30 }, y, text: { field: "label" } },
    },
  ]
}
