import { isDecision } from "../decision.ts"
import { GOALS_SAVED, type Measure, measureOf } from "../measures.ts"
import { ratedBy } from "../rated.ts"
import { placeText, toldCrossings } from "../report/answer-crossing.ts"
import { focusOf } from "../report/finding.ts"
import { printOf } from "../report/measure-text.ts"
import { axisTitle, baselineText, capital, keyName, plain, rateOf, withUnit } from "../report/words.ts"
import type { RunResults } from "../results.ts"
import { bestLabel, bestStrip } from "./best-strip.ts"
import { type Chart, panelTitle, questionOf, type Spec, settingLine, titleOf, VEGA_LITE_SCHEMA } from "./chart.ts"
import { crossingStrip, withCrossings } from "./crossing-strip.ts"
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
  const crossed = toldCrossings(results).map((one) => placeText(results, one, "sampling"))
  const labels = [...crossed, ...series.flatMap((one) => [one.label, bestLabel(one, axis)])]
  const widest = Math.max(60, ...labels.map((label) => textWidth(label, TEXT.label, true)))
  const labelRoom = Math.min(MOST_LABEL, widest) + 34
  const size = { plot: WIDTH - LEFT - labelRoom, labels: labelRoom }
  const assumptions = options.assumptions ?? series.length === 1
  const drawing: Drawing = { results, series, axis, size, assumptions }
  const focus = focusOf(results.experiment)
  const isRate = focus.key === ratedBy(results.experiment)
  const views = isRate ? rateViews(drawing) : focusViews(drawing, focus)
  const hasRange = results.points.some((point) => point.assumptions[ratedBy(results.experiment)] !== undefined)
  const signs = [
    ...(assumptions && hasRange ? ["whiskers: assumptions"] : []),
    ...(isDecision(axis.swept.key) && (isRate || !hasDifference(results, focus)) ? ["ring: the best"] : []),
    ...(isRate && crossed.length > 0 ? ["dashed upright: where lines cross"] : []),
  ]
  const description = describe(drawing, focus)
  return {
    name: "curve",
    title: questionOf(results.experiment),
    description,
    language: "vega-lite",
    spec: {
      $schema: VEGA_LITE_SCHEMA,
      title: titleOf(
        questionOf(results.experiment),
        [[settingLine(results, "band:"), ...signs].join(" · ")],
        WIDTH - 40,
      ),
      description,
      config: CONFIG,
      spacing: isRate ? 14 : 26,
      vconcat: views,
      resolve: { scale: { color: "independent" } },
    },
  }
}

interface Drawing {
  readonly results: RunResults
  readonly series: readonly Series[]
  readonly axis: NonNullable<ReturnType<typeof axisQuantity>>
  readonly size: { readonly plot: number; readonly labels: number }
  readonly assumptions: boolean
}

/** Save rate, what position alone saves, where the best lies, and the difference from the baseline. */
function rateViews({ results, series, axis, size, assumptions }: Drawing): Spec[] {
  const ring = isDecision(axis.swept.key)
  const single = series.length === 1
  const measure = ratedBy(results.experiment)
  const title = `${measureOf(measure)!.title}, %`
  const hidden = { ...size, swept: axis.swept, axisShown: false }
  const rates = curveOf(series, axis, {
    pick: "value",
    measure,
    assumptions,
    ring,
    frozen: single && measure === "save_rate",
  })
  const differences = curveOf(series, axis, { pick: "difference", measure, assumptions, ring })
  // more goals are worse: the axis has to say what is counted
  const difference = measure === "goal_rate" ? "Goal rate, points" : "Difference, points"
  const lowest = { ...size, swept: axis.swept, axisShown: true, height: 210, title: difference }
  return [
    withCrossings(results, axis, hidden, curvePanel(rates, { ...hidden, height: 340, title })),
    ...(single || !results.experiment.measures.includes("position_rate") ? [] : [frozenPanel(series, axis, hidden)]),
    ...bestStrip(series, axis, hidden),
    ...crossingStrip(results, axis, hidden),
    differencePanel(results, differences, lowest),
  ]
}

/** What the body would save frozen as it stands at release: the gap to the save rate is what moving adds. */
function frozenPanel(
  series: readonly Series[],
  axis: Drawing["axis"],
  hidden: Omit<CurvePanel, "height" | "title">,
): Spec {
  const curve = curveOf(series, axis, { pick: "value", assumptions: false, measure: "position_rate", ring: false })
  const view = curvePanel(curve, { ...hidden, height: 190, title: "Frozen, %" })
  return { ...view, title: panelTitle("Saved by position alone: limbs frozen at release", 8) }
}

/** The measure the run is about, and below it its difference from the baseline, or the save rate where it has none. */
function focusViews({ results, series, axis, size, assumptions }: Drawing, focus: Measure): Spec[] {
  const panel = { ...size, swept: axis.swept }
  const { unit } = printOf(focus)
  const title = unit === "" ? focus.title : `${focus.title}, ${unit}`
  const values = curveOf(series, axis, { pick: "value", assumptions, measure: focus.key, ring: false })
  const top = curvePanel(values, { ...panel, axisShown: false, height: 340, title, zero: focus.key === GOALS_SAVED })
  if (hasDifference(results, focus)) {
    const what = { pick: "difference", measure: focus.key, assumptions, ring: false } as const
    const counted = focus.unit === "share" ? "points" : unit
    const lower = { ...panel, axisShown: true, height: 230, title: `Difference, ${counted}` }
    return [top, differencePanel(results, curveOf(series, axis, what), lower)]
  }
  const rates = curveOf(series, axis, { pick: "value", assumptions, ring: isDecision(axis.swept.key) })
  return [
    focus.key === GOALS_SAVED
      ? { ...top, title: panelTitle(`Against ${baselineText(results.experiment)}, same shots`, 8) }
      : top,
    curvePanel(rates, { ...panel, axisShown: true, height: 230, title: "Save rate, %" }),
  ]
}

/** Whether a measure's difference from the baseline was found: that of a measure of geometry never is. */
function hasDifference({ points }: RunResults, { key }: Measure): boolean {
  return points.some((point) => key in point.differences)
}

/** The answer: each point against its baseline, around a line of no difference. */
function differencePanel(results: RunResults, curve: Curve, panel: CurvePanel): Spec {
  const view = curvePanel(curve, { ...panel, zero: true })
  return {
    ...view,
    title: panelTitle(`Difference from ${baselineText(results.experiment)}, same shots`, 8),
  }
}

/** The lines of the upper panel in words: from the least to the most of each. */
function describe({ series, axis }: Drawing, measure: Measure): string {
  const { unit, decimals } = printOf(measure)
  const { rows } = curveOf(series, axis, { pick: "value", measure: measure.key, assumptions: false, ring: false })
  const lines = series.flatMap(({ label }, index) => {
    const values = rows.flatMap((row) => (row.series === index ? [row.y] : []))
    const [least, most] = [Math.min(...values), Math.max(...values)].map((value) => plain(value, decimals))
    return values.length === 0 ? [] : [`${label === "" ? measure.title : label}: ${least} to ${withUnit(most!, unit)}`]
  })
  const { swept } = axis
  return `${measure.title} against ${keyName(swept.key)} (${capital(axisTitle(swept))}). ${lines.join("; ")}.`
}
