import { capital, plain } from "../report/words.ts"
import type { OpenNetPicture, RunResults } from "../results.ts"
import {
  type Chart,
  chartNumber,
  inPercent,
  panelTitle,
  questionOf,
  type Spec,
  titleOf,
  VEGA_LITE_SCHEMA,
} from "./chart.ts"
import { COLOURS, CONFIG, type SeriesMark, seriesMark, TEXT, WIDTH } from "./look.ts"
import { spreadLabels, textWidth } from "./text-width.ts"

const HEIGHT = 230
/** Room for axis labels and title on the left, and for the mark and leader before a name on the right, px. */
const LEFT = 96
const LEADER = 34

/** A name for the start of the move, by what the puck does last. */
const STARTS = { pass: "pass", cut: "cut", carry: "carry starts" } as const

interface Axes {
  readonly x: Spec
  readonly y: Spec
  readonly plot: number
  readonly labels: number
  /** px of a time, and of an open share in percent. */
  readonly across: (t: number) => number
  readonly down: (percent: number) => number
}

interface Line {
  readonly picture: OpenNetPicture
  readonly mark: SeriesMark
}

/**
 * How much of the mouth the puck sees past the goalie, against the time from the release: a line for each case or place,
 * thick until the release and thin after it, a band over the shots, a ring where the goalie is usually set.
 */
export function openNetChart(results: RunResults): Chart | null {
  const pictures = results.openNets ?? []
  if (pictures.length === 0) return null
  const names = [...new Set(pictures.map(({ label }) => label))]
  const lines = pictures.map((picture) => ({ picture, mark: seriesMark(names.indexOf(picture.label)) }))
  const panels = [...new Set(pictures.map(({ panel }) => panel))]
  const labels = Math.max(40, ...names.map((name) => textWidth(capital(name), TEXT.label, true))) + LEADER
  const description = pictures.map(describe).join("; ")
  return {
    name: "open-net",
    title: questionOf(results.experiment),
    description,
    language: "vega-lite",
    spec: {
      $schema: VEGA_LITE_SCHEMA,
      title: titleOf(
        questionOf(results.experiment),
        [
          `${results.experiment.goalieName} · part of the mouth that the puck sees past the goalie from where it is, until and after the shot`,
          "line: mean over shots · band: nine shots in ten · ring: goalie usually set · thin: after the release",
        ],
        WIDTH - 40,
      ),
      description,
      config: CONFIG,
      spacing: 18,
      vconcat: panels.map((panel, at) =>
        panelView(
          lines.filter(({ picture }) => picture.panel === panel),
          capital(panel),
          axesOf(pictures, WIDTH - LEFT - labels, labels, at === panels.length - 1),
        ),
      ),
    },
  }
}

function describe({ panel, label, at, mean }: OpenNetPicture): string {
  const release = mean[at.indexOf(0)]!
  const name = [panel, label].filter((part) => part !== "").join(", ")
  return `${name === "" ? "Open net" : name}: at most ${plain(100 * Math.max(...mean), 0)} % open, ${plain(100 * release, 0)} % at the release`
}

/** One scale for all panels. */
function axesOf(pictures: readonly OpenNetPicture[], plot: number, labels: number, shown: boolean): Axes {
  const from = Math.min(...pictures.map(({ at }) => at[0]!))
  const to = Math.max(...pictures.map(({ at }) => at.at(-1)!))
  const most = Math.min(100, 10 * Math.ceil(10 * Math.max(...pictures.flatMap(({ high }) => high))))
  const time = { title: "Time from the release, s", grid: false, tickCount: 8, titleAnchor: "start", domain: true }
  const hidden = { title: null, labels: false, ticks: false, grid: false, domain: false }
  return {
    x: {
      type: "quantitative",
      scale: { domain: [chartNumber(from), chartNumber(to)], range: [0, plot], nice: false, zero: false },
      axis: shown ? time : hidden,
    },
    y: {
      type: "quantitative",
      scale: { domain: [0, most], nice: false },
      axis: { title: "Open net, %", tickCount: 5, gridColor: COLOURS.line, domain: false, ticks: false, minExtent: 38 },
    },
    plot,
    labels,
    across: (t) => chartNumber(((t - from) / (to - from)) * plot),
    down: (percent) => chartNumber(HEIGHT * (1 - percent / most)),
  }
}

function panelView(lines: readonly Line[], title: string, axes: Axes): Spec {
  return {
    width: axes.plot + axes.labels,
    height: HEIGHT,
    ...(title === "" ? {} : { title: panelTitle(title, 26) }),
    layer: [
      ...lines.map((line) => bandLayer(line, axes)),
      ...momentLayers(lines, axes),
      ...lines.flatMap((line) => lineLayers(line, axes)),
      ...labelLayers(lines, axes),
    ],
  }
}

function rowsOf({ at, mean, low, high }: OpenNetPicture): { readonly x: number; readonly y: number }[] {
  return at.map((t, i) => ({
    x: chartNumber(t),
    y: inPercent(mean[i]!),
    low: inPercent(low[i]!),
    high: inPercent(high[i]!),
  }))
}

function bandLayer({ picture, mark }: Line, { x, y }: Axes): Spec {
  return {
    data: { values: rowsOf(picture) },
    mark: { type: "area", color: mark.colour, opacity: 0.14 },
    encoding: { x: { field: "x", ...x }, y: { field: "low", ...y }, y2: { field: "high" } },
  }
}

