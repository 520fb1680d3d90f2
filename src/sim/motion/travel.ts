import type { Metres, MetresPerSecond, MetresPerSecondSquared, Radians, Seconds } from "../units.ts"
import {
  ACCELERATION,
  BACKWARD_GLIDE,
  BRAKING,
  MODE_STRIDE,
  peakSpeed,
  START,
  stoppingDistance,
  TELESCOPE,
  TOP_SPEED,
} from "./mode.ts"
import * as T from "./timeline.ts"

/** Shorter ways are not worth a push, m; slower drifts are standing still, m/s. */
export const NO_WAY: Metres = 1e-3
export const NO_SPEED: MetresPerSecond = 1e-9
/** A velocity that points to the place within this (1 - cosine) carries the goalie there. */
const ALIGNED = 1e-9

// the curve that pieces are being laid along
const CURVE_X = T.WORK + 4
const CURVE_Y = T.WORK + 5
const CURVE_UX = T.WORK + 6
const CURVE_UY = T.WORK + 7
const CURVE_BEND = T.WORK + 8

/** Starts a timeline at time t with a place, a velocity and a heading, which last until something is added. */
export function begin(
  table: Float64Array,
  t: Seconds,
  x: Metres,
  y: Metres,
  vx: MetresPerSecond,
  vy: MetresPerSecond,
  heading: Radians,
): void {
  table[T.PATH_COUNT] = 0
  table[T.MODE_NOW] = T.NO_MODE
  const moves = glideOn(table, t, x, y, vx, vy)
  table[T.TURN_COUNT] = 0
  addTurnPiece(table, t, heading, 0)
  table[T.TURN_END] = t
  table[T.UNSET_FROM] = moves ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY
  table[T.ON_ANGLE_AT] = t
}

/** From time t on, with this place and velocity: glides for good, or stands. Returns whether the goalie moves. */
function glideOn(
  table: Float64Array,
  t: Seconds,
  x: Metres,
  y: Metres,
  vx: MetresPerSecond,
  vy: MetresPerSecond,
): boolean {
  const speed = Math.sqrt(vx * vx + vy * vy)
  const moves = speed > NO_SPEED
  layCurve(table, x, y, moves ? vx / speed : 1, moves ? vy / speed : 0, 0)
  addPiece(table, t, 0, moves ? speed : 0, 0)
  table[T.TRAVEL_END] = moves ? Number.POSITIVE_INFINITY : t
  table[T.SET_AT] = table[T.TRAVEL_END]!
  return moves
}

/**
 * Breaks off whatever the timeline has after time `at`: from there the goalie glides on with the velocity of that moment
 * and keeps the heading. A timeline with nothing after `at` is left as it is.
 */
export function breakOff(table: Float64Array, at: Seconds): void {
  let path = table[T.PATH_COUNT]!
  while (path > 1 && table[T.PATH + (path - 1) * T.PATH_STRIDE + T.PIECE_AT]! > at) path--
  if (path < table[T.PATH_COUNT]!) {
    table[T.PATH_COUNT] = path
    table[T.MODE_NOW] = table[T.PIECE_MODES + path - 1]!
    T.writePlace(table, at, table, T.WORK)
    const vx = table[T.WORK + T.STATE_VX]!
    const vy = table[T.WORK + T.STATE_VY]!
    glideOn(table, at, table[T.WORK]!, table[T.WORK + 1]!, vx, vy)
  }
  let turns = table[T.TURN_COUNT]!
  while (turns > 1 && table[T.TURN + (turns - 1) * T.TURN_STRIDE + T.TURN_AT]! > at) turns--
  if (turns < table[T.TURN_COUNT]!) {
    const row = T.TURN + (turns - 1) * T.TURN_STRIDE
    const heading = table[row + T.TURN_HEADING]! + table[row + T.TURN_PACE]! * (at - table[row + T.TURN_AT]!)
    table[T.TURN_COUNT] = turns
    addTurnPiece(table, at, heading, 0)
    table[T.TURN_END] = at
  }
}

