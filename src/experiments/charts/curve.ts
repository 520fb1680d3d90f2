import { axisTitle, baselineText, capital, keyName, plain, rateOf } from "../report/words.ts"
import type { RunResults } from "../results.ts"
import { bestLabel, bestStrip } from "./best-strip.ts"
import { type Chart, panelTitle, questionOf, type Spec, settingLine, titleOf, VEGA_LITE_SCHEMA } from "./chart.ts"
import { type Curve, curveOf } from "./curve-data.ts"
import { type CurvePanel, curvePanel } from "./curve-panel.ts"
import { CONFIG, TEXT, WIDTH } from "./look.ts"
import { axisQuantity, type Series, seriesOf } from "./series.ts"
import { textWidth } from "./text-width.ts"

export interface CurveOptions {
  /** Draws the assumption ranges as thin whiskers; by default only where one line is drawn. */
  readonly assumptions?: boolean
}

/** Room for axis labels and title on the left, and padding, px. */
const LEFT = 100
/** A longer label is cut with an ellipsis, so that the plot stays wider than its labels. */
const MOST_LABEL = 290

/**
 * Save rate against the swept quantity, where the best lies, and the difference from the baseline with its interval,
 * one under the other on one axis. Null when no quantity is swept.
 */
export function curveChart(results: RunResults, options: CurveOptions = {}): Chart | null {
  const axis = axisQuantity(results)
  if (axis === null || results.points.every((point) => rateOf(point) === null)) return null
  const series = seriesOf(results, axis.at)
  const labels = series.flatMap((one) => [one.label, bestLabel(one, axis)])
  const widest = Math.max(60, ...labels.map((label) => textWidth(label, TEXT.label, true)))
  const labelRoom = Math.min(MOST_LABEL, widest) + 34
  const size = { plot: WIDTH - LEFT - labelRoom, labels: labelRoom }
  const assumptions = options.assumptions ?? series.length === 1
  const rates = curveOf(series, axis, { pick: "value", assumptions })
  const differences = curveOf(series, axis, { pick: "difference", assumptions })
  const hidden = { ...size, swept: axis.swept, axisShown: false }
  const views = [
    curvePanel(rates, { ...hidden, height: 340, title: "Save rate, %" }),
    ...bestStrip(series, axis, hidden),
    differencePanel(results, differences, { ...size, swept: axis.swept, axisShown: true, height: 210, title: "" }),
  ]
  const whiskers = assumptions && rates.rows.some((row) => row.assumedLow !== null) ? " · whiskers: assumptions" : ""
  return {
    name: "curve",
    title: questionOf(results.experiment),
    description: describe(results, series),
    language: "vega-lite",
    spec: {
      $schema: VEGA_LITE_SCHEMA,
      title: titleOf(questionOf(results.experiment), [settingLine(results, "band:") + whiskers], WIDTH - 40),
      description: describe(results, series),
      config: CONFIG,
      spacing: 14,
      vconcat: views,
      resolve: { scale: { color: "independent" } },
    },
  }
}

/** The answer: each point against its baseline, in percentage points, around a line of no difference. */
function differencePanel(results: RunResults, curve: Curve, panel: CurvePanel): Spec {
  const view = curvePanel(curve, { ...panel, title: "Difference, points", zero: true })
  return {
    ...view,
    title: panelTitle(`Difference from ${baselineText(results.experiment)}, same shots`, 8),
  }
}

function describe(results: RunResults, series: readonly Series[]): string {
  const axis = axisQuantity(results)!
  const lines = series.map(({ label, points }) => {
    const rates = points.map(rateOf).filter((rate) => rate !== null)
    const means = rates.map(({ mean }) => mean * 100)
    return `${label === "" ? "Save rate" : label}: ${plain(Math.min(...means), 1)} to ${plain(Math.max(...means), 1)} %`
  })
  return `Save rate against ${keyName(axis.swept.key)} (${capital(axisTitle(axis.swept))}). ${lines.join("; ")}.`
}
