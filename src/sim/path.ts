import type { Metres, Seconds } from "./units.ts"

/**
 * The path of one puck, stored flat: a straight line in plan, and for each piece of it height and time as cubics of
 * the horizontal distance D from the release. Piece j holds from its own start to the start of piece j + 1, the last one
 * to PATH_END. Height is that of the puck's centre; time counts from the release.
 */

// not exported, so that the compiler folds them where pieces are looked up
const COUNT = 4
const FIRST = 6
const STRIDE = 9

/** Place of the release in plan, m. */
export const PATH_X = 0
export const PATH_Y = 1
/** Unit direction of flight in plan. */
export const PATH_DX = 2
export const PATH_DY = 3
/** Number of pieces, 1 to MOST_PIECES. */
export const PATH_COUNT = COUNT
/** Distance where the path ends: the puck has stopped, or it is the distance asked for, m. */
export const PATH_END = 5
/** Where the pieces start. */
export const PATH_PIECES = FIRST

/** Columns of a piece: its start D, then z = z0 + q (z1 + q (z2 + q z3)) and t likewise, q = D - start. */
export const PIECE_STRIDE = STRIDE
export const PIECE_START = 0
export const PIECE_Z = 1
export const PIECE_T = 5
export const MOST_PIECES = 8

/** Numbers in one path; one spare row behind the last piece holds the state at its end while a path is being made. */
export const PATH_STRIDE = PATH_PIECES + PIECE_STRIDE * (MOST_PIECES + 1)

/** Where in `path` the piece that holds distance D starts. Before the release it is the first, past the end the last. */
export function pieceAt(path: Float64Array, offset: number, D: Metres): number {
  const first = offset + FIRST
  let piece = first + STRIDE * ((path[offset + COUNT]! | 0) - 1)
  while (piece > first && path[piece]! > D) piece -= STRIDE
  return piece
}

/** Height of the puck's centre at horizontal distance D from the release. */
export function heightAt(path: Float64Array, offset: number, D: Metres): Metres {
  const i = pieceAt(path, offset, D)
  const q = D - path[i]!
  return path[i + 1]! + q * (path[i + 2]! + q * (path[i + 3]! + q * path[i + 4]!))
}

/** Slope of the path, metres up per metre of horizontal distance. */
export function slopeAt(path: Float64Array, offset: number, D: Metres): number {
  const i = pieceAt(path, offset, D)
  const q = D - path[i]!
  return path[i + 2]! + q * (2 * path[i + 3]! + q * 3 * path[i + 4]!)
}

/** Time since the release. */
export function timeAt(path: Float64Array, offset: number, D: Metres): Seconds {
  const i = pieceAt(path, offset, D)
  const q = D - path[i]!
  return path[i + 5]! + q * (path[i + 6]! + q * (path[i + 7]! + q * path[i + 8]!))
}

/** Pace of the puck, seconds for each metre of horizontal distance: one over its horizontal speed. */
export function paceAt(path: Float64Array, offset: number, D: Metres): number {
  const i = pieceAt(path, offset, D)
  const q = D - path[i]!
  return path[i + 6]! + q * (2 * path[i + 7]! + q * 3 * path[i + 8]!)
}

/** Steps of Newton from a distance near the one that is sought. */
const STEPS = 4

/** Horizontal distance flown by `time`, sought from `near`: Newton on {@link timeAt}. */
export function distanceBy(path: Float64Array, offset: number, time: Seconds, near: Metres): Metres {
  let D = near
  for (let i = 0; i < STEPS; i++) D -= (timeAt(path, offset, D) - time) / paceAt(path, offset, D)
  return D
}
