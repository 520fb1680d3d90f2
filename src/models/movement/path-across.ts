import { planAcross } from "../../sim/motion/across.ts"
import { MODE_STRIDE, MODES, type Mode, travelTime as travelTimeOf } from "../../sim/motion/mode.ts"
import * as T from "../../sim/motion/timeline.ts"
import * as S from "../../sim/station.ts"
import type { Metres, MetresPerSecond, Radians, Seconds } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { movementNumbers } from "./movement-numbers.ts"

/** A place on the ice, rink frame. */
export interface Spot {
  readonly x: Metres
  readonly y: Metres
}

/** What the body and the goal allow, and how the goalie moves when it begins. */
export interface Footing {
  /** Half the distance between the outer edges of the skates; 0 leaves the posts no say. */
  readonly halfStance: Metres
  readonly mouthHalfWidth: Metres
  /** Least distance from the skates to the puck. */
  readonly nearest: Metres
  /** Speed along the line to the puck at the release of the pass, positive out; negative for a goalie who backs up. */
  readonly outward: MetresPerSecond
  /** From the release of the pass to the decision; the settings' median unless given. */
  readonly reading?: Seconds
  /** How fast the push is played beside its usual pace. */
  readonly vigour?: number
}

/** The way from on line with one place of the puck to on line with another; times count from the release of the pass. */
export interface PathAcross {
  readonly timeline: Float64Array
  readonly from: Spot
  readonly to: Spot
  /** Straight from one place to the other. */
  readonly distance: Metres
  /** Turn of hips and shoulders, positive toward the goalie's left. */
  readonly turn: Radians
  readonly onAngle: Seconds
  readonly arrives: Seconds
  readonly set: Seconds
}

/** From the decision to standing still `distance` away in one mode, from rest. */
export function travelTime(settings: Settings, mode: Mode, distance: Metres): Seconds {
  return travelTimeOf(movementNumbers(settings), MODES.indexOf(mode) * MODE_STRIDE, distance)
}

/**
 * How the goalie of these settings, on line and square to the puck at `fromPuck` and `depth` out, gets on line with a
 * puck passed to `toPuck`, `newDepth` out.
 */
export function pathAcross(
  settings: Settings,
  fromPuck: Spot,
  toPuck: Spot,
  depth: Metres,
  newDepth: Metres,
  footing: Footing,
): PathAcross {
  const movement = movementNumbers(settings)
  const postTurn = settings.quantities["goalie.post_turn"]
  const start = stationFor(fromPuck, depth, footing, postTurn)
  const target = stationFor(toPuck, newDepth, footing, postTurn)
  const cosine = start[S.STATION_COS]!
  const sine = start[S.STATION_SIN]!
  const heading = Math.atan2(sine, cosine)

  const state = new Float64Array(T.STATE_LENGTH)
  state[T.STATE_X] = start[S.STATION_X]!
  state[T.STATE_Y] = start[S.STATION_Y]!
  state[T.STATE_VX] = footing.outward * cosine
  state[T.STATE_VY] = footing.outward * sine
  state[T.STATE_HEADING] = heading

  const timeline = new Float64Array(T.TIMELINE_LENGTH)
  const reading = footing.reading ?? settings.quantities["movement.pass_reading"]
  planAcross(movement, state, 0, reading, target, footing.vigour ?? 1, timeline)
  const from = { x: start[S.STATION_X]!, y: start[S.STATION_Y]! }
  const to = { x: target[S.STATION_X]!, y: target[S.STATION_Y]! }
  const last = T.TURN + (timeline[T.TURN_COUNT]! - 1) * T.TURN_STRIDE
  return {
    timeline,
    from,
    to,
    distance: Math.hypot(to.x - from.x, to.y - from.y),
    turn: timeline[last + T.TURN_HEADING]! - heading,
    onAngle: timeline[T.ON_ANGLE_AT]!,
    arrives: Math.max(reading, timeline[T.TRAVEL_END]!),
    set: Math.max(reading, timeline[T.SET_AT]!),
  }
}

function stationFor(
  puck: Spot,
  depth: Metres,
  { halfStance, mouthHalfWidth, nearest }: Footing,
  postTurn: Radians,
): Float64Array {
  const station = new Float64Array(S.STATION_LENGTH)
  S.stand(depth, puck.x, puck.y, halfStance, mouthHalfWidth, nearest, 0, 0, 0, postTurn, station)
  return station
}
