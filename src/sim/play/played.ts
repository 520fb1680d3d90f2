import { OPENING_LENGTH } from "../motion/opening.ts"
import { STATE_LENGTH, TIMELINE_LENGTH } from "../motion/timeline.ts"
import { STATION_LENGTH } from "../station.ts"
import type { Metres, Seconds } from "../units.ts"

/** One goalie's movement through the time before one shot: scratch, and the result of planMoves(). */
export interface Moves {
  readonly timeline: Float64Array
  /** State at the release, time 0. */
  readonly state: Float64Array
  /** How the movement has opened the stance at the release. [OPENING_LENGTH] */
  readonly opening: Float64Array
  /** State under work, for whoever steps through the flight. */
  readonly from: Float64Array
  /** Station for the puck's place at the start of the play. */
  readonly before: Float64Array
  /** Stations under work. */
  readonly target: Float64Array
  readonly threat: Float64Array
  /** The carry under work. [CARRY_LENGTH] */
  readonly carry: Float64Array
  /** From the start of the play to the release. */
  lasts: Seconds
  /** When the last pass or cut has been read, s from the release; -Infinity where none had to be. */
  readAt: Seconds
  /** Whether the timeline holds: the goalie may be on the way when the puck leaves the stick. False in a straight shot. */
  travels: boolean
}

/** Columns of a carry: the puck's way, when it goes and is there, how fast this goalie moves, 1 when the puck stops there. */
export const FROM_X = 0
export const FROM_Y = 1
export const TO_X = 2
export const TO_Y = 3
export const STARTS = 4
export const ENDS = 5
export const VIGOUR = 6
export const STOPS = 7
export const CARRY_LENGTH = 8

export function moves(): Moves {
  return {
    timeline: new Float64Array(TIMELINE_LENGTH),
    state: new Float64Array(STATE_LENGTH),
    opening: new Float64Array(OPENING_LENGTH),
    from: new Float64Array(STATE_LENGTH),
    before: new Float64Array(STATION_LENGTH),
    target: new Float64Array(STATION_LENGTH),
    threat: new Float64Array(STATION_LENGTH),
    carry: new Float64Array(CARRY_LENGTH),
    lasts: 0,
    readAt: Number.NEGATIVE_INFINITY,
    travels: false,
  }
}

/** What a plan is made for, beside the pose: the play and one shot of it. Filled anew for each shot. */
export interface Played {
  readonly play: Float64Array
  readonly mouthHalfWidth: Metres
  /** Row of the branch, see branchRow(). */
  branch: number
  /** Where the shot is taken. */
  x: Metres
  y: Metres
  /** The shot's clock from `clockAt` on (see timing.ts), and the goalie's draws from `drawsAt` on. */
  clock: Float64Array
  clockAt: number
  draws: Float64Array
  drawsAt: number
}
