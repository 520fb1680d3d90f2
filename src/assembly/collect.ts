import {
  COVER,
  FRAME,
  HAND,
  HAND_PHASES,
  MOMENT_DROP_TIME,
  MOMENT_STANDS,
  POSTURE_COUNT,
  POSTURE_ORDER,
  POSTURE_PHASES,
  SAVES,
} from "../sim/compiled/layout.ts"
import { FRAME_RATE, REFUSED } from "../sim/meeting-columns.ts"
import { meetPart } from "./meet.ts"
import { coverOfBlock, savesOfPart, standsOfPart } from "./react.ts"
import { clearStretches, isCertain } from "./stretches.ts"
import { metOf, momentOf, NUMBER, partOf } from "./tables.ts"

/** What the compiled kernel does of sim/answer.ts: moment, frame and path of the shot are in its memory. */

/** Whether nothing is left to be found: a part saves for certain, and the standing body stops the puck. */
// @ts-ignore: decorator
@inline
function isSettled(stretches: usize): bool {
  return isCertain(stretches) && momentOf(MOMENT_STANDS) != 0
}

/** Takes the posture in hand. */
function takeUp(posture: usize): void {
  const phases = load<i32>(posture, POSTURE_PHASES)
  store<i32>(HAND + HAND_PHASES, phases)
  store<f64>(FRAME + FRAME_RATE * NUMBER, <f64>(phases - 1) / momentOf(MOMENT_DROP_TIME))
}

/** Collects the saving reactions in SAVES. */
export function collectSaves(posture: usize): void {
  clearStretches(SAVES)
  takeUp(posture)
  const count = load<i32>(posture, POSTURE_COUNT)
  for (let i = 0; i < count; i++) {
    // behind a part that stops the puck for certain only the standing body is still of interest
    if (isSettled(SAVES)) return
    const index = <i32>load<u8>(posture + i, POSTURE_ORDER)
    const part = partOf(posture, index)
    const met = metOf(index)
    if (meetPart(part, met) == REFUSED) continue
    if (isCertain(SAVES)) standsOfPart(part, met)
    else savesOfPart(posture, part, met, SAVES)
  }
}

/** Collects, for a block, the moments of its start in which some part covers the path, in COVER. */
export function collectCover(posture: usize): void {
  clearStretches(COVER)
  takeUp(posture)
  const count = load<i32>(posture, POSTURE_COUNT)
  for (let i = 0; i < count; i++) {
    if (isSettled(COVER)) return
    const index = <i32>load<u8>(posture + i, POSTURE_ORDER)
    const part = partOf(posture, index)
    const met = metOf(index)
    if (meetPart(part, met) == REFUSED) continue
    standsOfPart(part, met)
    if (!isCertain(COVER)) coverOfBlock(part, met, COVER)
  }
}
