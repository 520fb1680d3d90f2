import type { GoalieMoment } from "../../models/plays/usual-course.ts"
import type { PlanPicture } from "../results.ts"
import type { Spec } from "./chart.ts"
import { COLOURS, FONT_STACK, seriesMark, TEXT } from "./look.ts"
import { path, pixel, text } from "./mouth.ts"
import { circleAt, clipped, lineThrough, type PlanScale, planScale } from "./plan-scale.ts"
import { goalLineMarks, HERE, iceMark, netMark, sheetMarks } from "./sheet-marks.ts"

/** Ice shown around the play, and around the goalie's way in the crease, m. */
const AROUND = { side: 1.6, far: 1.4, behind: 2 }
const NEAR = { side: 0.95, far: 0.75, behind: 0.5 }
/** How thick a goalie is drawn from front to back, m: the width is the stance's. */
const THICK = 0.3
/** Dashes of each way the puck goes. */
export const DASHES: Readonly<Record<string, readonly number[]>> = { carry: [], cut: [], pass: [9, 6], shot: [2, 4] }
const SHOT = "shot"

/** A drawing and how high it is, px. */
export interface Drawing {
  readonly marks: readonly Spec[]
  readonly height: number
}

/** The ice the play takes. */
export function iceView(plan: PlanPicture, width: number, highest: number): Drawing {
  const { course, rink } = plan
  const puck = [...course.legs.flatMap(({ from, to }) => [from, to]), course.shot]
  const side = Math.max(4.5, ...puck.map(({ y }) => Math.abs(y))) + AROUND.side
  const far = Math.max(5, ...puck.map(({ x }) => x)) + AROUND.far
  const nearest = Math.min(0, ...puck.map(({ x }) => x)) - AROUND.behind
  const scale = fitted(width, highest, Math.min(side, 0.5 * rink.width + 0.4), nearest, far)
  const marks = [
    iceMark(rink, scale, far),
    ...goalLineMarks(rink, scale),
    ...sheetMarks(rink, scale, HERE),
    netMark(scale, plan.mouthHalfWidth),
    ...goalieMarks(plan, scale, false),
    ...puckMarks(plan, scale),
  ]
  return { marks: [clipped(scale, marks)], height: scale.height }
}

/** The crease with the goalie's way through it. */
export function creaseView(plan: PlanPicture, width: number, highest: number): Drawing {
  const { course, rink } = plan
  const side = Math.max(1.3, ...course.goalie.map(({ y }) => Math.abs(y))) + NEAR.side
  const far = Math.max(rink.crease.radius, ...course.goalie.map(({ x }) => x)) + NEAR.far
  const scale = fitted(width, highest, side, -NEAR.behind, far)
  const marks = [
    path(`M0,0H${scale.width}V${scale.height}H0Z`, { fill: COLOURS.snow }),
    ...goalLineMarks(rink, scale),
    ...sheetMarks(rink, scale, HERE).slice(-2),
    netMark(scale, plan.mouthHalfWidth),
    ...puckMarks(plan, scale),
    ...goalieMarks(plan, scale, true),
  ]
  return { marks: [clipped(scale, marks)], height: scale.height }
}

/** The scale that fits a strip of ice into a width and a height: a tall strip is shown with more ice beside it. */
function fitted(width: number, highest: number, side: number, nearest: number, farthest: number): PlanScale {
  const tall = (highest * 2 * side) / (farthest - nearest)
  return planScale(width, tall < width ? (side * width) / tall : side, nearest, farthest)
}

/** The puck's way leg by leg, numbered as in the times beneath, and the shot. */
function puckMarks({ course }: PlanPicture, scale: PlanScale): Spec[] {
  const ink = { stroke: COLOURS.ink, strokeWidth: 3, strokeCap: "round" }
  const legs = course.legs.flatMap(({ does, from, to }, i) => [
    path(arrow(scale, from, to), { ...ink, strokeDash: DASHES[does]! }),
    ...numberAt(scale, 0.5 * (from.x + to.x), 0.5 * (from.y + to.y), i + 1),
  ])
  const shot = path(
    lineThrough(scale, [
      [course.shot.x, course.shot.y],
      [0, 0],
    ]),
    { ...ink, strokeWidth: 2.4, strokeDash: DASHES[SHOT]! },
  )
  const places = [course.legs[0]?.from ?? course.shot, course.shot]
  const dots = places.map(({ x, y }, i) =>
    path(circleAt(scale, x, y, 6 / scale.perMetre), {
      fill: i === 0 && course.legs.length > 0 ? COLOURS.snow : COLOURS.ink,
      stroke: COLOURS.ink,
      strokeWidth: 2.5,
    }),
  )
  return [shot, ...legs, ...dots]
}

