import { emptyBody, type PlacedBody, placeBody } from "../../sim/box/placed.ts"
import { type Mouth, puckFrom, type Sight } from "../../sim/box/sight.ts"
import type { Posture } from "../../sim/parts.ts"
import { STAND_OFF } from "../../sim/pose.ts"
import { STATION_COS, STATION_DEPTH, STATION_LENGTH, STATION_SIN, STATION_X, STATION_Y, stand } from "../../sim/station.ts"
import type { Metres, Radians } from "../../sim/units.ts"
import {
  BAR_RADIUS,
  MOUTH_HALF_WIDTH,
  MOUTH_HEIGHT,
  POST_RADIUS,
  PUCK_HALF_THICKNESS,
  PUCK_RADIUS,
} from "../../sim/world.ts"
import type { Settings } from "../settings.ts"
import { chosenDepth, poseNumbers } from "./pose-numbers.ts"

/** The goal's opening and iron out of a world. */
export function mouthOf(world: Float64Array): Mouth {
  return {
    width: 2 * world[MOUTH_HALF_WIDTH]!,
    height: world[MOUTH_HEIGHT]!,
    postRadius: world[POST_RADIUS]!,
    barRadius: world[BAR_RADIUS]!,
  }
}

/** A puck at rest at (x, y) on its way off the stick, with its disc. */
export function puckAt(world: Float64Array, x: Metres, y: Metres, z: Metres): Sight {
  return puckFrom(x, y, Math.max(z, world[PUCK_HALF_THICKNESS]!), world[PUCK_RADIUS]!, world[PUCK_HALF_THICKNESS]!)
}

/** Where a goalie stands exactly, without errors, and the body there at phase 0 of the drop. */
export interface StandingGoalie {
  readonly gx: Metres
  readonly gy: Metres
  readonly heading: Radians
  readonly depth: Metres
  readonly body: PlacedBody
}

/** Stands the goalie of some settings for a puck at (x, y); an empty net has a body without parts. */
export function standFor(settings: Settings, posture: Posture, world: Float64Array, x: Metres, y: Metres): StandingGoalie {
  const numbers = poseNumbers(settings)
  const station = new Float64Array(STATION_LENGTH)
  const nearest = posture.foremost + numbers[STAND_OFF]!
  const bias = settings.quantities["goalie.angle_bias"]
  stand(chosenDepth(settings), x, y, posture.halfStance, world[MOUTH_HALF_WIDTH]!, nearest, 0, bias, 0, station)
  const heading = Math.atan2(station[STATION_SIN]!, station[STATION_COS]!)
  const gx = station[STATION_X]!
  const gy = station[STATION_Y]!
  const present = settings.choices["play.goalie"] !== "none"
  const body = present ? placeBody(posture, 0, gx, gy, heading) : emptyBody()
  return { gx, gy, heading, depth: station[STATION_DEPTH]!, body }
}
