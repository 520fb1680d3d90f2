import { toldRange } from "../lost-in-noise.ts"
import { GOALS_SAVED } from "../measures.ts"
import { focusOf, isTold } from "../report/finding.ts"
import { goalsIn, goalsSavedOf, type SavedGroup, type SavedRow, secondGoalsIn } from "../report/goals-saved.ts"
import { baselineText, capital, plain, signed } from "../report/words.ts"
import type { PointResult, RunResults } from "../results.ts"
import {
  type Chart,
  chartNumber,
  domainOf,
  questionOf,
  type Spec,
  settingLine,
  stepOf,
  titleOf,
  VEGA_LITE_SCHEMA,
} from "./chart.ts"
import { COLOURS, CONFIG, SAVED_FILL, TEXT, WIDTH } from "./look.ts"
import { textWidth } from "./text-width.ts"

/** Heights of a bar's row, of a heading and of a bar, px. */
const ROW = 46
const HEADING = 36
const BAR = 22
/** Between names, bars and values. */
const GUTTER = 18

/** One line of the chart: a heading, or a bar with its numbers. */
interface Line {
  readonly y: number
  readonly label: string
  readonly bar: Bar | null
}

interface Bar {
  readonly value: number
  readonly low: number
  readonly high: number
  readonly assumedLow: number | null
  readonly assumedHigh: number | null
  readonly told: boolean
  /** "11.2 to 10.1 goals": at the baseline, and here. */
  readonly goals: string
  readonly text: string
  readonly ends: string
  readonly assumed: string
}

/**
 * A bar for each point against its baseline, right of zero where fewer goals go in: both spreads over it, the numbers in a
 * column of their own. A bar whose interval holds zero is hollow. Null where nothing is compared.
 */
export function goalsSavedChart(results: RunResults): Chart | null {
  const { groups, shown, of } = goalsSavedOf(results)
  if (shown === 0) return null
  const lines = linesOf(groups, focusOf(results.experiment).key === "second_goal_rate")
  const bars = lines.flatMap(({ bar }) => bar ?? [])
  const against = baselineText(results.experiment)
  const some = shown < of ? ` · ${shown} of ${of} points; results.csv has all` : ""
  const thin = bars.some(({ assumedLow }) => assumedLow !== null) ? " · thin: assumptions" : ""
  const description = lines.map(({ label, bar }) => (bar === null ? `${label}:` : `${label} ${bar.text}`)).join("; ")
  return {
    name: "goals-saved",
    title: questionOf(results.experiment),
    description: `Goals saved per 100 attempts against ${against}. ${description}`,
    language: "vega-lite",
    spec: {
      $schema: VEGA_LITE_SCHEMA,
      title: titleOf(
        questionOf(results.experiment),
        [
          `Goals saved per 100 attempts, misses included, against ${against}, on the same shots`,
          `${settingLine(results, "thick:")}${thin} · hollow bar: may be none${some}`,
        ],
        WIDTH - 40,
      ),
      description,
      config: CONFIG,
      ...barView(lines, bars),
    },
  }
}

/** Rows from the top, a heading before each named group; y is the middle, px. */
function linesOf(groups: readonly SavedGroup[], second: boolean): Line[] {
  const lines: Line[] = []
  let y = 0
  for (const { name, rows } of groups) {
    if (name !== "") {
      lines.push({ y: y + HEADING * 0.6, label: capital(name), bar: null })
      y += HEADING
    }
    for (const row of rows) {
      lines.push({ y: y + ROW / 2, label: capital(row.label), bar: barOf(row, second) })
      y += ROW
    }
  }
  return lines
}

function barOf({ point, base }: SavedRow, second: boolean): Bar {
  const saved = point.estimates[GOALS_SAVED]!
  const range = toldRange(point.assumptions[GOALS_SAVED])
  const spread = (low: number, high: number): string => `${plain(low, 2)} to ${plain(high, 2)}`
  return {
    value: chartNumber(saved.mean),
    low: chartNumber(saved.low),
    high: chartNumber(saved.high),
    assumedLow: range === undefined ? null : chartNumber(range.low),
    assumedHigh: range === undefined ? null : chartNumber(range.high),
    told: isTold(saved),
    goals: goalsText(point, base, second),
    text: signed(saved.mean, 2),
    ends: spread(saved.low, saved.high),
    assumed: range === undefined ? "" : `assumptions ${spread(range.low, range.high)}`,
  }
}