type Spot = { readonly x: number; readonly y: number }

/** A line with a head short of its end, so that the next sign is seen. */
function arrow(scale: PlanScale, from: Spot, to: Spot): string {
  const [x1, y1, x2, y2] = [scale.across(from.y), scale.down(from.x), scale.across(to.y), scale.down(to.x)]
  const length = Math.hypot(x2 - x1, y2 - y1)
  if (length < 14) return `M${x1},${y1}L${x2},${y2}`
  const [ux, uy] = [(x2 - x1) / length, (y2 - y1) / length]
  const [tx, ty] = [x2 - 9 * ux, y2 - 9 * uy]
  const wing = (side: number): string =>
    `M${pixel(tx)},${pixel(ty)}L${pixel(tx - 9 * ux - side * 5 * uy)},${pixel(ty - 9 * uy + side * 5 * ux)}`
  return `M${x1},${y1}L${pixel(tx)},${pixel(ty)}${wing(1)}${wing(-1)}`
}

/** Of the ring round a number on the puck's way, px. */
const NUMBER_RADIUS = 10

function numberAt(scale: PlanScale, x: number, y: number, number: number): Spec[] {
  const look = { font: FONT_STACK, fontSize: TEXT.small, fontWeight: 700, align: "center", baseline: "middle" }
  const [across, down] = [scale.across(y), scale.down(x)]
  const ring = circleAt(scale, x, y, NUMBER_RADIUS / scale.perMetre)
  return [
    path(ring, { fill: COLOURS.snow, stroke: COLOURS.ink, strokeWidth: 1.5 }),
    text(String(number), { ...look, x: across, y: down + 1 }),
  ]
}

/** The goalie at the start as an outline and at the release filled, the way between as a line, with ghosts if close. */
function goalieMarks({ course, halfStance }: PlanPicture, scale: PlanScale, close: boolean): Spec[] {
  const before = course.goalie.filter(({ at }) => at <= 0)
  const [first, release] = [before[0]!, before.at(-1)!]
  const { colour } = seriesMark(0)
  const way = path(
    lineThrough(
      scale,
      before.map(({ x, y }) => [x, y]),
    ),
    { stroke: colour, strokeWidth: close ? 2.5 : 2, fill: "transparent" },
  )
  const ghosts = close
    ? before
        .filter((_, i) => i % 12 === 6)
        .map((moment) =>
          path(outlineOf(moment, halfStance, scale), {
            stroke: colour,
            strokeWidth: 1,
            strokeOpacity: 0.55,
            fill: "transparent",
          }),
        )
    : []
  return [
    ...ghosts,
    path(outlineOf(first, halfStance, scale), {
      stroke: colour,
      strokeWidth: 2.2,
      strokeDash: [4, 3],
      fill: COLOURS.snow,
      fillOpacity: 0.6,
    }),
    path(outlineOf(release, halfStance, scale), { stroke: colour, strokeWidth: 2.2, fill: colour, fillOpacity: 0.45 }),
    way,
    path(noseOf(release, scale), { stroke: colour, strokeWidth: 2.2 }),
  ]
}

/** The ground a goalie takes: as wide as the stance, turned to the puck. */
function outlineOf({ x, y, heading }: GoalieMoment, halfStance: number, scale: PlanScale): string {
  const [c, s] = [Math.cos(heading), Math.sin(heading)]
  const corners = [
    [THICK / 2, halfStance],
    [THICK / 2, -halfStance],
    [-THICK / 2, -halfStance],
    [-THICK / 2, halfStance],
  ] as const
  return `${lineThrough(
    scale,
    corners.map(([u, v]) => [x + c * u - s * v, y + s * u + c * v]),
  )}Z`
}

/** Which way the goalie faces. */
function noseOf({ x, y, heading }: GoalieMoment, scale: PlanScale): string {
  const reach = THICK * 1.6
  return lineThrough(scale, [
    [x, y],
    [x + reach * Math.cos(heading), y + reach * Math.sin(heading)],
  ])
}
