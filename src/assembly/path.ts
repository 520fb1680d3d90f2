import { PATH } from "../sim/compiled/layout.ts"
import { NUMBER } from "./tables.ts"

/** Columns of a path and of its pieces, the same as in sim/path.ts. */
export const PATH_X = 0
export const PATH_Y = 1
export const PATH_DX = 2
export const PATH_DY = 3
const PATH_COUNT = 4
const FIRST: usize = PATH + 6 * NUMBER
const PIECE_BYTES: usize = 9 * NUMBER

/** A number of the path's head. */
// @ts-ignore: decorator
@inline
export function headOf(column: i32): f64 {
  return load<f64>(PATH + column * NUMBER)
}

/** Where the piece that holds a distance stands. */
export function pieceAt(distance: f64): usize {
  let piece: usize = FIRST + PIECE_BYTES * <usize>(<i32>load<f64>(PATH + PATH_COUNT * NUMBER) - 1)
  while (piece > FIRST && load<f64>(piece) > distance) piece -= PIECE_BYTES
  return piece
}

/** Height of the puck's centre on a piece, q metres after its start. */
// @ts-ignore: decorator
@inline
export function heightOn(piece: usize, q: f64): f64 {
  return (
    load<f64>(piece, 1 * NUMBER) +
    q * (load<f64>(piece, 2 * NUMBER) + q * (load<f64>(piece, 3 * NUMBER) + q * load<f64>(piece, 4 * NUMBER)))
  )
}

// @ts-ignore: decorator
@inline
export function slopeOn(piece: usize, q: f64): f64 {
  return (
    load<f64>(piece, 2 * NUMBER) + q * (2 * load<f64>(piece, 3 * NUMBER) + q * 3 * load<f64>(piece, 4 * NUMBER))
  )
}

// @ts-ignore: decorator
@inline
export function timeOn(piece: usize, q: f64): f64 {
  return (
    load<f64>(piece, 5 * NUMBER) +
    q * (load<f64>(piece, 6 * NUMBER) + q * (load<f64>(piece, 7 * NUMBER) + q * load<f64>(piece, 8 * NUMBER)))
  )
}

// @ts-ignore: decorator
@inline
export function paceOn(piece: usize, q: f64): f64 {
  return (
    load<f64>(piece, 6 * NUMBER) + q * (2 * load<f64>(piece, 7 * NUMBER) + q * 3 * load<f64>(piece, 8 * NUMBER))
  )
}

export function heightAt(distance: f64): f64 {
  const piece = pieceAt(distance)
  return heightOn(piece, distance - load<f64>(piece))
}
