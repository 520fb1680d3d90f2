import { capital, percent, plain, signed } from "../report/words.ts"
import type { RunResults } from "../results.ts"
import type { QuantityEffect, SensitivityFinding } from "../sensitivity/finding.ts"
import { effectText, measureName, ofTheWhole, quantityName } from "../sensitivity/words.ts"
import {
  type Chart,
  chartNumber,
  domainOf,
  inPercent,
  questionOf,
  type Spec,
  stepOf,
  titleOf,
  VEGA_LITE_SCHEMA,
} from "./chart.ts"
import { COLOURS, CONFIG, seriesMark, TEXT, WIDTH } from "./look.ts"
import { textWidth } from "./text-width.ts"

/** Height of a row, px, and how far the first-order effect is drawn below the total. */
const ROW = 40
const BELOW = 11
/** Rows drawn at most; the table has the rest. */
const MOST_ROWS = 20
const GAP = 34
/** Room on the right of a plot for the numbers beside the dots. */
const NUMBERS = 58
const NUMBER = { type: "text", align: "left", baseline: "middle", dx: 10, fontSize: TEXT.label, fontWeight: 600 }
/** Paper behind a number, so that no line runs through it. */
const HALO = { color: COLOURS.ice, stroke: COLOURS.ice, strokeWidth: 6, strokeJoin: "round" }

interface Row {
  readonly label: string
  readonly y: number
  readonly under: number
  readonly value: number
  readonly low: number
  readonly high: number
  readonly alone: number
  readonly aloneLow: number
  readonly aloneHigh: number
  readonly text: string
  /** Whether it can be told from the largest. */
  readonly told: boolean
}

/**
 * What the measure hangs on, the largest first: total effect with its interval, the first-order effect under it, and on
 * the right what a tenth better saves.
 */
export function sensitivityChart(results: RunResults): Chart | null {
  const finding = results.sensitivity
  const shown = (finding?.effects ?? []).filter(({ total }) => Number.isFinite(total.mean)).slice(0, MOST_ROWS)
  if (finding === undefined || shown.length === 0) return null
  const room = Math.max(...shown.map(({ key }) => textWidth(capital(quantityName(key)), TEXT.label))) + 18
  const hasGains = shown.some(({ gain }) => gain !== null)
  const free = WIDTH - 48 - room
  const plot = hasGains ? Math.round((free - GAP) * 0.54) : free
  const effects = effectView(shown, { room, plot, title: `Share of the spread in ${measureName(finding.of)}, %` })
  const gains = hasGains ? [gainView(shown, free - GAP - plot)] : []
  return {
    name: "sensitivity",
    title: questionOf(results.experiment),
    description: shown.map(({ key, total }) => `${quantityName(key)}: ${effectText(total)}`).join("; "),
    language: "vega-lite",
    spec: {
      $schema: VEGA_LITE_SCHEMA,
      title: titleOf(questionOf(results.experiment), subtitles(results, finding), WIDTH - 40),
      description: shown.map(({ key, total }) => `${quantityName(key)}: ${effectText(total)}`).join("; "),
      config: CONFIG,
      spacing: GAP,
      hconcat: [effects, ...gains],
    },
  }
}

function subtitles({ experiment, confidence }: RunResults, finding: SensitivityFinding): string[] {
  const values = finding.values.toLocaleString("en-US")
  const shots = finding.shots.toLocaleString("en-US")
  const many = finding.effects.length > MOST_ROWS ? ` (the first ${MOST_ROWS} drawn)` : ""
  return [
    `${experiment.goalieName} · ${finding.effects.length} quantities at once${many}, ${values} values of ${shots} shots · bars: ${percent(confidence, 0)} intervals`,
    "filled: total effect, dark where it may be the largest · hollow: alone, without the others",
  ]
}

interface View {
  readonly room: number
  readonly plot: number
  readonly title: string
}

function effectView(effects: readonly QuantityEffect[], view: View): Spec {
  const rows = effects.map((effect, at): Row => {
    const [total, first] = [ofTheWhole(effect.total), ofTheWhole(effect.first)]
    return {
      ...placed(effect, at),
      value: inPercent(total.mean),
      low: inPercent(total.low),
      high: inPercent(total.high),
      alone: inPercent(first.mean),
      aloneLow: inPercent(first.low),
      aloneHigh: inPercent(first.high),
      text: plain(total.mean * 100, total.mean < 0.095 ? 1 : 0),
      told: effect.behind !== null && effect.behind.low > 0,
    }
  })
  const most = Math.max(...rows.map(({ high, aloneHigh }) => Math.max(high, aloneHigh)))
  const x = axisX([0, domainOf([0, most], stepOf([0, most]))[1]], view.room, view.plot, view.title)
  return frame(view.room + view.plot, rows.length, [
    ...rows.map(nameLayer),
    ...rows.flatMap((row) => [...aloneLayers(row, x), ...dotLayers(row, x)]),
  ])
}

