/**
 * A stratum is one way a shot can be: a patch of ice it leaves from, a patch of the mouth it is aimed at, aimed or
 * hurried. Where the goalie stands, and what a reading shooter makes of it, change only how often each stratum is
 * chosen: one set of shots serves every pose.
 */

/** Columns of one stratum; lengths in metres in the rink frame, angles in radians. */
export const STRATUM_STRIDE = 24
/** 0 triangle a b c (equal corners make a spot), 1 wedge about the centre of the goal line. */
export const ORIGIN_KIND = 0
export const TRIANGLE = 0
export const WEDGE = 1
/** Triangle: ax ay bx by cx cy. Wedge: least and greatest distance, from and to angle. */
export const ORIGIN = 1
/** Height of the puck's centre at release. */
export const RELEASE_HEIGHT = 7
/** 0 uniform over a rectangle of the goal plane (zero size makes a point), 1 normal about a point. */
export const AIM_KIND = 8
export const AIM_RECTANGLE = 0
export const AIM_NORMAL = 1
/** Rectangle: y least, y greatest, z least, z greatest. Normal: mean y, sd y, mean z, sd z. */
export const AIM = 9
/** Speed: normal, cut at ±3 sd, never below SPEED_LEAST, m/s. */
export const SPEED_MEAN = 13
export const SPEED_SD = 14
export const SPEED_LEAST = 15
/** Standard deviation of the aim error in azimuth and elevation. */
export const ERROR_AZIMUTH = 16
export const ERROR_ELEVATION = 17
/** Tangent of the steepest elevation that is aimed; a steeper target becomes the highest one under it; 0 along the ice. */
export const STEEPEST_AIM = 18
/** Index into the shooter model's list of shot types. */
export const SHOT_TYPE = 19
/** 1 hurried, 0 aimed. */
export const HURRIED = 20
/** How long before release this kind of shot can be read, s: comes off the goalie's reaction. */
export const EARLY_READ = 21
/** Index of the place it is taken from, for results by spot. */
export const SPOT = 22
/** Branch of the play (pass or shot); 0 in plays without branches. */
export const BRANCH = 23

export interface Strata {
  readonly count: number
  /** [count x STRATUM_STRIDE] */
  readonly table: Float64Array
  /** [count] mean share over the sweep, sums to 1: how many shots a stratum gets */
  readonly allotment: Float64Array
  /** [poses x count] share of each stratum for each pose, each row sums to 1 */
  readonly share: Float64Array
}
