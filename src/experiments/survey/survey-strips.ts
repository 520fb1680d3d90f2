import type { Spec } from "../charts/chart.ts"
import { COLOURS, FONT_STACK, seriesMark, TEXT } from "../charts/look.ts"
import { path, pixel, rectangle, text } from "../charts/mouth.ts"
import { textWidth } from "../charts/text-width.ts"
import { cueLabel } from "./cue-words.ts"
import type { CueRow, Survey } from "./survey.ts"
import { numberDisc } from "./survey-crease.ts"
import { spotSymbol } from "./survey-plan.ts"

/** Room for names on the left and verdicts on the right, px; height of one spot's line and of the air between rows. */
const ROOM = { names: 180, verdicts: 96 }
const LINE = 10
const AIR = 12
/** Widest part of the axis drawn, m: a longer way off is cut and its arrow says so. */
const WIDEST = 0.4

interface Axis {
  readonly at: (off: number) => number
  readonly edge: number
  readonly top: number
  readonly bottom: number
}

/** Every cue at every spot: a sign at the bias with a bar of one standard deviation to either side. */
export function stripDrawing(survey: Survey, width: number): { readonly marks: Spec[]; readonly height: number } {
  const { rows, spots } = survey
  const rowHeight = spots.length * LINE + AIR
  const most = Math.max(0.1, ...rows.flatMap((row) => row.at.map(({ bias, spread }) => Math.abs(bias) + spread)))
  const edge = Math.min(WIDEST, Math.ceil(most * 10) / 10)
  const middle = 0.5 * (ROOM.names + width - ROOM.verdicts)
  const half = 0.5 * (width - ROOM.verdicts - ROOM.names)
  // the goalie's left is on the left, as in the plans above
  const at = (off: number): number => pixel(middle - (Math.max(-edge, Math.min(edge, off)) / edge) * half)
  const key = keyMarks(survey, width)
  const top = key.height + 34
  const bottom = top + rows.length * rowHeight
  const axis: Axis = { at, edge, top, bottom }
  const marks = [
    ...key.marks,
    ...axisMarks(survey, axis),
    ...rows.flatMap((row, i) => rowMarks(row, i, top + i * rowHeight, rowHeight, axis, width)),
  ]
  return { marks, height: bottom + 6 }
}

/** Which sign is which spot, in as many lines as they need. */
function keyMarks(survey: Survey, width: number): { readonly marks: Spec[]; readonly height: number } {
  let x = 0
  let y = 10
  const marks = survey.spots.flatMap(({ label }, i) => {
    const { colour, shape } = seriesMark(i)
    const wide = 18 + textWidth(label, TEXT.small) + 22
    if (x > 0 && x + wide > width) {
      x = 0
      y += 22
    }
    const place = x
    x += wide
    const look = { font: FONT_STACK, fontSize: TEXT.small, baseline: "middle", x: pixel(place + 18), y: y + 1 }
    return [spotSymbol(pixel(place + 7), y, colour, shape, 100), text(label, look)]
  })
  return { marks, height: y + 12 }
}

function axisMarks(survey: Survey, { at, edge, top, bottom }: Axis): Spec[] {
  const { "reference.trust_within": trust, "reference.distrust_beyond": beyond } = survey.request.settings.quantities
  const label = { font: FONT_STACK, fontSize: TEXT.small, align: "center", y: top - 8 }
  const step = edge > 0.2 ? 0.1 : 0.05
  const ticks = Array.from({ length: 2 * Math.round(edge / step) + 1 }, (_, i) => (i - Math.round(edge / step)) * step)
  const band = { x: at(trust), x2: at(-trust), y: top, y2: bottom, fill: COLOURS.plateau }
  return [
    rectangle(band),
    ...[beyond, -beyond].map((off) =>
      path(`M${at(off)},${top}V${bottom}`, { stroke: COLOURS.quietInk, strokeWidth: 1, strokeDash: [4, 4] }),
    ),
    path(`M${at(0)},${top}V${bottom}`, { stroke: COLOURS.ink, strokeWidth: 1.4 }),
    ...ticks.map((off) => text(tickText(off, edge), { ...label, x: at(off) })),
  ]
}

function tickText(off: number, edge: number): string {
  const cm = Math.round(Math.abs(off) * 100)
  if (cm === 0) return "on line"
  return Math.abs(off) < edge - 1e-6 ? String(cm) : `${cm} cm ${off > 0 ? "left" : "right"}`
}

function rowMarks(row: CueRow, index: number, y: number, height: number, axis: Axis, width: number): Spec[] {
  const middle = y + height / 2
  const name = { font: FONT_STACK, fontSize: TEXT.label, baseline: "middle", y: middle + 1 }
  const weight = { trust: 400, check: 400, distrust: 700 }[row.verdict]
  return [
    ...(index === 0 ? [] : [path(`M0,${y}H${width}`, { stroke: COLOURS.line, strokeWidth: 1 })]),
    ...numberDisc(12, middle, index + 1, COLOURS.ink),
    text(cueLabel(row), { ...name, x: 32, fontWeight: 600 }),
    ...row.at.flatMap(({ bias, spread }, spot) => {
      const { colour, shape } = seriesMark(spot)
      const line = y + AIR / 2 + (spot + 0.5) * LINE
      const bar = `M${axis.at(bias + spread)},${line}H${axis.at(bias - spread)}`
      const outside = Math.abs(bias) > axis.edge
      return [
        path(bar, { stroke: colour, strokeWidth: 2.4 }),
        spotSymbol(axis.at(bias), line, colour, outside ? (bias > 0 ? "triangle-left" : "triangle-right") : shape, 78),
      ]
    }),
    text(row.verdict, {
      ...name,
      x: width,
      align: "right",
      fontWeight: weight,
      fill: weight === 700 ? COLOURS.beaten : COLOURS.ink,
    }),
  ]
}
