import type { Swept } from "../experiment.ts"
import { axisTitle, decimalsOf, inFileUnit, plain, rateOf, valueText } from "../report/words.ts"
import type { PointResult, RunResults } from "../results.ts"
import {
  type Chart,
  inPercent,
  panelTitle,
  questionOf,
  type Spec,
  settingLine,
  titleOf,
  VEGA_LITE_SCHEMA,
} from "./chart.ts"
import { COLOURS, CONFIG, SHARE_RAMP, TEXT, WIDTH } from "./look.ts"
import { lightness, rampOf } from "./ramp.ts"
import { bestPoint, wholePlay } from "./series.ts"

/** Values are printed in the cells up to this many of them. */
const MOST_PRINTED = 200
const LEFT = 110

interface Cell {
  readonly x: string
  readonly y: string
  readonly value: number
  readonly text: string
  readonly dark: boolean
  readonly best: boolean
}

/**
 * Save rate over the first two swept keys, one map for each case; null when fewer than two are swept, or points of a design
 * fill no grid.
 */
export function heatChart(results: RunResults): Chart | null {
  const [across, up] = results.experiment.sweep
  if (across === undefined || up === undefined || results.experiment.design !== undefined) return null
  const points = wholePlay(results.points).filter((point) => rateOf(point) !== null)
  if (points.length === 0) return null
  const groups = new Map<string, PointResult[]>()
  for (const point of points) groups.set(point.case, [...(groups.get(point.case) ?? []), point])
  const values = points.map((point) => inPercent(point.estimates.save_rate!.mean))
  const domain: [number, number] = [Math.min(...values), Math.max(...values)]
  const halves = points.map(({ estimates }) => (estimates.save_rate!.high - estimates.save_rate!.low) / 2)
  const widest = plain(Math.max(...halves) * 100, 1)
  const note = `outlined: best of its row · no cell is less sure than ± ${widest} points`
  const description = `Save rate in % over ${axisTitle(across)} and ${axisTitle(up)}: ${plain(domain[0], 1)} to ${plain(domain[1], 1)} %.`
  return {
    name: "heat-map",
    title: questionOf(results.experiment),
    description,
    language: "vega-lite",
    spec: {
      $schema: VEGA_LITE_SCHEMA,
      title: titleOf(
        questionOf(results.experiment),
        [settingLine(results, "±:"), `Save rate, % · ${note}`],
        WIDTH - 40,
      ),
      description,
      config: CONFIG,
      spacing: 24,
      vconcat: [...groups].map(([name, group]) => mapView(name, group, { across, up, domain })),
    },
  }
}

interface Frame {
  readonly across: Swept
  readonly up: Swept
  readonly domain: readonly [number, number]
}

function mapView(name: string, points: readonly PointResult[], frame: Frame): Spec {
  const columns = frame.across.values.length
  const width = (WIDTH - LEFT - 40) / columns
  const cells = cellsOf(points, frame)
  const printed = cells.length <= MOST_PRINTED && width >= 40
  const height = Math.max(24, Math.min(52, 420 / frame.up.values.length))
  const x = {
    field: "x",
    type: "ordinal",
    sort: labels(frame.across),
    axis: { ...axis(axisTitle(frame.across)), titleAnchor: "start" },
  }
  const y = { field: "y", type: "ordinal", sort: labels(frame.up).toReversed(), axis: axis(axisTitle(frame.up)) }
  const scale = { domain: frame.domain, range: SHARE_RAMP, interpolate: "lab" }
  const legend = printed ? null : { title: "Save rate, %", orient: "top", gradientLength: 300 }
  return {
    ...(name === "" ? {} : { title: panelTitle(name, 8) }),
    width: { step: width },
    height: { step: height },
    data: { values: cells },
    encoding: { x, y },
    layer: [
      {
        mark: { type: "rect", stroke: COLOURS.ice, strokeWidth: 2 },
        encoding: { color: { field: "value", type: "quantitative", scale, legend } },
      },
      {
        transform: [{ filter: "datum.best" }],
        mark: { type: "rect", filled: false, stroke: COLOURS.best, strokeWidth: 4, opacity: 1 },
      },
      ...(printed ? [textLayer(true), textLayer(false)] : []),
    ],
  }
}

function textLayer(dark: boolean): Spec {
  return {
    transform: [{ filter: dark ? "datum.dark" : "!datum.dark" }],
    mark: { type: "text", fontSize: TEXT.label, fontWeight: 600, color: dark ? COLOURS.snow : COLOURS.ink },
    encoding: { text: { field: "text" } },
  }
}

function axis(title: string): Spec {
  return { title, labelAngle: 0, ticks: false, domain: false, labelOverlap: true }
}

/** Bare numbers on the axis: its title carries the unit. */
function labels(swept: Swept): string[] {
  return swept.values.map((value) => label(swept, value))
}

function label(swept: Swept, value: number | string): string {
  if (swept.kind === "choice") return valueText(swept, value)
  return plain(inFileUnit(swept, Number(value)), decimalsOf(swept))
}

function cellsOf(points: readonly PointResult[], frame: Frame): Cell[] {
  const rows = new Map<number | string, PointResult[]>()
  for (const point of points) rows.set(point.swept[1]!, [...(rows.get(point.swept[1]!) ?? []), point])
  const best = new Set([...rows.values()].map((row) => bestPoint(row)))
  const span = frame.domain[1] - frame.domain[0]
  const colour = rampOf(SHARE_RAMP)
  return points.map((point) => {
    const value = inPercent(point.estimates.save_rate!.mean)
    return {
      x: label(frame.across, point.swept[0]!),
      y: label(frame.up, point.swept[1]!),
      value,
      text: plain(value, 1),
      dark: lightness(colour(span > 0 ? (value - frame.domain[0]) / span : 0)) < 57,
      best: best.has(point),
    }
  })
}
