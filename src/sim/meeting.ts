import { STATE_LENGTH } from "./motion/timeline.ts"
import { type PreparedPosture, rowsOf } from "./prepared.ts"

import { BOX_RECORD, DISC_HALF, DISC_RADIUS, PATH_ROW } from "./rounded-box.ts"
import type { Seconds } from "./units.ts"
import { MOUTH_HALF_WIDTH, PUCK_HALF_THICKNESS, PUCK_RADIUS } from "./world.ts"

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

/** Columns of `asked`. */
export const ASKED_PHASE = 0
export const ASKED_RATE = 1

/** States of a part. */
export const UNASKED = 0
export const REFUSED = 1
/** The path comes near the part itself, or only near what its limb can reach. */
export const MET = 2
export const MET_BY_REACH = 3

/** Release u v, direction u v, distance where the path ends for the goalie, 1 / direction u (0 across), phases per s. */
export const FRAME_U = 0
export const FRAME_V = 1
export const FRAME_DU = 2
export const FRAME_DV = 3
export const FRAME_END = 4
export const FRAME_INVERSE = 5
export const FRAME_RATE = 6
/** One over the squared length of the direction: 1 but for a goalie who moves. */
export const FRAME_NORM = 7
/** How far a turn, and speed gained or lost, may shift a part's path from the frame's. */
export const FRAME_SLACK = 8
/** Where the goalie is in the rink when the puck's middle is on the plane of the goal line: place, and the unit vector faced along. */
export const FRAME_X = 9
export const FRAME_Y = 10
export const FRAME_COS = 11
export const FRAME_SIN = 12
/** Distance where the puck's middle is on the plane of the goal line; half the mouth. */
export const FRAME_LINE = 13
export const FRAME_MOUTH = 14
export const FRAME_LENGTH = 15

/** The path at the moment it is level with the part in hand: time since release, pace, and place (u, v, z). */
export const LEVEL_TIME = 0
export const LEVEL_PACE = 1
export const LEVEL_U = 2
export const LEVEL_V = 3
export const LEVEL_Z = 4
export const LEVEL_SLOPE = 5
export const LEVEL_DISTANCE = 6
/** No clearance of the part is less than this while it drops, m; 0 where that is not known. */
export const LEVEL_LEAST_GAP = 7
/** Direction of the path as this part meets it: the frame's, but for a goalie whose motion is uneven. */
export const LEVEL_DU = 8
export const LEVEL_DV = 9
/** Distance up to which this part can stop the puck. */
export const LEVEL_END = 10
export const LEVEL_LENGTH = 11

/** A path and a straight line differ by less than this over the reach of a part, m: slack of the quick refusal. */
export const BOW = 0.06
/** No part is farther from the spot between the skates than this, m. */
export const FURTHEST_PART = 0.7
/** No place that a limb reaches is farther from there, m: bounds what a turn can shift. */
export const FURTHEST_REACH = 1.3
/** What a part's own motion may add to the boxes of neighbouring key phases, m. */
export const SWAY = 0.005
/** A path flatter than this to the goalie's shoulders is not refused: cosine of its angle to straight ahead. */
export const ACROSS = 0.2

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