/** Turns evenly from time `at` to `until`, as far toward `heading` as `pace` allows, and stays in the stance. */
export function turnAlong(table: Float64Array, at: Seconds, until: Seconds, heading: Radians, pace: number): void {
  const row = T.TURN + (table[T.TURN_COUNT]! - 1) * T.TURN_STRIDE
  const present = table[row + T.TURN_HEADING]!
  const angle = shorterWay(heading - present)
  const most = pace * (until - at)
  const turn = angle > most ? most : angle < -most ? -most : angle
  if (Math.abs(turn) < 1e-12) return
  addTurnPiece(table, at, present, turn / (until - at))
  addTurnPiece(table, until, present + turn, 0)
  table[T.TURN_END] = until
}

/** Turns on the spot from time `at`: after a delay, evenly to the heading the shorter way round; returns when done. */
export function turnTo(table: Float64Array, at: Seconds, heading: Radians, delay: Seconds, pace: number): Seconds {
  const row = T.TURN + (table[T.TURN_COUNT]! - 1) * T.TURN_STRIDE
  const present = table[row + T.TURN_HEADING]!
  const angle = shorterWay(heading - present)
  if (Math.abs(angle) < 1e-12) return at
  const starts = at + delay
  const ends = starts + Math.abs(angle) / pace
  addTurnPiece(table, starts, present, angle > 0 ? pace : -pace)
  addTurnPiece(table, ends, present + angle, 0)
  table[T.TURN_END] = ends
  leaveSet(table, starts)
  return ends
}

/**
 * Brakes from time `at` to a standstill along the present velocity; returns when the goalie stands. A goalie who stands
 * already is left alone.
 */
export function stop(table: Float64Array, at: Seconds, braking: MetresPerSecondSquared): Seconds {
  T.writePlace(table, at, table, T.WORK)
  const vx = table[T.WORK + T.STATE_VX]!
  const vy = table[T.WORK + T.STATE_VY]!
  const speed = Math.sqrt(vx * vx + vy * vy)
  if (speed <= NO_SPEED) return at
  layCurve(table, table[T.WORK]!, table[T.WORK + 1]!, vx / speed, vy / speed, 0)
  addPiece(table, at, 0, speed, -braking)
  const ends = at + speed / braking
  addPiece(table, ends, stoppingDistance(braking, speed), 0, 0)
  table[T.TRAVEL_END] = ends
  return ends
}

/**
 * Goes straight to (x, y) and stands there, decided at time `at`; returns when. A goalie who moves must first stop, then
 * go; weight shifts meanwhile, so the push waits for the later of both, and not before `soonest`. Only a velocity that
 * points to the place and does not run past it is kept. `vigour` plays the push faster: speed by it, acceleration by its
 * square.
 */
export function goTo(
  table: Float64Array,
  at: Seconds,
  soonest: Seconds,
  x: Metres,
  y: Metres,
  modes: Float64Array,
  row: number,
  vigour: number,
): Seconds {
  const carried = speedToward(table, at, x, y, modes[row + BRAKING]!)
  const stands = carried > 0 ? at : stop(table, at, brakingOf(table, at, modes, row))
  T.writePlace(table, stands, table, T.WORK)
  const px = table[T.WORK]!
  const py = table[T.WORK + 1]!
  const length = Math.sqrt((x - px) * (x - px) + (y - py) * (y - py))
  if (length < NO_WAY) return stands
  const pushes = carried > 0 ? at : latest(at + modes[row + START]!, stands, soonest)
  layCurve(table, px, py, (x - px) / length, (y - py) / length, 0)
  return lay(table, pushes, length, carried, modes, row, vigour)
}

/**
 * Goes along the arc about the middle of the goal line, at the present distance from it, to the bearing `to`, and stands
 * there; otherwise as {@link goTo}.
 */
