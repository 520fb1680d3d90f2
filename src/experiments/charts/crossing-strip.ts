import { placeText, toldCrossings } from "../report/answer-crossing.ts"
import type { Crossing, RunResults } from "../results.ts"
import { panelTitle, type Spec } from "./chart.ts"
import { toFile } from "./curve-data.ts"
import { type CurvePanel, sharedAxis } from "./curve-panel.ts"
import { COLOURS, TEXT } from "./look.ts"
import type { SweptQuantity } from "./series.ts"
import { textWidth } from "./text-width.ts"

type Axis = { readonly swept: SweptQuantity; readonly at: number }
type Panel = Omit<CurvePanel, "height" | "title">

const ROW = 26

/** The panel with the place of every crossing behind its lines: a dashed rule, and for one crossing alone both spreads. */
export function withCrossings(results: RunResults, axis: Axis, panel: Panel, view: Spec): Spec {
  const told = toldCrossings(results).filter(({ key }) => key === axis.swept.key)
  const layers = told.flatMap((crossing) => ruleLayers(crossing, axis, panel, told.length === 1))
  return { ...view, layer: [...layers, ...(view.layer as readonly Spec[])] }
}

/** One row for each crossing: the place as a dot, its sampling interval thick and its assumption range thin. */
export function crossingStrip(results: RunResults, axis: Axis, panel: Panel): Spec[] {
  const told = toldCrossings(results).filter(({ key }) => key === axis.swept.key)
  if (told.length === 0) return []
  const thin = told.some(({ assumptions }) => assumptions !== null) ? ", thin assumptions" : ""
  return [
    {
      width: panel.plot + panel.labels,
      height: ROW * told.length,
      title: panelTitle(`Where the lines cross: thick sampling${thin}`, 6),
      layer: told.flatMap((crossing, row) => rowLayers(results, crossing, axis, panel, ROW * (row + 0.5), told.length)),
    },
  ]
}

/** Pale to the ends of the assumptions, darker to those of the sampling, and the crossing itself. */
function ruleLayers({ at, assumptions }: Crossing, axis: Axis, panel: Panel, isLone: boolean): Spec[] {
  const shared = sharedAxis(panel)
  const band = (low: number, high: number, opacity: number): Spec => ({
    data: { values: [{ from: toFile(axis, low), to: toFile(axis, high) }] },
    mark: { type: "rect", color: COLOURS.ink, opacity },
    encoding: { x: { field: "from", ...shared }, x2: { field: "to" } },
  })
  return [
    ...(isLone && assumptions !== null ? [band(assumptions.low, assumptions.high, 0.06)] : []),
    ...(isLone ? [band(at!.low, at!.high, 0.16)] : []),
    {
      data: { values: [{ x: toFile(axis, at!.mean) }] },
      mark: { type: "rule", color: COLOURS.ink, strokeWidth: 1.8, strokeDash: [6, 4] },
      encoding: { x: { field: "x", ...shared } },
    },
  ]
}

function rowLayers(
  results: RunResults,
  crossing: Crossing,
  axis: Axis,
  panel: Panel,
  middle: number,
  rows: number,
): Spec[] {
  const shared = sharedAxis(panel)
  const at = crossing.at!
  const y = { value: middle }
  const span = (low: number, high: number, strokeWidth: number): Spec => ({
    data: { values: [{ from: toFile(axis, low), to: toFile(axis, high) }] },
    mark: { type: "rule", color: COLOURS.ink, strokeWidth, strokeCap: "round" },
    encoding: { x: { field: "from", ...shared }, x2: { field: "to" }, y },
  })
  const name = rows === 1 ? [] : [crossing.cases[crossing.ahead![0]]]
  const label = [placeText(results, crossing, "sampling"), ...name].join(" · ")
  const fits = textWidth(label, TEXT.label, true) <= panel.labels - 30
  const text = fits
    ? label
    : placeText(results, crossing, rows === 1 ? "sampling" : "none") + (name[0] ? ` ${name[0]}` : "")
  return [
    ...(crossing.assumptions === null ? [] : [span(crossing.assumptions.low, crossing.assumptions.high, 1.6)]),
    span(at.low, at.high, 5),
    {
      data: { values: [{ x: toFile(axis, at.mean) }] },
      mark: { type: "point", shape: "diamond", filled: true, color: COLOURS.ink, opacity: 1, size: 150 },
      encoding: { x: { field: "x", ...shared }, y },
    },
    {
      data: { values: [{ label: text }] },
      mark: {
        type: "text",
        align: "left",
        baseline: "middle",
        color: COLOURS.ink,
        fontSize: TEXT.label,
        fontWeight: 600,
        limit: panel.labels - 30,
      },
      encoding: { x: { value: panel.plot + 30 }, y, text: { field: "label" } },
    },
  ]
}
