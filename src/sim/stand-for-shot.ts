import type { Posture } from "./parts.ts"
import * as P from "./pose.ts"
import * as shotColumns from "./shots.ts"
import { stand } from "./station.ts"
import type { Metres, Radians } from "./units.ts"

const { DRAW_ANGLE, DRAW_DEPTH, DRAW_OFF_LINE, DRAW_TURN } = shotColumns

/** How far off the line on purpose, toward the goalie's left, with the puck at y. */
export function peek(numbers: Float64Array, y: Metres): Metres {
  return y < 0 ? -numbers[P.PEEK]! : numbers[P.PEEK]!
}

/**
 * Writes the station of a pose, `depth` out, for a puck at (x, y), with the errors of one shot: `draws` from `at` on are
 * its GOALIE draws.
 */
export function standWithErrors(
  posture: Posture,
  numbers: Float64Array,
  mouthHalfWidth: Metres,
  depth: Metres,
  draws: Float64Array,
  at: number,
  x: Metres,
  y: Metres,
  station: Float64Array,
): void {
  standWrongBy(
    posture,
    numbers,
    mouthHalfWidth,
    depth,
    draws,
    at,
    x,
    y,
    numbers[P.ANGLE_BIAS]!,
    numbers[P.ANGLE_ERROR]!,
    numbers[P.OFF_LINE_ERROR]!,
    station,
  )
}

/** As {@link standWithErrors}, wrong about the line by other amounts than the pose's own. */
export function standWrongBy(
  posture: Posture,
  numbers: Float64Array,
  mouthHalfWidth: Metres,
  depth: Metres,
  draws: Float64Array,
  at: number,
  x: Metres,
  y: Metres,
  angleBias: Radians,
  angleError: Radians,
  offLineError: Metres,
  station: Float64Array,
): void {
  const taken = depth + numbers[P.DEPTH_ERROR]! * draws[at + DRAW_DEPTH]!
  stand(
    taken > 0 ? taken : 0,
    x,
    y,
    posture.halfStance,
    mouthHalfWidth,
    posture.foremost + numbers[P.STAND_OFF]!,
    offLineError * draws[at + DRAW_OFF_LINE]! + peek(numbers, y),
    angleBias + angleError * draws[at + DRAW_ANGLE]!,
    numbers[P.TURN_ERROR]! * draws[at + DRAW_TURN]!,
    numbers[P.POST_TURN]!,
    station,
  )
}
