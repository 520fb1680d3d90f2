import { decimalsOf, plain, withUnit } from "../report/words.ts"
import type { CurveFinding } from "../results.ts"
import { panelTitle, type Spec } from "./chart.ts"
import { toFile } from "./curve-data.ts"
import { type CurvePanel, sharedAxis } from "./curve-panel.ts"
import { TEXT } from "./look.ts"
import type { Series, SweptQuantity } from "./series.ts"

const ROW = 26

/**
 * One row for each line: the plateau within half a point as a pale bar, the best as a dot, its sampling interval thick
 * and its assumption range thin. No view where no best was found.
 */
export function bestStrip(
  series: readonly Series[],
  axis: { readonly swept: SweptQuantity; readonly at: number },
  panel: Omit<CurvePanel, "height" | "title">,
): Spec[] {
  const found = series.flatMap((one) => (one.finding === null ? [] : [{ one, finding: one.finding }]))
  if (found.length === 0) return []
  const height = ROW * found.length
  const thin = found.some(({ finding }) => finding.bestAssumptions !== null) ? " thin assumptions," : ""
  return [
    {
      width: panel.plot + panel.labels,
      height,
      title: panelTitle(`Where the best lies: thick sampling,${thin} pale within half a point`, 6),
      layer: found.flatMap(({ one, finding }, row) => rowLayers(one, finding, axis, panel, ROW * (row + 0.5))),
    },
  ]
}

/** "1.4 m [1.3, 1.5]", or nothing where no best was found. */
export function bestLabel(series: Series, axis: { readonly swept: SweptQuantity; readonly at: number }): string {
  if (series.finding === null) return ""
  const { best } = series.finding
  const number = (value: number): string => plain(toFile(axis, value), decimalsOf(axis.swept))
  return `${withUnit(number(best.mean), axis.swept.unit)} [${number(best.low)}, ${number(best.high)}]`
}

function rowLayers(
  series: Series,
  finding: CurveFinding,
  axis: { readonly swept: SweptQuantity; readonly at: number },
  panel: Omit<CurvePanel, "height" | "title">,
  middle: number,
): Spec[] {
  const shared = sharedAxis(panel)
  const file = (value: number): number => toFile(axis, value)
  const span = (from: number, to: number, mark: Spec): Spec => ({
    data: { values: [{ from: file(from), to: file(to) }] },
    mark,
    encoding: { x: { field: "from", ...shared }, x2: { field: "to" }, y: { value: middle } },
  })
  const { best, plateau, bestAssumptions } = finding
  const colour = series.mark.colour
  const rule = (strokeWidth: number): Spec => ({ type: "rule", color: colour, strokeWidth, strokeCap: "round" })
  const dot = { type: "point", shape: series.mark.shape, filled: true, color: colour, opacity: 1, size: 150 }
  return [
    span(plateau.from, plateau.to, { type: "rule", color: colour, opacity: 0.22, strokeWidth: 18 }),
    ...(bestAssumptions === null ? [] : [span(bestAssumptions.low, bestAssumptions.high, rule(1.6))]),
    span(best.low, best.high, rule(5)),
    {
      data: { values: [{ x: file(best.mean) }] },
      mark: dot,
      encoding: { x: { field: "x", ...shared }, y: { value: middle } },
    },
    {
      data: { values: [{ label: bestLabel(series, axis) }] },
      mark: { type: "text", align: "left", baseline: "middle", color: colour, fontSize: TEXT.label, fontWeight: 600 },
      encoding: { x: { value: panel.plot + 30 }, y: { value: middle }, text: { field: "label" } },
    },
  ]
}
