import { creaseCorner, creaseMark, hashMarks, type Rink } from "../../models/rink/rink.ts"
import type { Spec } from "./chart.ts"
import { COLOURS, seriesMark } from "./look.ts"
import { path, pixel } from "./mouth.ts"
import { circleAt, lineThrough, type PlanScale } from "./plan-scale.ts"

/** Both sides of the ice. */
const SIDES = [1, -1] as const
const NONE = "transparent"

/** How a sheet is drawn: as it lies here, or as a ghost of the one remembered. */
export interface SheetLook {
  readonly line: string
  readonly blue: string
  readonly dash: readonly number[]
  readonly strokeWidth: number
  readonly isGhost: boolean
}

export const HERE: SheetLook = {
  line: COLOURS.iron,
  blue: seriesMark(0).colour,
  dash: [],
  strokeWidth: 2,
  isGhost: false,
}
export const GHOST: SheetLook = {
  line: COLOURS.quietInk,
  blue: COLOURS.quietInk,
  dash: [5, 4],
  strokeWidth: 1.4,
  isGhost: true,
}

/** Marks of a sheet that a goalie can use: crease, spots, circles with their hash marks, blue line. */
export function sheetMarks(rink: Rink, scale: PlanScale, look: SheetLook): Spec[] {
  const stroke = { stroke: look.line, strokeDash: look.dash, strokeWidth: look.strokeWidth, fill: NONE }
  const spots = SIDES.flatMap((side) =>
    [rink.endSpot, rink.neutralSpot].map(({ x, y }) => circleAt(scale, x, side * y, 0.5 * rink.spotDiameter)),
  )
  const circles = SIDES.map((side) => circleAt(scale, rink.endSpot.x, side * rink.endSpot.y, rink.circleRadius))
  const hashes = SIDES.flatMap((side) =>
    hashMarks(rink).map(({ from, to }) =>
      lineThrough(scale, [
        [from.x, side * from.y],
        [to.x, side * to.y],
      ]),
    ),
  )
  return [
    blueLine(rink, scale, look),
    path(circles.join("") + hashes.join(""), stroke),
    path(spots.join(""), look.isGhost ? stroke : { ...stroke, fill: look.line, fillOpacity: 0.85 }),
    path(creaseOutlinePath(rink, scale), {
      ...stroke,
      ...(look.isGhost ? {} : { fill: COLOURS.plateau, fillOpacity: 0.7 }),
    }),
    path(creaseMarkPaths(rink, scale), { ...stroke, strokeWidth: look.strokeWidth + (look.isGhost ? 0 : 1) }),
  ]
}

function blueLine(rink: Rink, scale: PlanScale, look: SheetLook): Spec {
  const half = 0.5 * rink.width
  const ends: [number, number][] = [
    [rink.blueLine, half],
    [rink.blueLine, -half],
  ]
  const wide = pixel(rink.blueWidth * scale.perMetre)
  const strokeWidth = look.isGhost ? look.strokeWidth : wide
  return path(lineThrough(scale, ends), { stroke: look.blue, strokeWidth, strokeDash: look.dash, strokeOpacity: 0.75 })
}

/** From the goal line along the side, round the front and back. */
function creaseOutlinePath({ crease }: Rink, scale: PlanScale): string {
  const corner = creaseCorner(crease)
  const r = pixel(crease.radius * scale.perMetre)
  const at = (x: number, y: number): string => `${scale.across(y)},${scale.down(x)}`
  const { x, y } = corner
  return `M${at(0, y)}L${at(x, y)}A${r},${r} 0 0 1 ${at(x, -y)}L${at(0, -y)}`
}

/** The mark of a straight-sided crease runs inward; an L has a second arm back toward the goal line. */
function creaseMarkPaths({ crease }: Rink, scale: PlanScale): string {
  const { x, y } = creaseMark(crease)
  const length = crease.markLength
  return SIDES.map((side) => {
    const inward: [number, number] = [x, side * (y - length)]
    const corner: [number, number] = [x, side * y]
    const back: [number, number] = [x - length, side * y]
    return lineThrough(scale, crease.shape === "half circle" ? [inward, corner, back] : [inward, corner])
  }).join("")
}

/** The ice between the boards, from behind the net to the end of the picture. */
export function iceMark(rink: Rink, scale: PlanScale, farthest: number): Spec {
  const half = 0.5 * rink.width
  const back = -rink.goalLineToBoards
  const r = pixel(rink.cornerRadius * scale.perMetre)
  const at = (x: number, y: number): string => `${scale.across(y)},${scale.down(x)}`
  const turn = back + rink.cornerRadius
  const outline =
    `M${at(farthest, half)}L${at(turn, half)}A${r},${r} 0 0 0 ${at(back, half - rink.cornerRadius)}` +
    `L${at(back, rink.cornerRadius - half)}A${r},${r} 0 0 0 ${at(turn, -half)}L${at(farthest, -half)}`
  return path(outline, { fill: COLOURS.snow, stroke: COLOURS.quietInk, strokeWidth: 3 })
}

/** The goal line between the boards, and the restricted area behind it. */
export function goalLineMarks(rink: Rink, scale: PlanScale): Spec[] {
  const inCorner = rink.cornerRadius - rink.goalLineToBoards
  const half = 0.5 * rink.width - rink.cornerRadius + Math.sqrt(rink.cornerRadius ** 2 - inCorner ** 2)
  const stroke = { stroke: COLOURS.iron, strokeWidth: 2, fill: NONE }
  const line = lineThrough(scale, [
    [0, half],
    [0, -half],
  ])
  const { trapezoid } = rink
  const sides =
    trapezoid === null
      ? ""
      : SIDES.map((side) =>
          lineThrough(scale, [
            [0, side * trapezoid.goalLineHalf],
            [-rink.goalLineToBoards, side * trapezoid.boardsHalf],
          ]),
        ).join("")
  return [path(line + sides, stroke)]
}

/** The net from above: its mouth on the goal line, its frame behind. */
export function netMark(scale: PlanScale, mouthHalfWidth: number): Spec {
  // a frame narrower at the back, for the eye alone: nothing is measured from it
  const deep = mouthHalfWidth
  const points: [number, number][] = [
    [0, mouthHalfWidth],
    [-0.75 * deep, 0.9 * mouthHalfWidth],
    [-deep, 0.45 * mouthHalfWidth],
    [-deep, -0.45 * mouthHalfWidth],
    [-0.75 * deep, -0.9 * mouthHalfWidth],
    [0, -mouthHalfWidth],
  ]
  return path(`${lineThrough(scale, points)}Z`, { fill: COLOURS.net, stroke: COLOURS.iron, strokeWidth: 2.5 })
}
