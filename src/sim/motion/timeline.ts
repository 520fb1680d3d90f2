import type { Seconds } from "../units.ts"

/**
 * A goalie's movement over the ice in closed form, as one flat table: pieces of constant acceleration along a line or an
 * arc, and pieces of constant turn rate. Built once for a shot by the functions of travel.ts, across.ts and follow.ts;
 * nothing here allocates. Rink frame, SI.
 */

/** Head of the table. */
export const PATH_COUNT = 0
export const TURN_COUNT = 1
/** When the skates stand still for good, and when the turn is done. */
export const TRAVEL_END = 2
export const TURN_END = 3
/** Last time out of the set stance: its first movement, Infinity when there is none; -Infinity for a goalie who was moving from the start. */
export const UNSET_FROM = 4
/** When the goalie is set again. */
export const SET_AT = 5
/** When the body is on the line from the new place of the puck to the middle of the goal line. */
export const ON_ANGLE_AT = 6
/** Room for a state and for the curve under construction. */
export const WORK = 7
export const WORK_LENGTH = 9

/** Pieces of the path, each open until the next one starts. */
export const PATH = 16
export const PATH_MOST = 320
export const PATH_STRIDE = 8
/** Start, s. */
export const PIECE_AT = 0
/** Place at the start, m. */
export const PIECE_X = 1
export const PIECE_Y = 2
/** Unit vector of the direction at the start. */
export const PIECE_UX = 3
export const PIECE_UY = 4
/** 1 / radius of the arc, positive when it bends to the left of the direction; 0 for a line. */
export const PIECE_CURVATURE = 5
/** Speed at the start along the direction, m/s, and its rate, m/s². */
export const PIECE_SPEED = 6
export const PIECE_ACCELERATION = 7

/** Pieces of the turn. */
export const TURN = PATH + PATH_MOST * PATH_STRIDE
export const TURN_MOST = 224
export const TURN_STRIDE = 3
export const TURN_AT = 0
export const TURN_HEADING = 1
/** rad/s, positive toward the goalie's left. */
export const TURN_PACE = 2

/** Mode of every piece of the path, see mode.ts; and of the pieces that are added from now on. */
export const PIECE_MODES = TURN + TURN_MOST * TURN_STRIDE
export const MODE_NOW = PIECE_MODES + PATH_MOST
/** In place of a mode: the goalie stands, or goes so slowly as to stay set. */
export const NO_MODE = -1

/** Numbers in a timeline. */
export const TIMELINE_LENGTH = MODE_NOW + 1

/** Columns of a goalie's state at one instant. */
export const STATE_X = 0
export const STATE_Y = 1
export const STATE_VX = 2
export const STATE_VY = 3
/** Direction the goalie faces, from the x axis toward y, rad, and its rate, rad/s. */
export const STATE_HEADING = 4
export const STATE_TURN_RATE = 5
/** Time until the goalie is set again, s; 0 when set. */
export const STATE_UNSET_FOR = 6
export const STATE_LENGTH = 7

/**
 * Writes the state at time t. Before the first piece the state is that of its start. Along a piece, with s = v tau +
 * a tau² / 2, direction u, left normal n and curvature k:
 *
 *   line   p + s u                                        velocity (v + a tau) u
 *   arc    p + sin(ks)/k u + (1 - cos(ks))/k n            velocity (v + a tau) (cos(ks) u + sin(ks) n)
 */
export function stateAt(table: Float64Array, t: Seconds, out: Float64Array): void {
  writePlace(table, t, out, 0)
  writeHeading(table, t, out)
  const isSet = t <= table[UNSET_FROM]! || t >= table[SET_AT]!
  out[STATE_UNSET_FOR] = isSet ? 0 : table[SET_AT]! - t
}

