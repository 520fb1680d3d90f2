import type { Metres } from "../../sim/units.ts"
import { creaseMark, type Rink } from "../rink/rink.ts"
import { missOfCircleTangent, missOfCreaseMark, missOfPlace } from "../rink/sight-lines.ts"

/**
 * Two rules of common practice, for which no source was found: a line along the paint is taken for the line to the
 * middle of the net. Here a goalie stands on that line, and how far off the true one is worked out. Both are told for
 * the marks at +y; those at -y are their mirror.
 */
export const LINES = ["spot and crease mark", "neutral spot and circle"] as const
export type LineName = (typeof LINES)[number]

/** How far the line from the spot to the middle of the net misses the other mark; positive where it passes outside. */
export function missOfLine(rink: Rink, line: LineName): Metres {
  return line === "spot and crease mark" ? missOfCreaseMark(rink) : missOfCircleTangent(rink)
}

/**
 * How far off the line to the spot a goalie is at a depth on it who stands in line with spot and mark, square to it,
 * positive away from the middle of the ice.
 */
export function offInLine(rink: Rink, line: LineName, depth: Metres): Metres {
  return line === "spot and crease mark" ? offBySpotAndMark(rink, depth) : offByTangent(rink, depth)
}

/** The mark lies inside the spot's line by its miss; from the spot to the mark and on the way off grows evenly. */
function offBySpotAndMark(rink: Rink, depth: Metres): Metres {
  const { x, y } = rink.endSpot
  const mark = creaseMark(rink.crease)
  const distance = Math.sqrt(x * x + y * y)
  const markDepth = (mark.x * x + mark.y * y) / distance
  return (-missOfCreaseMark(rink) * (distance - depth)) / (distance - markDepth)
}

/** The tangent from the neutral spot to the circle's edge is turned from the line to the net by the two angles' difference. */
function offByTangent(rink: Rink, depth: Metres): Metres {
  const { neutralSpot, endSpot, circleRadius } = rink
  const distance = Math.hypot(neutralSpot.x, neutralSpot.y)
  const toCircle = Math.hypot(neutralSpot.x - endSpot.x, neutralSpot.y - endSpot.y)
  const netAngle = Math.asin(Math.abs(missOfPlace(neutralSpot, endSpot)) / toCircle)
  const tangentAngle = Math.asin(circleRadius / toCircle)
  return (distance - depth) * Math.tan(netAngle - tangentAngle)
}
