import { axisTitle, capital, keyName, plain, rateOf } from "../report/words.ts"
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
import { COLOURS, CONFIG, seriesMark, WIDTH } from "./look.ts"
import { axisValue, type SweptQuantity, wholePlay } from "./series.ts"

/** Height of a panel, and room for its axis on the left, px. */
const HEIGHT = 230
const LEFT = 100

/** A point of the design against one quantity, percent. */
interface Dot {
  readonly x: number
  readonly y: number
  readonly low: number
  readonly high: number
  readonly case: string
}

/**
 * Save rate of every point of a design, with its interval, against each designed quantity: a panel for each. No line, as
 * from point to point all quantities change. Null where no quantity is designed or no shot was on goal.
 */
export function designCurveChart(results: RunResults): Chart | null {
  const { experiment } = results
  const points = wholePlay(results.points).filter((point) => rateOf(point) !== null)
  const panels = experiment.sweep.flatMap((swept, at) => (swept.kind === "quantity" ? [{ swept, at }] : []))
  if (points.length === 0 || panels.length === 0) return null
  const ends = points.flatMap((point) => [rateOf(point)!.low, rateOf(point)!.high].map(inPercent))
  const domain = domainOf(ends, stepOf(ends)).map(chartNumber)
  const means = points.map((point) => inPercent(rateOf(point)!.mean))
  const [least, most] = [Math.min(...means), Math.max(...means)].map((mean) => plain(mean, 1))
  const names = panels.map(({ swept }) => keyName(swept.key)).join(", ")
  const description = `Save rate of ${points.length} points of a design against ${names}: ${least} to ${most} %.`
  const note = "In each panel the other quantities change from dot to dot"
  return {
    name: "curve",
    title: questionOf(experiment),
    description,
    language: "vega-lite",
    spec: {
      $schema: VEGA_LITE_SCHEMA,
      title: titleOf(questionOf(experiment), [settingLine(results, "bar:"), note], WIDTH - 40),
      description,
      config: CONFIG,
      spacing: 26,
      vconcat: panels.map((panel, i) =>
        panelView(points, panel, { domain, cases: experiment.cases, isFirst: i === 0 }),
      ),
    },
  }
}

interface Frame {
  /** Of the save rate, the same in all panels. */
  readonly domain: readonly number[]
  readonly cases: readonly string[]
  readonly isFirst: boolean
}

function panelView(
  points: readonly PointResult[],
  { swept, at }: { readonly swept: SweptQuantity; readonly at: number },
  { domain, cases, isFirst }: Frame,
): Spec {
  const dots = points.map((point) => dotOf(point, swept, at))
  const places = dots.map(({ x }) => x)
  const scale = { domain: domainOf(places, stepOf(places)).map(chartNumber), nice: false, zero: false }
  const axis = { title: axisTitle(swept), titleAnchor: "start", grid: false, tickCount: 8 }
  const rates = {
    title: "Save rate, %",
    tickCount: 5,
    gridColor: COLOURS.line,
    domain: false,
    ticks: false,
    minExtent: 38,
  }
  const y = { type: "quantitative", scale: { domain, nice: false, zero: false }, axis: rates }
  const x = { field: "x", type: "quantitative", scale, axis }
  const marks = marksOf(cases, isFirst)
  return {
    width: WIDTH - LEFT - 40,
    height: HEIGHT,
    data: { values: dots },
    layer: [
      {
        mark: { type: "rule", strokeWidth: 2.5, opacity: 0.6, strokeCap: "round" },
        encoding: { x, y: { ...y, field: "low" }, y2: { field: "high" }, color: marks.color },
      },
      {
        mark: { type: "point", filled: true, size: 70, opacity: 1 },
        encoding: { x, y: { ...y, field: "y" }, ...marks },
      },
    ],
  }
}

function dotOf(point: PointResult, swept: SweptQuantity, at: number): Dot {
  const { mean, low, high } = rateOf(point)!
  return {
    x: chartNumber(axisValue(swept, point, at)),
    y: inPercent(mean),
    low: inPercent(low),
    high: inPercent(high),
    case: capital(point.case),
  }
}

/** Colour and shape of each case, named once over the first panel where there are several. */
function marksOf(cases: readonly string[], isFirst: boolean): { readonly color: Spec; readonly shape: Spec } {
  const names = cases.length === 0 ? [""] : cases.map(capital)
  const marks = names.map((_, at) => seriesMark(at))
  const legend = names.length > 1 && isFirst ? { title: null, orient: "top" } : null
  const of = (range: readonly string[]): Spec => ({
    field: "case",
    type: "nominal",
    scale: { domain: names, range },
    legend,
  })
  return { color: of(marks.map(({ colour }) => colour)), shape: of(marks.map(({ shape }) => shape)) }
}
