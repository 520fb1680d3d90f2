import type { Probability, Seconds } from "../units.ts"
import { OPENS, OPENS_IN } from "./across.ts"
import { BUTTERFLY_SLIDE, MODE_STRIDE, MODES, SET } from "./mode.ts"
import * as timeline from "./timeline.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { NO_MODE, PATH, PATH_COUNT, PATH_STRIDE, PIECE_ACCELERATION, PIECE_AT, PIECE_MODES, PIECE_SPEED } = timeline
const { SET_AT, TRAVEL_END, UNSET_FROM } = timeline

/**
 * How far a movement has taken a goalie out of the set stance: a share of what that mode opens at its fullest. From the
 * first movement it grows evenly over a time of its own, and over the mode's time to be set it falls back to none:
 *
 *   share = min(1, (t - first movement) / opening time, (set - t) / time to be set)
 *
 * A butterfly slide is played on the knees: the drop begins with its push, and the goalie stays down until up again.
 */

/** Ways of being out of the set stance: the rows of {@link MODES}, then turning on the spot. */
export const TURNING = MODES.length
export const OPENINGS = MODES.length + 1
/** A body is taken at the nearest of so many equal steps between set and fully open. */
export const OPENING_LEVELS = 8

/** Columns of an opening. */
export const OPEN_MODE = 0
/** Steps of {@link OPENING_LEVELS}; 0 is the set stance. */
export const OPEN_LEVEL = 1
/** For how long a goalie who slides has been going down, s; negative on the feet. */
export const DOWN_FOR = 2
export const OPENING_LENGTH = 3

/**
 * Writes how the goalie of a timeline is opened at time t; `recovers` is how long after a slide the goalie is up again.
 * Allocates nothing.
 */
export function openingAt(
  table: Float64Array,
  movement: Float64Array,
  recovers: Seconds,
  t: Seconds,
  out: Float64Array,
): void {
  stayClosed(out)
  if (movement[OPENS] === 0) return
  const piece = pieceAt(table, t)
  const mode = table[PIECE_MODES + piece]!
  if (mode === BUTTERFLY_SLIDE) out[DOWN_FOR] = downFor(table, piece, recovers, t)
  const from = table[UNSET_FROM]!
  const set = table[SET_AT]!
  if (t > from && t < set) {
    const opensIn = movement[OPENS_IN]!
    // the travel holds the stance open until its own time to be set has passed; what is left is a turn
    const closesIn = mode === NO_MODE ? opensIn : movement[mode * MODE_STRIDE + SET]!
    const closed = mode === NO_MODE ? Number.NEGATIVE_INFINITY : table[TRAVEL_END]! + closesIn
    const travels = t < closed
    if (travels) out[OPEN_MODE] = mode
    const until = travels && closed < set ? closed : set
    const share = shareOpened(t - from, until - t, opensIn, travels ? closesIn : opensIn)
    out[OPEN_LEVEL] = Math.round(share * OPENING_LEVELS)
  }
  if (out[DOWN_FOR]! >= 0) out[OPEN_MODE] = BUTTERFLY_SLIDE
}

/** The set stance. */
export function stayClosed(out: Float64Array): void {
  out[OPEN_MODE] = TURNING
  out[OPEN_LEVEL] = 0
  out[DOWN_FOR] = -1
}

/** Share of the full opening, `since` after the first movement and `left` before being set. */
function shareOpened(since: Seconds, left: Seconds, opensIn: Seconds, closesIn: Seconds): Probability {
  const opened = since < opensIn ? since / opensIn : 1
  const closing = left < closesIn ? left / closesIn : 1
  return opened < closing ? opened : closing
}

/** Index of the last piece of the path that has begun at time t. */
export function pieceAt(table: Float64Array, t: Seconds): number {
  let piece = table[PATH_COUNT]! - 1
  while (piece > 0 && table[PATH + piece * PATH_STRIDE + PIECE_AT]! > t) piece--
  return piece
}

/** How long ago the drop of the slide in hand began; -1 where the goalie has risen from it. */
function downFor(table: Float64Array, piece: number, recovers: Seconds, t: Seconds): Seconds {
  let begins = Number.POSITIVE_INFINITY
  let next = t
  for (let k = piece; k >= 0 && table[PIECE_MODES + k] === BUTTERFLY_SLIDE; k--) {
    const row = PATH + k * PATH_STRIDE
    const at = table[row + PIECE_AT]!
    const rests = table[row + PIECE_SPEED] === 0 && table[row + PIECE_ACCELERATION] === 0
    if (rests && next - at >= recovers) break
    begins = at
    next = at
  }
  return begins <= t ? t - begins : -1
}
