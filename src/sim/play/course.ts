import type { Metres } from "../units.ts"

/**
 * What the puck does before the shot, as one flat table: branches (the play may end in a shot or in a pass and a shot),
 * each a start and a few legs. A stratum's BRANCH says which one a shot belongs to; the last leg ends where that shot is
 * taken. Rink frame, SI.
 */

/** 0 when every branch is a shot at once at a goalie in place, 1 when something goes before it. */
export const PLAY_MOVES = 0
export const BRANCH_COUNT = 1
/** First branch. */
export const BRANCHES = 2

/** Columns of a branch. */
export const LEG_COUNT = 0
/** The puck when the play starts. */
export const START_X = 1
export const START_Y = 2
/** How often the branch ends without a shot: the pass is missed or cut off. */
export const LOST = 3
/** First leg. */
export const LEGS = 8
export const MOST_LEGS = 6

/** Columns of a leg. */
export const LEG_STRIDE = 8
export const LEG_KIND = 0
/** Passed: the goalie has to read it, then goes. */
export const LEG_PASS = 0
/** Carried where the goalie sees it go: the goalie keeps level with it. */
export const LEG_CARRY = 1
/** Carried aside of a sudden, as in a deke: the goalie has to read it, as a pass. */
export const LEG_CUT = 2
/** Where the leg ends; not read on the last leg, which ends where the shot is taken. */
export const LEG_X = 1
export const LEG_Y = 2
/** Speed at the start of a pass or all along a carry: mean and standard deviation over the shots, m/s. */
export const LEG_SPEED = 3
export const LEG_SPEED_SD = 4
/** How far a pass flies before it lands, m; 0 slides all the way. */
export const LEG_FLIES = 5
/** From the end of this leg to the start of the next or to the release, s: median and spread of its logarithm. */
export const LEG_WAIT = 6
export const LEG_WAIT_SPREAD = 7

export const BRANCH_STRIDE = LEGS + MOST_LEGS * LEG_STRIDE

/** Draws of one shot in the PLAY stream. The first belongs to the batch; then two normals a leg; the rest uniform. */
export const PLAY_DRAWS = 16
/** Normal of the speed of leg k at DRAW_LEG + 2 k, of its wait at the next. */
export const DRAW_LEG = 1
/** Uniform: whether the branch ends without a shot. */
export const DRAW_LOST = DRAW_LEG + 2 * MOST_LEGS

/** One leg, as people say it. Metres, m/s, seconds. */
export interface Leg {
  readonly kind: "pass" | "carry" | "cut"
  readonly x: Metres
  readonly y: Metres
  readonly speed: number
  readonly speedSpread: number
  readonly flies: Metres
  readonly wait: number
  readonly waitSpread: number
}

/** One branch: where the puck starts, its legs, and how often no shot comes of it. */
export interface Course {
  readonly x: Metres
  readonly y: Metres
  readonly legs: readonly Leg[]
  readonly lost: number
}

const KINDS = { pass: LEG_PASS, carry: LEG_CARRY, cut: LEG_CUT } as const

/**
 * The table of some branches. `moves` is false where the goalie is in place and nothing goes before the shot.
 * @throws RangeError for a branch of too many legs
 */
export function playTable(courses: readonly Course[], moves: boolean): Float64Array {
  const table = new Float64Array(BRANCHES + courses.length * BRANCH_STRIDE)
  table[PLAY_MOVES] = moves ? 1 : 0
  table[BRANCH_COUNT] = courses.length
  for (const [index, { x, y, legs, lost }] of courses.entries()) {
    if (legs.length > MOST_LEGS)
      throw new RangeError(
        `Cannot play a branch as the number of its legs must be <= ${MOST_LEGS}: current value is ${legs.length}`,
      )
    const branch = branchRow(index)
    table.set([legs.length, x, y, lost], branch)
    for (const [k, leg] of legs.entries())
      table.set(
        [KINDS[leg.kind], leg.x, leg.y, leg.speed, leg.speedSpread, leg.flies, leg.wait, leg.waitSpread],
        branch + LEGS + k * LEG_STRIDE,
      )
  }
  return table
}

/** Where a branch begins in the table. */
export function branchRow(branch: number): number {
  return BRANCHES + branch * BRANCH_STRIDE
}
