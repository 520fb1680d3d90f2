import {
  BOX_STRIDE,
  HAND,
  HAND_PHASES,
  LOCAL_STRIDE,
  MET_LOCAL,
  MET_PARTS,
  MET_STRIDE,
  MOMENT,
  PART_BOXES,
  PART_BYTES,
  PART_LIMB,
  PART_ROWS,
  POSTURE_LIMBS,
  POSTURE_PARTS,
  RECORD,
  ROW_STRIDE,
} from "../sim/compiled/layout.ts"
import { LIMB_STRIDE } from "../sim/part-columns.ts"

/** Bytes of a number. */
export const NUMBER = 8

/** A number of the moment, see MOMENT_… */
// @ts-ignore: decorator
@inline
export function momentOf(column: i32): f64 {
  return load<f64>(MOMENT + column * NUMBER)
}

/** A number of the record in which the distance in space is sought. */
// @ts-ignore: decorator
@inline
export function recorded(column: i32): f64 {
  return load<f64>(RECORD + column * NUMBER)
}

/** Puts a number there. */
// @ts-ignore: decorator
@inline
export function keep(column: i32, value: f64): void {
  store<f64>(RECORD + column * NUMBER, value)
}

/** Key phases of the posture in hand. */
// @ts-ignore: decorator
@inline
export function phasesInHand(): i32 {
  return load<i32>(HAND + HAND_PHASES)
}

/** Where a part of a posture stands. */
// @ts-ignore: decorator
@inline
export function partOf(posture: usize, part: i32): usize {
  return posture + POSTURE_PARTS + part * PART_BYTES
}

/** Where what is known of a part stands. */
// @ts-ignore: decorator
@inline
export function metOf(part: i32): usize {
  return MET_PARTS + part * MET_STRIDE
}

/** Where a part at a key phase stands: axes and centre. */
// @ts-ignore: decorator
@inline
export function rowOf(part: usize, phase: i32): usize {
  return part + PART_ROWS + phase * ROW_STRIDE
}

// @ts-ignore: decorator
@inline
export function boxOf(part: usize, phase: i32): usize {
  return part + PART_BOXES + phase * BOX_STRIDE
}

/** Where the path in a part's axes stands. */
// @ts-ignore: decorator
@inline
export function localOf(met: usize, phase: i32): usize {
  return met + MET_LOCAL + phase * LOCAL_STRIDE
}

/** Where the numbers of the limb that carries a part stand; a part that no limb carries must not be asked. */
// @ts-ignore: decorator
@inline
export function limbRow(posture: usize, part: usize): usize {
  return posture + POSTURE_LIMBS + load<i32>(part, PART_LIMB) * (LIMB_STRIDE * NUMBER)
}
