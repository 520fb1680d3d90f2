import { ZONES } from "./box/openings.ts"
import { REGION_COUNT } from "./saves.ts"
import { checkSums, mergeSums } from "./statistics/exact-sum.ts"

/** Columns of a tally: sums of weights and probabilities over the shots of one pose and one spot. */
export const SHOTS_COUNTED = 0
/** On goal: would cross the line inside the iron if nobody were there, off the iron included. */
export const ON_GOAL_SUM = 1
export const SAVED = 2
/** Stopped by the body frozen as it stands at release: no drop, no limbs. */
export const STOOD = 3
/** The same two among shots that clear the iron, which the reach map can check. */
export const CLEAR_ON_GOAL = 4
export const CLEAR_SAVED = 5
export const MISSED = 6
export const IRON_OUT_SUM = 7
export const IRON_IN_SUM = 8
export const SHORT_SUM = 9
export const UNREACHABLE = 10
/** Shots for which the depth was cut because the puck was too near. */
export const DEPTH_CUT = 11
/** Shots answered by a block. */
export const BLOCKS = 12
/** Weight times depth really taken. */
export const DEPTH_SUM = 13
/** Shots on goal that leave the stick before the goalie is set; sums of the time since being set, and of the travel. */
export const NOT_SET = 14
export const MARGIN_SUM = 15
export const TRAVEL_SUM = 16
/** Plays that end before anyone shoots. */
export const NO_SHOT_SUM = 17
/** Stopped by someone else on the way. */
export const BLOCKED_SUM = 18
/** Among shots on goal: tipped on the way; share of the flight out of sight; time in sight before the body, s. */
export const TIPPED_SUM = 19
export const HIDDEN_SUM = 20
export const SEEN_SUM = 21
/** Saves that leave a loose puck; second shots, those on goal and those of them saved. */
export const LOOSE = 22
export const SECOND_SHOTS = 23
export const SECOND_ON_GOAL = 24
export const SECOND_SAVED = 25
/** On goal and saved by whole seconds since the first release: within one, two, three, later. */
export const SECOND_BINS = 4
export const SECOND_BY_DELAY = 26
/** Saves by region of the body. */
export const BY_REGION = SECOND_BY_DELAY + 2 * SECOND_BINS
/** Goals by zone of the mouth, in the order of ZONES. */
export const BY_ZONE = BY_REGION + REGION_COUNT
export const TALLY_STRIDE = BY_ZONE + ZONES.length

/** Fine map of goals over the mouth, per pose. */
export const MAP_COLUMNS = 24
export const MAP_ROWS = 16
export const MAP_CELLS = MAP_COLUMNS * MAP_ROWS

/** The sums of one replicate without its maps. */
export interface Sums {
  readonly poses: number
  readonly spots: number
  /** [poses x spots x TALLY_STRIDE] */
  readonly sums: Float64Array
}

/**
 * Exact sums of one replicate: merge is addition, in any order and any cut, bit for bit. Structured-clone safe.
 */
export interface Tally extends Sums {
  /** [poses x MAP_CELLS] goals by place of the mouth */
  readonly maps: Float64Array
}

export function emptyTally(poses: number, spots: number): Tally {
  return {
    poses,
    spots,
    sums: new Float64Array(poses * spots * TALLY_STRIDE),
    maps: new Float64Array(poses * MAP_CELLS),
  }
}

/** Adds `from` to `into`. Throws a RangeError where a sum would leave the range in which it is exact. */
export function mergeTally(into: Tally, from: Tally): void {
  mergeSums(into.sums, from.sums)
  mergeSums(into.maps, from.maps)
}

/** Throws a RangeError where a sum has left the range in which it is exact. */
export function checkTally({ sums, maps }: Tally): void {
  checkSums(sums)
  checkSums(maps)
}