/** Goals saved for a tenth better, zero drawn. */
function gainView(effects: readonly QuantityEffect[], plot: number): Spec {
  const trained = effects.flatMap((effect, at) => (effect.gain === null ? [] : [{ effect, at, gain: effect.gain }]))
  const rows = trained.map(({ effect, at, gain }): Row => {
    const { mean, low, high } = gain.change
    return {
      ...placed(effect, at),
      value: inPercent(mean),
      low: inPercent(low),
      high: inPercent(high),
      text: signed(mean * 100, 2),
      told: gain.behind !== null && gain.behind.low > 0,
    }
  })
  const all = [0, ...rows.flatMap(({ low, high }) => [low, high])]
  const x = axisX(domainOf(all, stepOf(all)).map(chartNumber), 0, plot, "Goals saved in 100 shots for 10 % better")
  const zero = {
    data: { values: [{ x: 0 }] },
    mark: { type: "rule", color: COLOURS.ink, strokeWidth: 1.5 },
    encoding: { x: { field: "x", ...x } },
  }
  return frame(plot, effects.length, [zero, ...rows.flatMap((row) => dotLayers(row, x))])
}

function placed({ key }: QuantityEffect, at: number): Row {
  const y = at * ROW + ROW * 0.42
  const nothing = { value: 0, low: 0, high: 0, alone: 0, aloneLow: 0, aloneHigh: 0, text: "", told: false }
  return { ...nothing, label: capital(quantityName(key)), y, under: y + BELOW }
}

function frame(width: number, rows: number, layer: readonly Spec[]): Spec {
  return { width, height: rows * ROW, view: { stroke: null }, layer }
}

/** An axis whose numbers leave room on the right for the number beside the last dot. */
function axisX(domain: readonly number[], from: number, plot: number, title: string): Spec {
  return {
    type: "quantitative",
    scale: { domain, range: [from, from + plot - NUMBERS], nice: false, zero: false },
    axis: { title, tickCount: 4, gridColor: COLOURS.line, domain: false, ticks: false, titleAnchor: "start" },
  }
}

function nameLayer(row: Row): Spec {
  return {
    data: { values: [{ label: row.label }] },
    mark: { type: "text", align: "left", baseline: "middle", fontWeight: row.told ? 400 : 600 },
    encoding: { x: { value: 0 }, y: { value: row.y }, text: { field: "label" } },
  }
}

/** Dot, interval and number; the number stands right of the interval. */
function dotLayers(row: Row, x: Spec): Spec[] {
  const { colour } = seriesMark(row.told ? 0 : 4)
  const data = { values: [row] }
  const y = { value: row.y }
  return [
    {
      data,
      mark: { type: "rule", color: colour, strokeWidth: 5, strokeCap: "round", opacity: 0.45 },
      encoding: { x: { field: "low", ...x }, x2: { field: "high" }, y },
    },
    {
      data,
      mark: { type: "point", filled: true, size: 130, color: colour, opacity: 1 },
      encoding: { x: { field: "value", ...x }, y },
    },
    ...[true, false].map((halo) => ({
      data,
      mark: { ...NUMBER, ...(halo ? HALO : { color: COLOURS.ink }) },
      encoding: { x: { field: "high", ...x }, y, text: { field: "text" } },
    })),
  ]
}

/** First-order effect: hollow and thin, under the total. */
function aloneLayers(row: Row, x: Spec): Spec[] {
  const { colour } = seriesMark(1)
  const data = { values: [row] }
  const y = { value: row.under }
  return [
    {
      data,
      mark: { type: "rule", color: colour, strokeWidth: 1.4 },
      encoding: { x: { field: "aloneLow", ...x }, x2: { field: "aloneHigh" }, y },
    },
    {
      data,
      mark: {
        type: "point",
        shape: "diamond",
        filled: true,
        size: 60,
        color: COLOURS.ice,
        opacity: 1,
        stroke: colour,
        strokeWidth: 1.8,
      },
      encoding: { x: { field: "alone", ...x }, y },
    },
  ]
}
