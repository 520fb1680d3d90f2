/**
 * How a goalie plays the time before the shot: depth first taken and when it is left, how far the goalie cheats toward
 * a threat, how the puck is followed, how wrong the line is on the way. One table for a pose; how fast the goalie moves
 * is in its movement numbers.
 */

/** Depth at the start of the play, m. */
export const PLAN_START_DEPTH = 0
/**
 * The puck's distance from the middle of the goal line at which the goalie leaves the start depth for the depth of the
 * pose, m; Infinity leaves at once. A start depth that equals the pose's depth has nothing to leave.
 */
export const PLAN_LEAVES_AT = 1
/** Share of the way from being on line with the puck to being on line with the threat: 0 holds, 1 has left. */
export const PLAN_CHEAT = 2
/** Where the threat is: who a pass would reach. */
export const PLAN_THREAT_X = 3
export const PLAN_THREAT_Y = 4
/** How far behind the puck a goalie who follows it is, s. */
export const PLAN_LAG = 5
/** Whoever follows no faster than this, m/s, stays set. */
export const PLAN_SET_SPEED = 6
/**
 * The puck's distance at which a goalie who changes depth with the puck has the depth of the pose, m: between there and
 * PLAN_LEAVES_AT the depth goes evenly with the puck's distance. 0 takes the depth at once, in one push.
 */
export const PLAN_IN_PLACE_AT = 7
/**
 * 1 where what tells the angle is wrong by another amount at the start depth than at the pose's depth. Then the pose's own
 * errors without it (angle bias and spread, rad, spread off the line, m), and what it adds at the start and at the
 * pose's depth, each as a way to the side, m: of its angle bias, of its angle spread, of its spread off the line. Between
 * the two depths these go evenly with the depth.
 */
export const PLAN_CUE_VARIES = 8
export const PLAN_OWN_BIAS = 9
export const PLAN_OWN_ANGLE = 10
export const PLAN_OWN_OFF_LINE = 11
export const PLAN_CUE_AT_START = 12
export const PLAN_CUE_AT_DEPTH = 15
export const PLAN_LENGTH = 18

/** Columns of what a cue adds at one depth. */
export const CUE_BIAS = 0
export const CUE_ANGLE = 1
export const CUE_OFF_LINE = 2
