import { AXIS_0, AXIS_1, AXIS_2, CENTRE, HALF_SIZE, ROUNDING } from "../../sim/parts.ts"
import type { Metres } from "../../sim/units.ts"

/** Least and most coordinate of one part along an axis of the frame (0 u, 1 v, 2 z): centre -+ sum |a_i| h_i -+ rounding. */
export function extentOf(parts: Float64Array, at: number, axis: 0 | 1 | 2): { least: Metres; most: Metres } {
  const half =
    Math.abs(parts[at + AXIS_0 + axis]!) * parts[at + HALF_SIZE]! +
    Math.abs(parts[at + AXIS_1 + axis]!) * parts[at + HALF_SIZE + 1]! +
    Math.abs(parts[at + AXIS_2 + axis]!) * parts[at + HALF_SIZE + 2]! +
    parts[at + ROUNDING]!
  const centre = parts[at + CENTRE + axis]!
  return { least: centre - half, most: centre + half }
}
