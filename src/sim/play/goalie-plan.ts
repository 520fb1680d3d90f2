/**
 * How a goalie plays the time before the shot: depth first taken and when it is left, how far the goalie cheats toward
 * a threat, how the puck is followed. One table for a pose; how fast the goalie moves is in its movement numbers.
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
export const PLAN_LENGTH = 7
