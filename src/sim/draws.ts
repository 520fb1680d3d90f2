/** Draws of one shot, fixed in number and meaning whatever the shot turns out to be. */
export const SHOOTER_DRAWS = 8
export const DRAW_ORIGIN_1 = 0
export const DRAW_ORIGIN_2 = 1
export const DRAW_AIM_1 = 2
export const DRAW_AIM_2 = 3
export const DRAW_SPEED = 4
export const DRAW_AZIMUTH = 5
export const DRAW_ELEVATION = 6

/** The goalie's draws of one shot: four standard normals, three uniforms, one error length a limb, one uniform. */
export const GOALIE_DRAWS = 16
export const DRAW_DEPTH = 0
export const DRAW_OFF_LINE = 1
export const DRAW_ANGLE = 2
export const DRAW_TURN = 3
export const DRAW_LEAK = 4
export const DRAW_BLOCK = 5
export const DRAW_BLOCK_LEAD = 6
/** First of one Rayleigh length a limb (sd 1): how far off, in standard deviations, the limb is placed. */
export const DRAW_LIMB = 7
/** Uniform of the reaction time; the conditional estimator does not read it. */
export const DRAW_REACTION = 13
/** Normals of the reading of a pass and of the vigour of the push across. */
export const DRAW_READING = 14
export const DRAW_VIGOUR = 15
