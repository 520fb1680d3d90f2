import type { Metres, Radians } from "../../sim/units.ts"
import type { RinkMeasures } from "../rink/chosen-rink.ts"
import { creaseMark, type Place, type Rink } from "../rink/rink.ts"
import type { MarkName } from "./parameters.ts"

/** Where the mark at +y is. Hash marks: the middle between the two at the circle's edge, on the side named. */
export function markPlace(rink: Rink, mark: MarkName): Place {
  const { endSpot, circleRadius } = rink
  switch (mark) {
    case "crease mark":
      return creaseMark(rink.crease)
    case "end-zone spot":
      return endSpot
    case "inner hash marks":
      return { x: endSpot.x, y: endSpot.y - circleRadius }
    case "outer hash marks":
      return { x: endSpot.x, y: endSpot.y + circleRadius }
    case "circle top":
      return { x: endSpot.x + circleRadius, y: endSpot.y }
    case "neutral spot":
      return rink.neutralSpot
  }
}

/** Bearing of the mark at +y, seen from the middle of the goal line. */
export function markBearing(rink: Rink, mark: MarkName): Radians {
  const { x, y } = markPlace(rink, mark)
  return Math.atan2(y, x)
}

/** Distance of the mark from the middle of the goal line. */
export function markDistance(rink: Rink, mark: MarkName): Metres {
  const { x, y } = markPlace(rink, mark)
  return Math.sqrt(x * x + y * y)
}

/** The measures that put a mark where it is, by the shape of the crease. */
export function markMeasures(rink: Rink, mark: MarkName): readonly (keyof RinkMeasures)[] {
  switch (mark) {
    case "crease mark":
      return [rink.crease.shape === "half circle" ? "creaseRadius" : "creaseHalfWidth", "creaseMarkOut"]
    case "end-zone spot":
      return ["endSpotOut", "endSpotSide"]
    case "neutral spot":
      return ["neutralSpotOut", "neutralSpotSide"]
    default:
      return ["endSpotOut", "endSpotSide", "circleRadius"]
  }
}
