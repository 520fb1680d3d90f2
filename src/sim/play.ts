import { PASS_READING, PASS_READING_SPREAD, planAcross, VIGOUR_SPREAD } from "./motion/across.ts"
import { saucerArrival, slidingArrival } from "./motion/pass.ts"
import {
  SET_AT,
  STATE_HEADING,
  STATE_LENGTH,
  STATE_UNSET_FOR,
  STATE_VX,
  STATE_VY,
  STATE_X,
  STATE_Y,
  stateAt,
  TIMELINE_LENGTH,
} from "./motion/timeline.ts"
import { STATION_COS, STATION_SIN, STATION_X, STATION_Y } from "./station.ts"
import type { Seconds } from "./units.ts"
import { DRAG, GRAVITY, ICE_FRICTION } from "./world.ts"

/** Columns of a play: what the puck does before the shot leaves the stick. Rink frame, SI. */
export const PLAY_KIND = 0
/** Nothing before the release: the goalie is in place. */
export const PLAY_STRAIGHT = 0
/** A pass from FROM_X, FROM_Y to where the shot is taken, and a time until it leaves the receiver's stick. */
export const PLAY_PASS = 1
export const FROM_X = 1
export const FROM_Y = 2
export const PASS_SPEED = 3
export const PASS_SPEED_SD = 4
/** How far the pass flies before it lands, m; 0 slides all the way. */
export const PASS_CARRY = 5
/** From the puck's arrival to the release, s: median and spread of its logarithm. */
export const RECEIVE_TIME = 6
export const RECEIVE_SPREAD = 7
export const PLAY_LENGTH = 8

/** Draws of one shot in the PLAY stream; the first belongs to the batch. */
export const PLAY_DRAWS = 4
export const DRAW_PASS_SPEED = 1
export const DRAW_RECEIVE = 2

/** A play in which the goalie is in place when the shot is taken. */
export function straightPlay(): Float64Array {
  return new Float64Array(PLAY_LENGTH)
}

/** Scratch for one goalie's movement through one shot's play. */
export interface Moves {
  readonly timeline: Float64Array
  readonly state: Float64Array
  readonly from: Float64Array
  /** From the start of the pass to the release. */
  lasts: Seconds
  /** The pass was never reached by its receiver's stick before it stopped. */
  stops: boolean
}

export function moves(): Moves {
  return {
    timeline: new Float64Array(TIMELINE_LENGTH),
    state: new Float64Array(STATE_LENGTH),
    from: new Float64Array(STATE_LENGTH),
    lasts: 0,
    stops: false,
  }
}

/** Slowest pass that is played, m/s. */
const SLOWEST_PASS = 3

/** How long the pass and the receiver take for this shot; `speedNormal` and `receiveNormal` are standard normals. */
export function timePlay(
  world: Float64Array,
  play: Float64Array,
  x: number,
  y: number,
  speedNormal: number,
  receiveNormal: number,
  m: Moves,
): void {
  const dx = x - play[FROM_X]!
  const dy = y - play[FROM_Y]!
  const distance = Math.sqrt(dx * dx + dy * dy)
  const drawn = play[PASS_SPEED]! + play[PASS_SPEED_SD]! * speedNormal
  const speed = drawn > SLOWEST_PASS ? drawn : SLOWEST_PASS
  const friction = world[ICE_FRICTION]! * world[GRAVITY]!
  const carry = play[PASS_CARRY]!
  const passes =
    carry > 0
      ? saucerArrival(world[GRAVITY]!, world[ICE_FRICTION]!, world[DRAG]!, speed, Math.min(carry, distance), distance)
      : slidingArrival(friction, world[DRAG]!, speed, distance)
  m.stops = passes === Infinity
  m.lasts = passes + play[RECEIVE_TIME]! * Math.exp(play[RECEIVE_SPREAD]! * receiveNormal)
}

/**
 * Plans the goalie's way from the station for the passer to the station for the shot, and writes the state at the
 * release (time 0) to `m.state`. The pass is read a reading time after it starts; vigour varies from shot to shot.
 */
export function planMoves(
  movement: Float64Array,
  start: Float64Array,
  target: Float64Array,
  readingNormal: number,
  vigourNormal: number,
  m: Moves,
): void {
  m.from[STATE_X] = start[STATION_X]!
  m.from[STATE_Y] = start[STATION_Y]!
  m.from[STATE_VX] = 0
  m.from[STATE_VY] = 0
  m.from[STATE_HEADING] = Math.atan2(start[STATION_SIN]!, start[STATION_COS]!)
  const reading = movement[PASS_READING]! * Math.exp(movement[PASS_READING_SPREAD]! * readingNormal)
  const vigour = Math.exp(movement[VIGOUR_SPREAD]! * vigourNormal)
  planAcross(movement, m.from, -m.lasts, -m.lasts + reading, target, vigour, m.timeline)
  stateAt(m.timeline, 0, m.state)
}

/** Puts the state into a station. */
export function stationOfState(state: Float64Array, station: Float64Array): void {
  station[STATION_X] = state[STATE_X]!
  station[STATION_Y] = state[STATE_Y]!
  station[STATION_COS] = Math.cos(state[STATE_HEADING]!)
  station[STATION_SIN] = Math.sin(state[STATE_HEADING]!)
}

/** Seconds between being set and the release: negative when late. */
export function arrivalMargin(m: Moves): Seconds {
  return -m.timeline[SET_AT]!
}

/** Whether the goalie is still moving or not yet set at the release. */
export function isUnset(m: Moves): boolean {
  return m.state[STATE_UNSET_FOR]! > 0
}
