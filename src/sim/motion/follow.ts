import * as S from "../station.ts"
import type { MetresPerSecond, Seconds } from "../units.ts"
import { goAcross, modeFor, TURN_RATE } from "./across.ts"
import { MODE_STRIDE, SET, TOP_SPEED } from "./mode.ts"
import * as T from "./timeline.ts"
import { breakOff, fromSet, glideTo, leaveSet, turnAlong } from "./travel.ts"

/**
 * Follows a puck that is carried: from where the goalie is at `at` to the station `target` by `until`, evenly, turning
 * along. Where that would be faster than the mode for this way allows, the goalie goes as after a pass and comes late.
 * A goalie no faster than `setSpeed` stays set; a faster one is set again the mode's time after standing still.
 */
export function followTo(
  movement: Float64Array,
  at: Seconds,
  until: Seconds,
  target: Float64Array,
  setSpeed: MetresPerSecond,
  vigour: number,
  table: Float64Array,
): void {
  const x = target[S.STATION_X]!
  const y = target[S.STATION_Y]!
  T.writePlace(table, at, table, T.WORK)
  const px = table[T.WORK]!
  const py = table[T.WORK + 1]!
  const length = Math.sqrt((x - px) * (x - px) + (y - py) * (y - py))
  const row = modeFor(movement, px, py, x, y) * MODE_STRIDE
  if (length > movement[row + TOP_SPEED]! * vigour * (until - at)) {
    goAcross(movement, at, target, vigour, table)
    return
  }
  const setAt = table[T.SET_AT]!
  breakOff(table, at)
  table[T.SET_AT] = setAt
  const speed = glideTo(table, at, until, x, y)
  turnAlong(table, at, until, Math.atan2(target[S.STATION_SIN]!, target[S.STATION_COS]!), movement[TURN_RATE]!)
  if (speed > setSpeed) {
    fromSet(table, at)
    leaveSet(table, at)
    table[T.SET_AT] = until + movement[row + SET]!
  } else table[T.SET_AT] = setAt > at && setAt < Number.POSITIVE_INFINITY ? setAt : at
}
