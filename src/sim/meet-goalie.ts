import { crossingDistance } from "./goal-line.ts"
import type { Meeting } from "./meeting.ts"
import * as meetingColumns from "./meeting.ts"
import * as pathColumns from "./path.ts"
import * as stationColumns from "./station.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const {
  ACROSS,
  FRAME_COS,
  FRAME_DU,
  FRAME_DV,
  FRAME_END,
  FRAME_INVERSE,
  FRAME_LEVEL,
  FRAME_LINE,
  FRAME_NORM,
  FRAME_RATE,
  FRAME_SIN,
  FRAME_SLACK,
  FRAME_TURN,
  FRAME_U,
  FRAME_V,
  FRAME_X,
  FRAME_Y,
  FURTHEST_PART,
  UNASKED,
} = meetingColumns
const { PATH_DX, PATH_DY, PATH_END, PATH_X, PATH_Y } = pathColumns
const { STATION_COS, STATION_SIN, STATION_X, STATION_Y } = stationColumns

/** Puts the path at `offset` into the frame of the goalie at `station`; saves count up to the distance `end`. */
export function meetGoalie(m: Meeting, path: Float64Array, offset: number, station: Float64Array, end: number): void {
  const c = station[STATION_COS]!
  const s = station[STATION_SIN]!
  const x = path[offset + PATH_X]! - station[STATION_X]!
  const y = path[offset + PATH_Y]! - station[STATION_Y]!
  const dx = path[offset + PATH_DX]!
  const dy = path[offset + PATH_DY]!
  const du = c * dx + s * dy
  m.frame[FRAME_U] = c * x + s * y
  m.frame[FRAME_V] = c * y - s * x
  m.frame[FRAME_DU] = du
  m.frame[FRAME_DV] = c * dy - s * dx
  m.frame[FRAME_END] = end < path[offset + PATH_END]! ? end : path[offset + PATH_END]!
  m.frame[FRAME_INVERSE] = du < -ACROSS || du > ACROSS ? 1 / du : 0
  m.frame[FRAME_X] = station[STATION_X]!
  m.frame[FRAME_Y] = station[STATION_Y]!
  m.frame[FRAME_COS] = c
  m.frame[FRAME_SIN] = s
  m.frame[FRAME_LINE] = crossingDistance(path, offset)
  m.frame[FRAME_NORM] = 1
  m.frame[FRAME_TURN] = 0
  m.frame[FRAME_SLACK] = 0
  const state = m.state
  for (let part = 0; part < state.length; part++) state[part] = UNASKED
}

/**
 * Lets the frame move with a goalie who is at `station` when the puck has flown the distance `level` and goes on at
 * (vx, vy), rink frame, turning at `turnRate`: the path becomes the relative one. `pace` is the puck's there, s/m. The turn
 * is taken part by part. Call it after meetGoalie.
 */
export function moveFrame(
  m: Meeting,
  station: Float64Array,
  vx: number,
  vy: number,
  turnRate: number,
  level: number,
  pace: number,
): void {
  const f = m.frame
  const forward = (station[STATION_COS]! * vx + station[STATION_SIN]! * vy) * pace
  const aside = (station[STATION_COS]! * vy - station[STATION_SIN]! * vx) * pace
  f[FRAME_U]! += forward * level
  f[FRAME_V]! += aside * level
  const du = f[FRAME_DU]! - forward
  const dv = f[FRAME_DV]! - aside
  f[FRAME_DU] = du
  f[FRAME_DV] = dv
  f[FRAME_INVERSE] = du < -ACROSS || du > ACROSS ? 1 / du : 0
  f[FRAME_NORM] = 1 / (du * du + dv * dv)
  f[FRAME_TURN] = turnRate
  f[FRAME_LEVEL] = level
  f[FRAME_SLACK] = (turnRate < 0 ? -turnRate : turnRate) * pace * FURTHEST_PART * FURTHEST_PART
}

/** Sets how fast the drop runs through its key phases; until the next goalie is met it must not change. */
export function setDrop(m: Meeting, phases: number, dropTime: number): void {
  m.frame[FRAME_RATE] = (phases - 1) / dropTime
}

/** Distance along the path where it is nearest, in plan, to the spot between the skates (never before the release). */
export function distanceToBody(m: Meeting): number {
  const f = m.frame
  const distance = -(f[FRAME_U]! * f[FRAME_DU]! + f[FRAME_V]! * f[FRAME_DV]!) * f[FRAME_NORM]!
  return distance > 0 ? distance : 0
}
