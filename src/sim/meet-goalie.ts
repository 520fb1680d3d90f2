import { crossingDistance } from "./goal-line.ts"
import type { Meeting } from "./meeting.ts"
import * as meetingColumns from "./meeting.ts"
import * as timelineColumns from "./motion/timeline.ts"
import * as pathColumns from "./path.ts"
import * as stationColumns from "./station.ts"
import type { Seconds } from "./units.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const {
  ACROSS,
  FRAME_COS,
  FRAME_DU,
  FRAME_DV,
  FRAME_END,
  FRAME_INVERSE,
  FRAME_LINE,
  FRAME_NORM,
  FRAME_RATE,
  FRAME_SIN,
  FRAME_SLACK,
  FRAME_U,
  FRAME_V,
  FRAME_X,
  FRAME_Y,
  FURTHEST_REACH,
  UNASKED,
} = meetingColumns
const { PATH_DX, PATH_DY, PATH_END, PATH_X, PATH_Y, paceAt, timeAt } = pathColumns
const { STATE_HEADING, STATE_VX, STATE_VY, STATE_X, STATE_Y, stateAt, unevenness } = timelineColumns
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
  m.frame[FRAME_SLACK] = 0
  m.way = null
  m.count++
  const state = m.state
  for (let part = 0; part < state.length; part++) state[part] = UNASKED
}

/**
 * Lets the frame move with a goalie who is in `state` (see STATE_X) when the puck has flown the distance `level` and goes
 * on as the timeline says: the path, which begins at `begins` in the timeline, becomes the relative one of that moment.
 * Where the motion is not even while the puck passes, each part takes it up at its own moment. Call it after meetGoalie.
 */
export function moveFrame(
  m: Meeting,
  timeline: Float64Array,
  state: Float64Array,
  path: Float64Array,
  offset: number,
  level: number,
  begins: Seconds,
): void {
  const f = m.frame
  const pace = paceAt(path, offset, level)
  const c = Math.cos(state[STATE_HEADING]!)
  const s = Math.sin(state[STATE_HEADING]!)
  const forward = (c * state[STATE_VX]! + s * state[STATE_VY]!) * pace
  const aside = (c * state[STATE_VY]! - s * state[STATE_VX]!) * pace
  f[FRAME_U]! += forward * level
  f[FRAME_V]! += aside * level
  const du = f[FRAME_DU]! - forward
  const dv = f[FRAME_DV]! - aside
  f[FRAME_DU] = du
  f[FRAME_DV] = dv
  f[FRAME_INVERSE] = du < -ACROSS || du > ACROSS ? 1 / du : 0
  const norm = 1 / (du * du + dv * dv)
  f[FRAME_NORM] = norm

  // how uneven the motion is while the puck is near
  const passes = FURTHEST_REACH * pace * Math.sqrt(norm)
  const now = begins + timeAt(path, offset, level)
  const shift = unevenness(timeline, now - passes, now + passes, state, FURTHEST_REACH, m.moment) * passes
  if (shift === 0) return
  m.way = timeline
  m.begins = begins
  f[FRAME_SLACK] = shift
}

/** Remembers where the goalie is when the puck's middle is on the plane of the goal line, after {@link moveFrame}. */
export function placeAtLine(
  m: Meeting,
  timeline: Float64Array,
  path: Float64Array,
  offset: number,
  begins: Seconds,
): void {
  stateAt(timeline, begins + timeAt(path, offset, m.frame[FRAME_LINE]!), m.moment)
  m.frame[FRAME_X] = m.moment[STATE_X]!
  m.frame[FRAME_Y] = m.moment[STATE_Y]!
  m.frame[FRAME_COS] = Math.cos(m.moment[STATE_HEADING]!)
  m.frame[FRAME_SIN] = Math.sin(m.moment[STATE_HEADING]!)
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