/** Goals in 100 attempts at the baseline and here; of those on the second shot alone where the run is about them. */
function goalsText(point: PointResult, base: PointResult, second: boolean): string {
  const [before, after] = [base, point].map((one) => (second ? secondGoalsIn(one) : goalsIn(one)))
  const decimals = second ? 2 : 1
  return `${plain(before!, decimals)} → ${plain(after!, decimals)} ${second ? "second-shot goals" : "goals"}`
}

function barView(lines: readonly Line[], bars: readonly Bar[]): Spec {
  const named = Math.max(...lines.map(({ label, bar }) => textWidth(label, TEXT.label, bar === null)))
  const names = Math.max(named, ...bars.map(({ goals }) => textWidth(goals, TEXT.small))) + GUTTER
  const values = Math.max(
    ...bars.map((bar) => textWidth(`${bar.text}   ${bar.ends}`, TEXT.label, true)),
    ...bars.map((bar) => textWidth(bar.assumed, TEXT.small)),
  )
  const plot = WIDTH - 64 - names - values - GUTTER
  const all = bars.flatMap((bar) => [bar.low, bar.high, bar.assumedLow ?? 0, bar.assumedHigh ?? 0, 0])
  const domain = domainOf(all, stepOf(all)).map(chartNumber)
  const x = {
    type: "quantitative",
    scale: { domain, range: [names, names + plot], nice: false, zero: false },
    axis: {
      title: "← more go in · Goals saved per 100 attempts · fewer go in →",
      tickCount: 5,
      gridColor: COLOURS.line,
      domain: false,
      ticks: false,
    },
  }
  const last = lines.at(-1)!
  return {
    width: WIDTH - 64,
    height: last.y + ROW / 2,
    view: { stroke: null },
    layer: [
      ...lines.flatMap((line) =>
        line.bar === null ? [headingLayer(line)] : rowLayers(line, line.bar, x, names + plot),
      ),
      {
        data: { values: [{ x: 0 }] },
        mark: { type: "rule", color: COLOURS.ink, strokeWidth: 2 },
        encoding: { x: { field: "x", ...x } },
      },
    ],
  }
}

function headingLayer({ label, y }: Line): Spec {
  return words(label, { x: 0, y, fontWeight: 700, fontSize: TEXT.axisTitle })
}

/** Name and level on the left, the bar with both spreads, the numbers on the right. */
function rowLayers({ label, y }: Line, bar: Bar, x: Spec, right: number): Spec[] {
  const { fill, line } = bar.value < 0 ? SAVED_FILL.lost : SAVED_FILL.saved
  const data = { values: [{ ...bar, zero: 0 }] }
  // without a second line the numbers stand level with the bar
  const upper = bar.assumed === "" ? y : y - 8
  const rule = (from: string, to: string, strokeWidth: number): Spec => ({
    data,
    mark: { type: "rule", color: COLOURS.ink, strokeWidth, strokeCap: "butt" },
    encoding: { x: { field: from, ...x }, x2: { field: to }, y: { value: y } },
  })
  return [
    {
      data,
      mark: { type: "rect", fill: bar.told ? fill : COLOURS.snow, stroke: line, strokeWidth: 1.6 },
      encoding: {
        x: { field: "zero", ...x },
        x2: { field: "value" },
        y: { value: y - BAR / 2 },
        y2: { value: y + BAR / 2 },
      },
    },
    ...(bar.assumedLow === null ? [] : [rule("assumedLow", "assumedHigh", 1.4)]),
    rule("low", "high", 5),
    words(label, { x: 0, y: y - 8 }),
    words(bar.goals, { x: 0, y: y + 10, fontSize: TEXT.small, color: COLOURS.quietInk }),
    words(bar.text, { x: right + GUTTER, y: upper, fontWeight: 700 }),
    words(bar.ends, { x: WIDTH - 64, y: upper, align: "right", fontSize: TEXT.small }),
    ...(bar.assumed === ""
      ? []
      : [
          words(bar.assumed, {
            x: WIDTH - 64,
            y: y + 10,
            align: "right",
            fontSize: TEXT.small,
            color: COLOURS.quietInk,
          }),
        ]),
  ]
}

function words(text: string, { x, y, ...look }: { readonly x: number; readonly y: number } & Spec): Spec {
  return {
    data: { values: [{ text }] },
    mark: { type: "text", align: "left", baseline: "middle", fontSize: TEXT.label, ...look },
    encoding: { x: { value: chartNumber(x) }, y: { value: chartNumber(y) }, text: { field: "text" } },
  }
}
