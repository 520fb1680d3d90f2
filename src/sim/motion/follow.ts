import * as S from "../station.ts"
import type { Metres, MetresPerSecond, MetresPerSecondSquared, Seconds } from "../units.ts"
import { goAcross, modeFor, TURN_RATE } from "./across.ts"
import { ACCELERATION, BRAKING, MODE_STRIDE, peakSpeed, SET, stoppingDistance, TOP_SPEED } from "./mode.ts"
import * as T from "./timeline.ts"
import {
  addPiece,
  breakOff,
  fromSet,
  layCurve,
  layToRest,
  leaveSet,
  NO_SPEED,
  NO_WAY,
  stop,
  turnAlong,
} from "./travel.ts"

/**
 * Follows a puck that is carried: from where the goalie is at `at`, with the speed of that moment, toward the station
 * `target` to be there by `until`, turning along. Speed is gained and lost as the mode for this way allows, and what is
 * already had is kept; where the mode is too slow the goalie goes at its top speed and comes late. `isLast`: the puck
 * stops there, so that the goalie brakes to rest at the target; otherwise the speed lasts until something follows.
 * Whoever goes the other way too fast to turn on the spot stops first, as after a pass. A goalie no faster than
 * `setSpeed` stays set.
 */
export function followTo(
  movement: Float64Array,
  at: Seconds,
  until: Seconds,
  target: Float64Array,
  isLast: boolean,
  setSpeed: MetresPerSecond,
  vigour: number,
  table: Float64Array,
): void {
  const setAt = table[T.SET_AT]!
  breakOff(table, at)
  T.writePlace(table, at, table, T.WORK)
  const px = table[T.WORK]!
  const py = table[T.WORK + 1]!
  const vx = table[T.WORK + T.STATE_VX]!
  const vy = table[T.WORK + T.STATE_VY]!
  const dx = target[S.STATION_X]! - px
  const dy = target[S.STATION_Y]! - py
  const length = Math.sqrt(dx * dx + dy * dy)
  const along = length < NO_WAY ? 0 : (dx * vx + dy * vy) / length
  const speed = Math.sqrt(vx * vx + vy * vy)
  if (along < 0 && speed > setSpeed) {
    goAcross(movement, at, target, vigour, table)
    return
  }

  // the speed of the way, and when it falls to one at which a goalie is set
  const row = modeFor(movement, px, py, px + dx, py + dy) * MODE_STRIDE
  const gain = movement[row + ACCELERATION]! * vigour * vigour
  const braking = movement[row + BRAKING]!
  const carried = along > 0 ? along : 0
  let pace = 0
  let calm = at + (speed > setSpeed ? (speed - setSpeed) / braking : 0)
  if (length < NO_WAY) stop(table, at, braking)
  else {
    const even = length / (until - at)
    const top = Math.max(movement[row + TOP_SPEED]! * vigour, Math.min(carried, even))
    pace = paceFor(carried, length, until - at, gain, braking, top)
    layCurve(table, px, py, dx / length, dy / length, 0)
    // who goes slowly enough to stay set is in no mode's posture
    table[T.MODE_NOW] = pace > setSpeed || speed > setSpeed ? row / MODE_STRIDE : T.NO_MODE
    const ends = isLast ? layLast(table, at, length, carried, pace, gain, braking) : until
    if (!isLast) layOpen(table, at, carried, pace, pace > carried ? gain : -braking)
    if (pace > setSpeed) calm = ends
  }
  turnAlong(table, at, until, Math.atan2(target[S.STATION_SIN]!, target[S.STATION_COS]!), movement[TURN_RATE]!)
  if (calm > at) {
    table[T.SET_AT] = setAt
    fromSet(table, at)
    leaveSet(table, at)
    table[T.SET_AT] = calm + movement[row + SET]!
  } else table[T.SET_AT] = setAt > at && setAt < Number.POSITIVE_INFINITY ? setAt : at
}

/** How far a goalie who moves at `speed` gets in the time, in the mode at `row`: top speed as soon as it can be had. */
export function wayIn(
  movement: Float64Array,
  row: number,
  speed: MetresPerSecond,
  time: Seconds,
  vigour: number,
): Metres {
  const gain = movement[row + ACCELERATION]! * vigour * vigour
  const top = Math.max(movement[row + TOP_SPEED]! * vigour, speed)
  const gains = (top - speed) / gain
  return gains < time ? top * time - 0.5 * gain * gains * gains : speed * time + 0.5 * gain * time * time
}

/**
 * Speed c that, reached evenly from u, covers L in the time t: with acceleration a where it has to be more, braking b
 * where less; no more than the top speed.
 *
 *   c t - (c - u)² / 2a = L     c = u + a t - sqrt((a t)² - 2 a (L - u t))
 *   c t + (u - c)² / 2b = L     c = u - b t + sqrt((b t)² - 2 b (u t - L))
 *
 * Who cannot gain speed so fast takes the top speed for aim; who cannot lose it brakes all the while.
 */
function paceFor(
  u: MetresPerSecond,
  length: Metres,
  t: Seconds,
  a: MetresPerSecondSquared,
  b: MetresPerSecondSquared,
  top: MetresPerSecond,
): MetresPerSecond {
  const more = length - u * t
  if (more >= 0) {
    const root = a * t * a * t - 2 * a * more
    const pace = root >= 0 ? u + a * t - Math.sqrt(root) : top
    return pace < top ? pace : top
  }
  const root = b * t * b * t + 2 * b * more
  const pace = u - b * t + (root > 0 ? Math.sqrt(root) : 0)
  return pace > 0 ? Math.min(pace, top) : 0
}

/** Reaches the pace and keeps it until something follows. */
function layOpen(
  table: Float64Array,
  at: Seconds,
  carried: MetresPerSecond,
  pace: MetresPerSecond,
  rate: MetresPerSecondSquared,
): void {
  const takes = (pace - carried) / rate
  if (takes > 0) addPiece(table, at, 0, carried, rate)
  addPiece(table, at + takes, takes > 0 ? (pace * pace - carried * carried) / (2 * rate) : 0, pace, 0)
  table[T.TRAVEL_END] = pace > NO_SPEED ? Number.POSITIVE_INFINITY : at + takes
}

/** Reaches the pace, keeps it and brakes to rest `length` on, or past it where that is too near; returns when. */
function layLast(
  table: Float64Array,
  at: Seconds,
  length: Metres,
  carried: MetresPerSecond,
  pace: MetresPerSecond,
  gain: MetresPerSecondSquared,
  braking: MetresPerSecondSquared,
): Seconds {
  if (length <= stoppingDistance(braking, carried)) return stop(table, at, braking)
  return layToRest(table, at, length, carried, peakSpeed(gain, pace, braking, length, carried), gain, braking)
}