export function goRound(
  table: Float64Array,
  at: Seconds,
  soonest: Seconds,
  to: Radians,
  modes: Float64Array,
  row: number,
  vigour: number,
): Seconds {
  const stands = stop(table, at, brakingOf(table, at, modes, row))
  T.writePlace(table, stands, table, T.WORK)
  const px = table[T.WORK]!
  const py = table[T.WORK + 1]!
  const radius = Math.sqrt(px * px + py * py)
  if (radius < NO_WAY) return stands
  const angle = shorterWay(to - Math.atan2(py, px))
  const length = Math.abs(angle) * radius
  if (length < NO_WAY) return stands
  const side = angle > 0 ? 1 : -1
  const pushes = latest(at + modes[row + START]!, stands, soonest)
  layCurve(table, px, py, (-side * py) / radius, (side * px) / radius, side / radius)
  return lay(table, pushes, length, 0, modes, row, vigour)
}

/** Accelerate, cruise, brake, stand: the pieces of a way of `length` along the laid curve; returns when it ends. */
function lay(
  table: Float64Array,
  at: Seconds,
  length: Metres,
  initial: MetresPerSecond,
  modes: Float64Array,
  row: number,
  vigour: number,
): Seconds {
  const gain = modes[row + ACCELERATION]! * vigour * vigour
  const top = modes[row + TOP_SPEED]! * vigour
  const braking = modes[row + BRAKING]!
  const peak = peakSpeed(gain, top, braking, length, initial)
  table[T.MODE_NOW] = row / MODE_STRIDE
  const t = layToRest(table, at, length, initial, peak, gain, braking)
  leaveSet(table, at)
  return t
}

/**
 * Lays the pieces of a way of `length` that goes from speed `initial` to speed `peak`, keeps it, and brakes to rest at
 * the end; returns when. The way must be long enough for its two changes of speed.
 */
export function layToRest(
  table: Float64Array,
  at: Seconds,
  length: Metres,
  initial: MetresPerSecond,
  peak: MetresPerSecond,
  gain: MetresPerSecondSquared,
  braking: MetresPerSecondSquared,
): Seconds {
  // faster than is wanted: down by braking
  const rate = initial > peak ? -braking : gain
  let t = at
  let way = (peak * peak - initial * initial) / (2 * rate)
  if (peak !== initial) addPiece(table, t, 0, initial, rate)
  t += (peak - initial) / rate
  const brakes = length - stoppingDistance(braking, peak)
  if (brakes - way > 1e-12) {
    addPiece(table, t, way, peak, 0)
    t += (brakes - way) / peak
  }
  way = brakes
  addPiece(table, t, way, peak, -braking)
  t += peak / braking
  addPiece(table, t, length, 0, 0)
  table[T.TRAVEL_END] = t
  return t
}

/** How a moving goalie stops: out as a telescope, in as a backward glide, sideways as the mode at `row`. */
function brakingOf(table: Float64Array, at: Seconds, modes: Float64Array, row: number): MetresPerSecondSquared {
  T.writePlace(table, at, table, T.WORK)
  const x = table[T.WORK]!
  const y = table[T.WORK + 1]!
  const vx = table[T.WORK + T.STATE_VX]!
  const vy = table[T.WORK + T.STATE_VY]!
  const out = x * vx + y * vy
  const side = Math.abs(x * vy - y * vx)
  const stops = out > side ? TELESCOPE * MODE_STRIDE : -out > side ? BACKWARD_GLIDE * MODE_STRIDE : row
  return modes[stops + BRAKING]!
}

