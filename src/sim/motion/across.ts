import * as S from "../station.ts"
import type { Metres, Seconds } from "../units.ts"
import { BACKWARD_GLIDE, MODE_STRIDE, MODES, SET, SHUFFLE, T_PUSH, TELESCOPE } from "./mode.ts"
import * as T from "./timeline.ts"
import { begin, breakOff, fromSet, goRound, goTo, turnTo } from "./travel.ts"

/** Numbers of how one goalie moves: the rows of {@link MODES}, then what belongs to no single mode. */
export const TURN_DELAY = MODES.length * MODE_STRIDE
/** rad/s */
export const TURN_RATE = TURN_DELAY + 1
/** A sideways way of up to this is shuffled, a longer one pushed, m. */
export const SHUFFLE_REACH = TURN_DELAY + 2
export const ROUTE = TURN_DELAY + 3
export const ACROSS = TURN_DELAY + 4
/** 1 when the feet move only once the turn is done. */
export const TURNS_FIRST = TURN_DELAY + 5
/** Reading of a pass: median, s, and spread of its logarithm; spread of the logarithm of a push's vigour. */
export const PASS_READING = TURN_DELAY + 6
export const PASS_READING_SPREAD = TURN_DELAY + 7
export const VIGOUR_SPREAD = TURN_DELAY + 8
/** 1 where a movement opens the stance (see opening.ts), and how long it takes to, s. */
export const OPENS = TURN_DELAY + 9
export const OPENS_IN = TURN_DELAY + 10
export const MOVEMENT_LENGTH = TURN_DELAY + 11

/** Values of ROUTE; ACROSS is the row of a mode, or this. */
export const ROUTE_ANGLE_FIRST = 0
export const ROUTE_ONE_PATH = 1
export const ROUTE_DEPTH_FIRST = 2
export const ACROSS_BY_DISTANCE = -1

/** Nearer to the line than this is on it, m. */
const ON_LINE: Metres = 1e-3

/**
 * Builds the timeline of a goalie who, at time `since` in state `from` (see STATE_X), decides at time `at` to go where
 * `target` (a station, see sim/station.ts) has them for a new place of the puck; see {@link goAcross}.
 */
export function planAcross(
  movement: Float64Array,
  from: Float64Array,
  since: Seconds,
  at: Seconds,
  target: Float64Array,
  vigour: number,
  table: Float64Array,
): void {
  begin(table, since, from[T.STATE_X]!, from[T.STATE_Y]!, from[T.STATE_VX]!, from[T.STATE_VY]!, from[T.STATE_HEADING]!)
  goAcross(movement, at, target, vigour, table)
}

/**
 * Adds to a timeline what follows from deciding at time `at` to go to `target`, a station; whatever was under way is
 * broken off there.
 *
 *   angle first   stop, go round the middle of the goal line at the present depth to the new line, then take the depth
 *   one path      stop, go straight to the new place
 *   depth first   stop, take the depth on the present line, then go straight to the new place
 *
 * A leg ends at rest before the next one starts. The turn runs beside the travel or before it. The goalie is set once
 * turned and once the last leg's own time to be set has passed. Allocates nothing.
 */
export function goAcross(
  movement: Float64Array,
  at: Seconds,
  target: Float64Array,
  vigour: number,
  table: Float64Array,
): void {
  breakOff(table, at)
  fromSet(table, at)
  T.writePlace(table, at, table, T.WORK)
  const px = table[T.WORK]!
  const py = table[T.WORK + 1]!

  // turn toward the puck, before the feet move or meanwhile
  const heading = Math.atan2(target[S.STATION_SIN]!, target[S.STATION_COS]!)
  const turned = turnTo(table, at, heading, movement[TURN_DELAY]!, movement[TURN_RATE]!)
  const soonest = movement[TURNS_FIRST] === 1 ? turned : at

  // one or two legs
  const x = target[S.STATION_X]!
  const y = target[S.STATION_Y]!
  const depth = Math.sqrt(x * x + y * y)
  const route = movement[ROUTE]!
  let ready = at
  if (route === ROUTE_ANGLE_FIRST) ready = roundLeg(movement, at, soonest, Math.atan2(y, x), vigour, table)
  else if (route === ROUTE_DEPTH_FIRST) ready = depthLeg(movement, at, soonest, depth, vigour, table)
  const ends = straightLeg(movement, ready, soonest, x, y, vigour, table)

  const offLine = depth > ON_LINE ? Math.abs(px * y - py * x) / depth : 0
  table[T.ON_ANGLE_AT] = route === ROUTE_ANGLE_FIRST ? ready : offLine < ON_LINE ? at : ends
  if (table[T.TURN_END]! > table[T.SET_AT]!) table[T.SET_AT] = table[T.TURN_END]!
}