/** Writes place and velocity at time t to `out[at .. at + 3]`. */
export function writePlace(table: Float64Array, t: Seconds, out: Float64Array, at: number): void {
  // the last piece that has begun
  let row = PATH + (table[PATH_COUNT]! - 1) * PATH_STRIDE
  while (row > PATH && table[row + PIECE_AT]! > t) row -= PATH_STRIDE
  const since = t - table[row + PIECE_AT]!
  const lapse = since > 0 ? since : 0

  const rate = table[row + PIECE_ACCELERATION]!
  const speed = table[row + PIECE_SPEED]! + rate * lapse
  const way = lapse * (table[row + PIECE_SPEED]! + 0.5 * rate * lapse)
  const ux = table[row + PIECE_UX]!
  const uy = table[row + PIECE_UY]!
  const curvature = table[row + PIECE_CURVATURE]!
  if (curvature === 0) {
    out[at + STATE_X] = table[row + PIECE_X]! + way * ux
    out[at + STATE_Y] = table[row + PIECE_Y]! + way * uy
    out[at + STATE_VX] = speed * ux
    out[at + STATE_VY] = speed * uy
    return
  }
  const sine = Math.sin(curvature * way)
  const half = Math.sin(0.5 * curvature * way)
  const cosine = 1 - 2 * half * half
  const along = sine / curvature
  const across = (2 * half * half) / curvature
  out[at + STATE_X] = table[row + PIECE_X]! + along * ux - across * uy
  out[at + STATE_Y] = table[row + PIECE_Y]! + along * uy + across * ux
  out[at + STATE_VX] = speed * (cosine * ux - sine * uy)
  out[at + STATE_VY] = speed * (cosine * uy + sine * ux)
}

/** Writes heading and turn rate at time t. */
function writeHeading(table: Float64Array, t: Seconds, out: Float64Array): void {
  let row = TURN + (table[TURN_COUNT]! - 1) * TURN_STRIDE
  while (row > TURN && table[row + TURN_AT]! > t) row -= TURN_STRIDE
  const since = t - table[row + TURN_AT]!
  out[STATE_HEADING] = table[row + TURN_HEADING]! + table[row + TURN_PACE]! * (since > 0 ? since : 0)
  out[STATE_TURN_RATE] = table[row + TURN_PACE]!
}

/**
 * How much faster or slower than in `state`, in any direction, a point `arm` away from the goalie may move between two
 * times, m/s: the largest change of velocity plus the turn at its fastest times the arm. 0 for an even motion without a
 * turn. `work` is a state under work.
 */
export function unevenness(
  table: Float64Array,
  from: Seconds,
  until: Seconds,
  state: Float64Array,
  arm: number,
  work: Float64Array,
): number {
  const vx = state[STATE_VX]!
  const vy = state[STATE_VY]!
  let change = 0
  let row = PATH + (table[PATH_COUNT]! - 1) * PATH_STRIDE
  // the velocity of a piece is furthest from any other at one of its ends, but on arcs, which are long beside this
  for (let end = until; ; row -= PATH_STRIDE) {
    const starts = table[row + PIECE_AT]!
    if (starts < end) {
      const begins = starts > from ? starts : from
      change = Math.max(change, changeAt(table, begins, vx, vy, work), changeAt(table, end - TICK, vx, vy, work))
      end = starts
    }
    if (starts <= from || row === PATH) break
  }
  let turn = 0
  let at = TURN + (table[TURN_COUNT]! - 1) * TURN_STRIDE
  for (; ; at -= TURN_STRIDE) {
    if (table[at + TURN_AT]! < until) turn = Math.max(turn, Math.abs(table[at + TURN_PACE]!))
    if (table[at + TURN_AT]! <= from || at === TURN) break
  }
  return change + turn * arm
}

/** Just before the end of a piece, s. */
const TICK: Seconds = 1e-9

function changeAt(table: Float64Array, t: Seconds, vx: number, vy: number, work: Float64Array): number {
  writePlace(table, t, work, 0)
  const dx = work[STATE_VX]! - vx
  const dy = work[STATE_VY]! - vy
  return Math.sqrt(dx * dx + dy * dy)
}
