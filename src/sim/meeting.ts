import { FRAME_LENGTH, FRAME_MOUTH, LEVEL_LENGTH } from "./meeting-columns.ts"
import { STATE_LENGTH } from "./motion/timeline.ts"
import { type PreparedPosture, rowsOf } from "./prepared.ts"

import { BOX_RECORD, DISC_HALF, DISC_RADIUS, PATH_ROW } from "./rounded-box.ts"
import type { Seconds } from "./units.ts"
import { MOUTH_HALF_WIDTH, PUCK_HALF_THICKNESS, PUCK_RADIUS } from "./world.ts"

export * from "./meeting-columns.ts"

/**
 * Where a puck's path runs relative to one goalie and each part of the body.
 *
 * The path is put into the goalie's frame, then, for each key phase of the drop, into the axes of the part as it is
 * at that phase. Near a part the path is straight; the part moves while the puck passes, so its own motion (fall and
 * turn, by central differences over the phases) is taken off the path's direction: the clearance is that of the
 * relative path. Phase is counted at the moment the puck is level with the part.
 *
 * Nothing is worked out before it is asked for, and nothing twice for one path and goalie: refusals, paths in a part's
 * axes, clearances at key phases and which of them cover are kept by part until the next goalie is met.
 */
export interface Meeting {
  /** How many goalies have been met: what is known of a part is of the last one. */
  count: number
  /** What is known of each part [count]: UNASKED, REFUSED, or how it was met. */
  readonly state: Uint8Array
  /** [count] columns of each part, see LEVEL_… */
  readonly levels: readonly Float64Array[]
  /** [count x phases] path in the part's axes at each key phase. */
  readonly local: readonly Float64Array[]
  /** [count x phases] 1 where `local` is filled. */
  readonly filled: Uint8Array
  /** [count x phases] clearance of the part on its way down, NaN where not measured. */
  readonly gaps: Float64Array
  /** [count x phases] whether the part covers the path at a key phase, for the first `known` [count] of them. */
  readonly covers: Uint8Array
  readonly known: Uint8Array
  /** [count] records of each part for solveRow. */
  readonly boxes: readonly Float64Array[]
  /** The part in hand: index, its first row in the tables above, and whether the path comes near what it fills itself. */
  part: number
  row: number
  own: boolean
  prepared: PreparedPosture | null
  /** Its columns and its record. */
  level: Float64Array
  box: Float64Array
  /** The path for a phase in between; the phase asked for and how fast it passes; a least clearance: scratch. */
  readonly between: Float64Array
  readonly asked: Float64Array
  readonly least: Float64Array
  /** Path in the goalie's frame, see FRAME_… */
  readonly frame: Float64Array
  /** Timeline of a goalie who turns, or gains or loses speed, while the puck passes; null of one whose motion is even. */
  way: Float64Array | null
  /** When the path begins in that timeline, s. */
  begins: Seconds
  /** State of that goalie under work: see STATE_… */
  readonly moment: Float64Array
}

/** Scratch for postures of up to `phases` key phases and `count` parts, with the puck's disc set from the world. */
export function meeting(phases: number, count: number, world: Float64Array): Meeting {
  const levels = rowsOf(count, LEVEL_LENGTH)
  const boxes = rowsOf(count, BOX_RECORD)
  for (const box of boxes) {
    box[DISC_RADIUS] = world[PUCK_RADIUS]!
    box[DISC_HALF] = world[PUCK_HALF_THICKNESS]!
  }
  const frame = new Float64Array(FRAME_LENGTH)
  frame[FRAME_MOUTH] = world[MOUTH_HALF_WIDTH]!
  return {
    count: 0,
    state: new Uint8Array(count),
    levels,
    local: rowsOf(count * phases, PATH_ROW),
    filled: new Uint8Array(count * phases),
    gaps: new Float64Array(count * phases),
    covers: new Uint8Array(count * phases),
    known: new Uint8Array(count),
    part: 0,
    row: 0,
    own: true,
    prepared: null,
    boxes,
    level: levels[0]!,
    box: boxes[0]!,
    between: rowsOf(1, PATH_ROW)[0]!,
    asked: new Float64Array(2),
    least: new Float64Array(1),
    frame,
    way: null,
    begins: 0,
    moment: new Float64Array(STATE_LENGTH),
  }
}