/** Thick until the release, thin after it; a dot at the release and a ring where the goalie is set. */
function lineLayers({ picture, mark }: Line, { x, y }: Axes): Spec[] {
  const rows = rowsOf(picture)
  const encoding = { x: { field: "x", ...x }, y: { field: "y", ...y } }
  const line = (values: readonly object[], strokeWidth: number): Spec => ({
    data: { values },
    mark: { type: "line", color: mark.colour, strokeWidth, strokeDash: mark.dash },
    encoding,
  })
  const point = { type: "point", color: mark.colour, opacity: 1 }
  const set = picture.setAt
  return [
    line(
      rows.filter((row) => row.x <= 0),
      3.2,
    ),
    line(
      rows.filter((row) => row.x >= 0),
      1.6,
    ),
    {
      data: { values: rows.filter((row) => row.x === 0) },
      mark: { ...point, shape: mark.shape, filled: true, size: 90 },
      encoding,
    },
    ...(set === null || set < rows[0]!.x || set > rows.at(-1)!.x
      ? []
      : [
          {
            data: { values: [{ x: chartNumber(set), y: inPercent(valueAt(picture, set)) }] },
            mark: { ...point, shape: "circle", filled: false, strokeWidth: 2.2, size: 170 },
            encoding,
          },
        ]),
  ]
}

/** The mean between two instants. */
function valueAt({ at, mean }: OpenNetPicture, t: number): number {
  const next = Math.max(
    1,
    at.findIndex((one) => one >= t),
  )
  const share = (t - at[next - 1]!) / (at[next]! - at[next - 1]!)
  return mean[next - 1]! + share * (mean[next]! - mean[next - 1]!)
}

/** Starts of the last move that lie no farther apart than this are drawn as one, s. */
const SAME_START = 0.005

/**
 * The release, and when the puck's last move usually starts, as upright lines with their names above: each start once, in
 * the colour of its line where lines start at times of their own, and named where there is room.
 */
function momentLayers(lines: readonly Line[], axes: Axes): Spec[] {
  const upright = (t: number, color: string, strokeDash: readonly number[]): Spec => ({
    data: { values: [{}] },
    mark: { type: "rule", color, strokeWidth: 1.8, strokeDash },
    encoding: { x: { value: axes.across(t) }, y: { value: -4 }, y2: { value: HEIGHT } },
  })
  const named = (t: number, text: string): Spec => ({
    data: { values: [{ text }] },
    mark: {
      type: "text",
      baseline: "bottom",
      align: t === 0 ? "center" : "left",
      fontSize: TEXT.small,
      fontWeight: 600,
    },
    encoding: { x: { value: axes.across(t) }, y: { value: -7 }, text: { field: "text" } },
  })
  const starts = startsOf(lines)
  let room = axes.across(0) - textWidth("release", TEXT.small, true) / 2 - NAME_GAP
  // from the release back, so that each name ends before the next begins
  const names = starts.toReversed().flatMap(({ picture: { starts: t, move } }) => {
    const from = axes.across(t)
    if (from + textWidth(STARTS[move], TEXT.small, true) > room) return []
    room = from - NAME_GAP
    return [named(t, STARTS[move])]
  })
  return [
    ...starts.map(({ picture, mark }) =>
      upright(picture.starts, starts.length === 1 ? COLOURS.quietInk : mark.colour, [3, 3]),
    ),
    upright(0, COLOURS.iron, []),
    ...names,
    named(0, "release"),
  ]
}

/** Between two names above a panel, px. */
const NAME_GAP = 6

/** The first line of each start, the earliest first. */
function startsOf(lines: readonly Line[]): Line[] {
  const inOrder = lines.toSorted((a, b) => a.picture.starts - b.picture.starts)
  const told: Line[] = []
  for (const line of inOrder) {
    const last = told.at(-1)?.picture
    const isSame = last?.move === line.picture.move && line.picture.starts - last.starts <= SAME_START
    if (!isSame) told.push(line)
  }
  return told
}

/** Names at the ends of the lines, moved apart where they would touch; each repeats the shape of its line. */
function labelLayers(lines: readonly Line[], axes: Axes): Spec[] {
  const named = lines.filter(({ picture }) => picture.label !== "")
  if (named.length === 0) return []
  const ideal = named.map(({ picture }) => axes.down(100 * picture.mean.at(-1)!))
  const placed = spreadLabels(ideal, TEXT.label * 1.3, 8, HEIGHT - 8)
  return named.flatMap(({ picture, mark }, at) => {
    const { colour, shape } = mark
    const data = { values: [{ label: capital(picture.label) }] }
    const y = { value: chartNumber(placed[at]!) }
    return [
      {
        data,
        mark: { type: "rule", color: colour, strokeWidth: 1, opacity: 0.6 },
        encoding: {
          x: { value: axes.across(picture.at.at(-1)!) + 2 },
          y: { value: ideal[at]! },
          x2: { value: axes.plot + 12 },
          y2: y,
        },
      },
      {
        data,
        mark: { type: "point", shape, filled: true, color: colour, opacity: 1, size: 70 },
        encoding: { x: { value: axes.plot + 18 }, y },
      },
      {
        data,
        mark: { type: "text", align: "left", baseline: "middle", fontSize: TEXT.label, fontWeight: 600, color: colour },
        encoding: { x: { value: axes.plot + 28 }, y, text: { field: "label" } },
      },
    ]
  })
}