/** Speed at which the goalie already moves to (x, y) and can stop there; 0 when a stop must come first. */
function speedToward(
  table: Float64Array,
  at: Seconds,
  x: Metres,
  y: Metres,
  braking: MetresPerSecondSquared,
): MetresPerSecond {
  T.writePlace(table, at, table, T.WORK)
  const dx = x - table[T.WORK]!
  const dy = y - table[T.WORK + 1]!
  const vx = table[T.WORK + T.STATE_VX]!
  const vy = table[T.WORK + T.STATE_VY]!
  const length = Math.sqrt(dx * dx + dy * dy)
  const speed = Math.sqrt(vx * vx + vy * vy)
  if (speed <= NO_SPEED || length < stoppingDistance(braking, speed)) return 0
  return dx * vx + dy * vy >= (1 - ALIGNED) * length * speed ? speed : 0
}

/** Sets the curve that the next pieces lie on: a start, a unit direction and a curvature. */
export function layCurve(table: Float64Array, x: Metres, y: Metres, ux: number, uy: number, curvature: number): void {
  table[CURVE_X] = x
  table[CURVE_Y] = y
  table[CURVE_UX] = ux
  table[CURVE_UY] = uy
  table[CURVE_BEND] = curvature
}

/** Adds a piece that starts `way` along the laid curve; a piece that starts no later than the last replaces it. */
export function addPiece(
  table: Float64Array,
  at: Seconds,
  way: Metres,
  speed: MetresPerSecond,
  acceleration: MetresPerSecondSquared,
): void {
  let row = T.PATH + table[T.PATH_COUNT]! * T.PATH_STRIDE
  if (row > T.PATH && table[row - T.PATH_STRIDE + T.PIECE_AT]! >= at) row -= T.PATH_STRIDE
  else table[T.PATH_COUNT]!++
  table[T.PIECE_MODES + (row - T.PATH) / T.PATH_STRIDE] = table[T.MODE_NOW]!
  const ux = table[CURVE_UX]!
  const uy = table[CURVE_UY]!
  const curvature = table[CURVE_BEND]!
  const sine = Math.sin(curvature * way)
  const half = Math.sin(0.5 * curvature * way)
  const along = curvature === 0 ? way : sine / curvature
  const across = curvature === 0 ? 0 : (2 * half * half) / curvature
  table[row + T.PIECE_AT] = at
  table[row + T.PIECE_X] = table[CURVE_X]! + along * ux - across * uy
  table[row + T.PIECE_Y] = table[CURVE_Y]! + along * uy + across * ux
  table[row + T.PIECE_UX] = (1 - 2 * half * half) * ux - sine * uy
  table[row + T.PIECE_UY] = (1 - 2 * half * half) * uy + sine * ux
  table[row + T.PIECE_CURVATURE] = curvature
  table[row + T.PIECE_SPEED] = speed
  table[row + T.PIECE_ACCELERATION] = acceleration
}

/** Adds a piece of the turn; one that starts no later than the last replaces it. */
function addTurnPiece(table: Float64Array, at: Seconds, heading: Radians, pace: number): void {
  let row = T.TURN + table[T.TURN_COUNT]! * T.TURN_STRIDE
  if (row > T.TURN && table[row - T.TURN_STRIDE + T.TURN_AT]! >= at) row -= T.TURN_STRIDE
  else table[T.TURN_COUNT]!++
  table[row + T.TURN_AT] = at
  table[row + T.TURN_HEADING] = heading
  table[row + T.TURN_PACE] = pace
}

/** Forgets an earlier time out of the stance that is over by `at`: the next movement leaves it anew. */
export function fromSet(table: Float64Array, at: Seconds): void {
  if (table[T.SET_AT]! <= at) table[T.UNSET_FROM] = Number.POSITIVE_INFINITY
}

/** The stance is left at the first movement. */
export function leaveSet(table: Float64Array, at: Seconds): void {
  if (at < table[T.UNSET_FROM]!) table[T.UNSET_FROM] = at
}

/** An angle brought into [-pi, pi). */
function shorterWay(angle: Radians): Radians {
  return angle - 2 * Math.PI * Math.floor((angle + Math.PI) / (2 * Math.PI))
}

function latest(a: Seconds, b: Seconds, c: Seconds): Seconds {
  const later = a > b ? a : b
  return later > c ? later : c
}
