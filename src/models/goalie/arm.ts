import type { Metres } from "../../sim/units.ts"
import { across, along, length, subtract, type Vector } from "./vector.ts"

/** Share of the arm's length a hand may be from the shoulder: an elbow is never quite straight (an assumption). */
const STRAIGHTEST = 0.98

export interface PlacedArm {
  readonly shoulder: Vector
  readonly elbow: Vector
  readonly hand: Vector
}

/** An arm with its hand where it is wanted, or as near as the arm is long, and its elbow bent toward `pole`. */
export function placeArm(shoulder: Vector, wanted: Vector, upper: Metres, lower: Metres, pole: Vector): PlacedArm {
  const to = subtract(wanted, shoulder)
  const far = length(to)
  const distance = Math.max(Math.abs(upper - lower) * 1.02, Math.min(STRAIGHTEST * (upper + lower), far))
  const direction: Vector = far < 1e-9 ? [1, 0, 0] : [to[0] / far, to[1] / far, to[2] / far]
  // the elbow's foot on the line from shoulder to hand, and its height above it
  const foot = (upper * upper - lower * lower + distance * distance) / (2 * distance)
  const height = Math.sqrt(Math.max(0, upper * upper - foot * foot))
  const elbow = along(along(shoulder, direction, foot), across(direction, pole), height)
  return { shoulder, elbow, hand: along(shoulder, direction, distance) }
}
