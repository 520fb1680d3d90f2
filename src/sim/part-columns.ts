/** Columns of the tables of a posture, see parts.ts: constants alone, so that both kernels read them. */

/** Columns of one part at one phase, in metres (axes are unit vectors without unit). */
export const PART_STRIDE = 16
export const CENTRE = 0 // cu, cv, cz
export const AXIS_0 = 3 // unit vector
export const AXIS_1 = 6 // unit vector
export const AXIS_2 = 9 // unit vector, a0 x a1
export const HALF_SIZE = 12 // h0, h1, h2 along a0, a1, a2
export const ROUNDING = 15

/** A part that no limb carries. */
export const NO_LIMB = 255

/** Columns of one limb. */
export const LIMB_STRIDE = 12
/** Catch radius, m: the hand is aimed to put its middle on the path and stops a puck within this distance of it. */
export const CATCH_RADIUS = 0
/** Furthest the carried part can travel from where the stance holds it, m. */
export const LONGEST_REACH = 1
/** Peak speed and peak acceleration of the minimum-jerk reach, m/s and m/s². */
export const PEAK_SPEED = 2
export const PEAK_ACCELERATION = 3
/** Time from the start of the hands' clock to the start of this limb's movement, s (may be negative: starts earlier). */
export const LAG = 4
/** Placement error: sd = sqrt(steady² + (perSpeed · distance / time)²), m and s. */
export const ERROR_STEADY = 5
export const ERROR_PER_SPEED = 6
/** The limb reaches only points whose v (m, goalie frame) lies between these two: hands do not pass through the trunk. */
export const LEAST_V = 7
export const GREATEST_V = 8
/** Longest distance from the limb's root (the shoulder, for a hand) to the point reached, m; Infinity where none applies. */
export const ROOT_LENGTH = 9
/** Multiplier of speed and acceleration when the goalie is moving or not set (1 when it does not matter). */
export const UNSET_FACTOR = 10
