import type { UsualCourse } from "../../models/plays/usual-course.ts"
import { plain } from "../report/words.ts"
import { type Spec, stepOf } from "./chart.ts"
import { COLOURS, FONT_STACK, seriesMark, TEXT } from "./look.ts"
import { type Look, path, pixel, rectangle, text, textOnPaper } from "./mouth.ts"
import { textWidth } from "./text-width.ts"

/** Height of the times under a plan, px. */
export const TIMELINE_HEIGHT = 116
const NAMES = 78
const ROWS = { puck: 26, goalie: 62, axis: 84 } as const
const BAR = 18

/** The play opened out in time: the puck above, the goalie below, the release as a line. */
export function timelineMarks(course: UsualCourse, width: number): Spec[] {
  const [from, to] = [course.goalie[0]!.at, course.goalie.at(-1)!.at]
  const across = (at: number): number => pixel(NAMES + ((at - from) / (to - from)) * (width - NAMES - 4))
  const label = { font: FONT_STACK, fontSize: TEXT.small, baseline: "middle" }
  return [
    text("Puck", { ...label, x: 0, y: ROWS.puck, fontWeight: 600 }),
    text("Goalie", { ...label, x: 0, y: ROWS.goalie, fontWeight: 600 }),
    line(across(from), across(0), ROWS.puck),
    line(across(from), across(to), ROWS.goalie),
    ...course.legs.flatMap((leg, i) => legBar(leg, i, across)),
    ...unsetBar(course, across, to),
    path(`M${across(0)},4V${ROWS.axis}`, { stroke: COLOURS.iron, strokeWidth: 2.5 }),
    ...textOnPaper("release", { ...label, x: across(0), y: 6, align: "center", fontWeight: 600 }, COLOURS.ice),
    ...ticks(from, to, across),
  ]
}

function line(x: number, x2: number, y: number): Spec {
  return path(`M${x},${y}H${x2}`, { stroke: COLOURS.quietInk, strokeWidth: 2 })
}

/** A carry is a filled bar, a cut a darker one, a pass an empty one; on the stick between them only the line. */
function legBar(
  { does, starts, ends }: UsualCourse["legs"][number],
  at: number,
  across: (t: number) => number,
): Spec[] {
  const fill = { carry: COLOURS.covered, cut: COLOURS.quietInk, pass: COLOURS.snow }[does]
  const [x, x2] = [across(starts), across(ends)]
  const bar = { x, x2, y: ROWS.puck - BAR / 2, y2: ROWS.puck + BAR / 2, fill, stroke: COLOURS.ink, strokeWidth: 1.4 }
  const word = { carry: "carry", cut: "cut", pass: "pass" }[does]
  const look = { font: FONT_STACK, fontSize: TEXT.small, align: "center", baseline: "middle" }
  const name = x2 - x > 64 ? `${at + 1} ${word}` : String(at + 1)
  const ink = does === "cut" ? COLOURS.snow : COLOURS.ink
  return [rectangle(bar), text(name, { ...look, x: 0.5 * (x + x2), y: ROWS.puck + 0.5, fill: ink })]
}

/** While the goalie is not set: a filled bar. */
function unsetBar({ leavesSet, setAgain }: UsualCourse, across: (t: number) => number, to: number): Spec[] {
  const look = { font: FONT_STACK, fontSize: TEXT.small, align: "center", baseline: "middle" }
  if (leavesSet === null || setAgain === null || leavesSet > to) return setThroughout(across(0), look)
  const { colour } = seriesMark(0)
  const [x, x2] = [across(leavesSet), across(Math.min(setAgain, to))]
  const bar = { x, x2, y: ROWS.goalie - BAR / 2, y2: ROWS.goalie + BAR / 2, fill: colour }
  const name =
    x2 - x > 120
      ? [text("moving, not set", { ...look, x: 0.5 * (x + x2), y: ROWS.goalie + 0.5, fill: COLOURS.snow })]
      : []
  return [rectangle(bar), ...name]
}

/** Words left of the release, on paper of their own: the line of the goalie runs through them. */
function setThroughout(release: number, look: Look): Spec[] {
  const words = "set throughout"
  const half = 0.5 * textWidth(words, TEXT.small) + 5
  const x = release - half - 16
  const paper = { x: x - half, x2: x + half, y: ROWS.goalie - 8, y2: ROWS.goalie + 8, fill: COLOURS.ice }
  return [rectangle(paper), text(words, { ...look, x, y: ROWS.goalie })]
}

function ticks(from: number, to: number, across: (t: number) => number): Spec[] {
  const step = stepOf([from, to])
  const first = Math.ceil(from / step - 1e-9)
  const count = Math.floor(to / step + 1e-9) - first + 1
  const look = { font: FONT_STACK, fontSize: TEXT.small, align: "center", fill: COLOURS.quietInk }
  const axis = path(`M${across(from)},${ROWS.axis}H${across(to)}`, { stroke: COLOURS.quietInk, strokeWidth: 1.2 })
  return [
    axis,
    ...Array.from({ length: count }, (_, i) => (first + i) * step).flatMap((at) => [
      path(`M${across(at)},${ROWS.axis}v5`, { stroke: COLOURS.quietInk, strokeWidth: 1.2 }),
      text(`${plain(at, step < 0.1 ? 2 : step < 1 ? 1 : 0)} s`, { ...look, x: across(at), y: ROWS.axis + 20 }),
    ]),
  ]
}
