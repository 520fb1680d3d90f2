/** Every colour, size and mark of charts and report; nothing else names a colour. */

export const COLOURS = {
  /** Paper: the white of fresh ice. */
  ice: "#f6fafc",
  /** Open net, untouched ice. */
  snow: "#ffffff",
  ink: "#14263a",
  quietInk: "#4c6076",
  line: "#c9d6e0",
  faintLine: "#e4edf3",
  /** Goal iron. */
  iron: "#c8102e",
  net: "#cfdae3",
  best: "#e8a200",
  /** A place no limb reaches in time. */
  beaten: "#a13a00",
  badge: "#ffd977",
  /** Hidden from the puck by the stance, hatched. */
  covered: "#c7d4df",
  plateau: "#dcebf5",
  warning: "#8a4b00",
  warningPaper: "#fff4df",
} as const

/** How one line, dot or row is told from the next: by colour, by dash and by shape, each enough alone. */
export interface SeriesMark {
  readonly colour: string
  readonly dash: readonly number[]
  readonly shape: string
}

/** Colours after Okabe and Ito, darkened until text in them reads on the ice. */
export const SERIES: readonly SeriesMark[] = [
  { colour: "#0065a8", dash: [], shape: "circle" },
  { colour: "#c04e00", dash: [9, 4], shape: "square" },
  { colour: "#00795a", dash: [2, 4], shape: "triangle-up" },
  { colour: "#9a4f82", dash: [12, 4, 2, 4], shape: "diamond" },
  { colour: "#14263a", dash: [5, 3], shape: "triangle-down" },
  { colour: "#7d6a00", dash: [14, 6], shape: "cross" },
]

/** Mark of the n-th series; after the last the first returns. */
export function seriesMark(index: number): SeriesMark {
  return SERIES[index % SERIES.length]!
}

/** Bars of goals saved and of goals more let in: pale enough for lines in ink over them, and told apart without colour by their side of zero. */
export const SAVED_FILL = {
  saved: { fill: "#a9cbe6", line: "#0065a8" },
  lost: { fill: "#f3c3a0", line: "#a13a00" },
} as const

/** Fill of each region of the goalie: few hues, and greys far enough apart without them. */
export const REGION_FILL: Readonly<Record<string, string>> = {
  "catching glove": "#cf8524",
  blocker: "#9cc4e0",
  stick: "#efd9a7",
  "left pad": "#d5dfe8",
  "right pad": "#d5dfe8",
  body: "#3b5369",
  arms: "#627a90",
  mask: "#1b2d40",
  skates: "#26394c",
}

export const FONT = "Inter"
export const FONT_STACK = "Inter, system-ui, -apple-system, 'Segoe UI', Roboto, sans-serif"

/** Width of every chart, px, and the sizes of its text: read from two metres on a printed page or a screen. */
export const WIDTH = 900
export const TEXT = { title: 25, subtitle: 16, axisTitle: 17, label: 16, small: 14 } as const

/** Ends of the ramp of a share: even steps of lightness from pale to deep blue (interpolated in Lab). */
export const SHARE_RAMP = ["#f2f6d9", "#a5d3c4", "#4f9fb5", "#2a6596", "#1a2f63"] as const
/** Beaten by far, even, to spare by far. */
export const SPARE_RAMP = ["#a13a00", "#ee9b5c", "#fbf6ec", "#7fb2d9", "#0a4f8c"] as const
/** None to most. */
export const GOAL_RAMP = ["#fbfdfe", "#f6d3a8", "#e5853f", "#b03a2e", "#5e1224"] as const

/** Settings that every chart shares. */
export const CONFIG = {
  background: COLOURS.ice,
  font: FONT_STACK,
  padding: { left: 18, right: 18, top: 20, bottom: 18 },
  view: { stroke: null },
  axis: {
    labelFont: FONT_STACK,
    titleFont: FONT_STACK,
    labelFontSize: TEXT.label,
    titleFontSize: TEXT.axisTitle,
    titleFontWeight: 600,
    labelColor: COLOURS.ink,
    titleColor: COLOURS.ink,
    domainColor: COLOURS.quietInk,
    tickColor: COLOURS.quietInk,
    gridColor: COLOURS.faintLine,
    labelPadding: 6,
    titlePadding: 12,
  },
  legend: {
    labelFont: FONT_STACK,
    titleFont: FONT_STACK,
    labelFontSize: TEXT.small,
    titleFontSize: TEXT.label,
    titleFontWeight: 600,
    labelColor: COLOURS.ink,
    titleColor: COLOURS.ink,
  },
  text: { font: FONT_STACK, fontSize: TEXT.label, fill: COLOURS.ink },
} as const
