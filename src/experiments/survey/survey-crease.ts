import { creaseMark, type Rink } from "../../models/rink/rink.ts"
import type { Spec } from "../charts/chart.ts"
import { COLOURS, FONT_STACK, seriesMark, TEXT } from "../charts/look.ts"
import { path, pixel, text, textOnPaper } from "../charts/mouth.ts"
import { circleAt, clipped, lineThrough, type PlanScale, planScale } from "../charts/plan-scale.ts"
import { GHOST, goalLineMarks, HERE, netMark, sheetMarks } from "../charts/sheet-marks.ts"
import { textWidth } from "../charts/text-width.ts"
import type { Survey, SurveyedSpot } from "./survey.ts"
import { spotSymbol } from "./survey-plan.ts"

/** Ice beside the crease and behind the goal line, m. */
const AROUND = { side: 0.75, behind: 0.3, out: 0.45 }
/** Radius of a number's disc, px. */
const DISC = 10
/** Dots nearer to each other than this share a label, px. */
const TOGETHER = 7
const LABEL = { font: FONT_STACK, fontSize: TEXT.small, fontWeight: 700, align: "center", baseline: "middle" }
/** A cue that leads off by less than this is not drawn beside the true place. */
const SEEN = 0.005

/** The crease enlarged: the line to each spot, the goalie on angle, and where the cues that lead astray put the goalie. */
export function creaseDrawing(survey: Survey, width: number): { readonly marks: Spec[]; readonly height: number } {
  const { here, home } = survey.request
  const reach = Math.max(here.rink.crease.radius, ...survey.spots.map(({ depth }) => depth))
  const scale = planScale(width, reach + AROUND.side, -AROUND.behind, reach + AROUND.out)
  const taken: Box[] = []
  const marks = [
    path(`M0,0H${scale.width}V${scale.height}H0Z`, { fill: COLOURS.snow }),
    ...goalLineMarks(here.rink, scale),
    ...sheetMarks(here.rink, scale, HERE).slice(-2),
    ...(home === null ? [] : sheetMarks(home.rink, scale, GHOST).slice(-2)),
    netMark(scale, survey.mouthHalfWidth),
    ...markLines(here.rink, scale),
    ...survey.spots.flatMap((spot, i) => puckLine(spot, i, scale)),
    ...survey.spots.flatMap((spot, i) => stations(survey, spot, i, scale, taken)),
  ]
  return { marks: [clipped(scale, marks)], height: scale.height }
}

/** The line to the puck with the spot's sign near the edge of the picture. */
function puckLine(spot: SurveyedSpot, at: number, scale: PlanScale): Spec[] {
  const { colour, shape } = seriesMark(at)
  // as far along the line as the picture goes, a sign's width short of its edge
  const [cos, sin] = [Math.cos(spot.bearing), Math.abs(Math.sin(spot.bearing))]
  const room = 14 / scale.perMetre
  const farthest = scale.height / scale.perMetre - AROUND.behind - room
  const side = 0.5 * (scale.width / scale.perMetre) - room
  const end = Math.min(farthest / Math.max(cos, 1e-9), side / Math.max(sin, 1e-9))
  const [x, y] = [end * cos, end * Math.sin(spot.bearing)]
  return [
    path(
      lineThrough(scale, [
        [0, 0],
        [x, y],
      ]),
      { stroke: colour, strokeWidth: 1.6 },
    ),
    spotSymbol(scale.across(y), scale.down(x), colour, shape, 170),
  ]
}

/** The goalie on angle as a ring, a dot where each biased cue leads, and the number of the farthest on either side, where free. */
function stations(survey: Survey, spot: SurveyedSpot, at: number, scale: PlanScale, taken: Box[]): Spec[] {
  const { colour } = seriesMark(at)
  const [cos, sin] = [Math.cos(spot.bearing), Math.sin(spot.bearing)]
  const place = (bias: number): { x: number; y: number } => ({
    x: pixel(scale.across(spot.stationY + bias * cos)),
    y: pixel(scale.down(spot.stationX - bias * sin)),
  })
  const leads = survey.rows
    .map((row, i) => ({ bias: row.at[at]!.bias, number: i + 1 }))
    .filter(({ bias }) => Math.abs(bias) > SEEN)
  const dots = leads.map(({ bias }) => spotSymbol(place(bias).x, place(bias).y, colour, "circle", 60))
  const labels = [1, -1].flatMap((side) => {
    const own = leads.filter(({ bias }) => bias * side > 0)
    if (own.length === 0) return []
    const most = Math.max(...own.map(({ bias }) => bias * side))
    const farthest = own.filter(({ bias }) => (most - bias * side) * scale.perMetre < TOGETHER)
    const content = farthest.map(({ number }) => number).join(" · ")
    const half = 0.5 * textWidth(content, TEXT.small, true)
    const label = { ...place(side * (most + (10 + half) / scale.perMetre)), half }
    if (taken.some((other) => touch(other, label))) return []
    taken.push(label)
    return textOnPaper(content, { ...LABEL, x: label.x, y: label.y })
  })
  const ring = circleAt(scale, spot.stationX, spot.stationY, 6 / scale.perMetre)
  return [path(ring, { fill: COLOURS.snow, stroke: colour, strokeWidth: 3 }), ...dots, ...labels]
}

/** Middle of a label and half its width, px. */
interface Box {
  readonly x: number
  readonly y: number
  readonly half: number
}

function touch(a: Box, b: Box): boolean {
  return Math.abs(a.x - b.x) < a.half + b.half + 3 && Math.abs(a.y - b.y) < TEXT.small + 2
}

/** The line that common practice takes for the one to the net: from the end-zone spot through the crease mark. */
function markLines({ endSpot, crease }: Rink, scale: PlanScale): Spec[] {
  const mark = creaseMark(crease)
  const toGoalLine = endSpot.x / (endSpot.x - mark.x)
  const end = endSpot.y + toGoalLine * (mark.y - endSpot.y)
  const look = { stroke: COLOURS.ink, strokeWidth: 1.6, strokeDash: [2, 4] }
  return [1, -1].map((side) => {
    const line = lineThrough(scale, [
      [endSpot.x, side * endSpot.y],
      [0, side * end],
    ])
    return path(line, look)
  })
}

/** A number on a disc: the row of a cue. */
export function numberDisc(x: number, y: number, number: number, colour: string): Spec[] {
  const disc = `M${x},${y - DISC}a${DISC},${DISC} 0 1 1 0,${2 * DISC}a${DISC},${DISC} 0 1 1 0,${-2 * DISC}Z`
  const look = { font: FONT_STACK, fontSize: TEXT.small, fontWeight: 700, align: "center", baseline: "middle" }
  return [
    path(disc, { fill: COLOURS.badge, stroke: colour, strokeWidth: 2 }),
    text(String(number), { ...look, x, y: y + 1 }),
  ]
}