/** Round to the bearing of the new line; returns when the goalie stands there. */
function roundLeg(
  movement: Float64Array,
  at: Seconds,
  soonest: Seconds,
  bearing: number,
  vigour: number,
  table: Float64Array,
): Seconds {
  T.writePlace(table, at, table, T.WORK)
  const px = table[T.WORK]!
  const py = table[T.WORK + 1]!
  const chord = 2 * Math.sqrt(px * px + py * py) * Math.abs(Math.sin(0.5 * (bearing - Math.atan2(py, px))))
  const row = sidewaysMode(movement, chord) * MODE_STRIDE
  const ends = goRound(table, at, soonest, bearing, movement, row, vigour)
  if (ends > at) table[T.SET_AT] = ends + movement[row + SET]!
  return ends
}

/** Out or in along the present line to a distance from the middle of the goal line. */
function depthLeg(
  movement: Float64Array,
  at: Seconds,
  soonest: Seconds,
  depth: Metres,
  vigour: number,
  table: Float64Array,
): Seconds {
  T.writePlace(table, at, table, T.WORK)
  const px = table[T.WORK]!
  const py = table[T.WORK + 1]!
  const present = Math.sqrt(px * px + py * py)
  // on the middle of the goal line there is no line to keep: straight out
  const cosine = present > ON_LINE ? px / present : 1
  const sine = present > ON_LINE ? py / present : 0
  return straightLeg(movement, at, soonest, depth * cosine, depth * sine, vigour, table)
}

/** Straight to a place in the mode that its direction and length ask for; returns when the goalie stands there. */
function straightLeg(
  movement: Float64Array,
  at: Seconds,
  soonest: Seconds,
  x: Metres,
  y: Metres,
  vigour: number,
  table: Float64Array,
): Seconds {
  T.writePlace(table, at, table, T.WORK)
  const row = modeFor(movement, table[T.WORK]!, table[T.WORK + 1]!, x, y) * MODE_STRIDE
  const ends = goTo(table, at, soonest, x, y, movement, row, vigour)
  if (ends > at) table[T.SET_AT] = ends + movement[row + SET]!
  return ends
}

/**
 * Mode for a way from (px, py) to (x, y): out or in where it runs more along the line to the middle of the goal line
 * than across it, sideways otherwise.
 */
export function modeFor(movement: Float64Array, px: Metres, py: Metres, x: Metres, y: Metres): number {
  const dx = x - px
  const dy = y - py
  // the line is taken through the middle of the way
  const mx = px + x
  const my = py + y
  const along = dx * mx + dy * my
  const across = Math.abs(dx * my - dy * mx)
  if (along > across) return TELESCOPE
  if (-along > across) return BACKWARD_GLIDE
  return sidewaysMode(movement, Math.sqrt(dx * dx + dy * dy))
}

/** Mode for a sideways way: the one that is asked for, or a shuffle for a short way and a T-push for a long one. */
export function sidewaysMode(movement: Float64Array, length: Metres): number {
  const asked = movement[ACROSS]!
  if (asked >= 0) return asked
  return length <= movement[SHUFFLE_REACH]! ? SHUFFLE : T_PUSH
}
