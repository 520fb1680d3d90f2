import type { Metres } from "../../sim/units.ts"
import { creaseMark, type Place, type Rink } from "./rink.ts"

/**
 * Two rules of thumb by which goalies find their angle from the paint, computed for a rink instead of believed. Both
 * use a straight line of sight from the centre of the goal line through a face-off spot.
 */

/**
 * How far a place is from the line of sight through `spot`, square to it. Positive: the line passes outside, farther
 * from straight ahead than the place.
 */
export function missOfPlace(spot: Place, place: Place): Metres {
  return (spot.y * place.x - spot.x * place.y) / Math.sqrt(spot.x * spot.x + spot.y * spot.y)
}

/** "The line from the end-zone spot to the middle of the goal passes through the crease's corner mark": by how much not. */
export function missOfCreaseMark(rink: Rink): Metres {
  return missOfPlace(rink.endSpot, creaseMark(rink.crease))
}

/**
 * "The line from the nearer neutral spot to the middle of the goal touches the end-zone circle": by how much it passes
 * outside the outer edge; negative where it cuts the circle.
 */
export function missOfCircleTangent(rink: Rink): Metres {
  return Math.abs(missOfPlace(rink.neutralSpot, rink.endSpot)) - rink.circleRadius
}

/** Where the line of sight through the end-zone spot crosses the crease's side line, out from the goal line. */
export function sideLineCrossing(rink: Rink): Metres {
  return (rink.crease.halfWidth * rink.endSpot.x) / rink.endSpot.y
}
