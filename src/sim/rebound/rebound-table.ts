import { GOALIE_DRAWS } from "../draws.ts"
import { REGIONS } from "../parts.ts"
import { invertNormal } from "../random/normal.ts"

/**
 * What happens to a puck that a save leaves loose, as one flat table: who is about, how quickly they come to it, and the
 * second shot. Empty where rebounds are not played. SI.
 */

/** How many attackers and defenders are near, at most MOST_PLAYERS together. */
export const ATTACKERS = 0
export const DEFENDERS = 1
/** They stand evenly in a wedge about the middle of the goal line: distances, and the angle to either side. */
export const NEAREST = 2
export const FURTHEST = 3
export const HALF_ANGLE = 4
/** From the save to a player's first stride, s: median and spread of its logarithm; m/s² and m/s; reach of the stick, m. */
export const READS = 5
export const READS_SPREAD = 6
export const STRIDE = 7
export const TOP_SPEED = 8
export const STICK = 9
/** From reaching the puck to the second shot, s: median and spread of its logarithm. */
export const SHOOTS = 10
export const SHOOTS_SPREAD = 11
/** Share of second shots that go for the wider opening beside the goalie. */
export const SEES = 12
/** Where the others are aimed: spread across, height, spread up, m. Height of the puck at the release, m. */
export const AIM_ACROSS = 13
export const AIM_HEIGHT = 14
export const AIM_UP = 15
export const RELEASE_HEIGHT = 16
/** How long before the release a second shot can be read, s, and the tangent of the steepest aim. */
export const EARLY_READ = 17
export const STEEPEST = 18
/** A puck that nobody has reached this long after the save, or farther out than this, is no rebound any more. */
export const LASTS = 19
export const OUT_OF_REACH = 20
/** Shots by distance of the second spot: rows of speed mean, sd, least, error in azimuth and in elevation. */
export const BY_DISTANCE = 21
export const DISTANCE_STRIDE = 5
export const DISTANCE_STEP = 0.5
export const DISTANCE_ROWS = 24
export const REBOUND_LENGTH = BY_DISTANCE + DISTANCE_ROWS * DISTANCE_STRIDE

/** What a goalie does with a puck, by pose: the share held by each region of the body, then … */
export const HOLDS = 0
/** Friction of the gear; how far off the surface is from how it is modelled, sd, rad. */
export const FRICTION = HOLDS + REGIONS.length
export const SCATTER = FRICTION + 1
/** A loose puck within this of the spot between the skates is covered this long after the save (median, spread). */
export const COVERS_WITHIN = FRICTION + 2
export const COVERS_AFTER = FRICTION + 3
export const COVERS_SPREAD = FRICTION + 4
/** From the save until a goalie who is down stands set again, s. */
export const RECOVERS = FRICTION + 5
export const CONTROL_LENGTH = FRICTION + 6

export const MOST_PLAYERS = 8

/** Draws of one shot in the REBOUND stream. */
export const DRAW_SAVE = 0
export const DRAW_HELD = 1
/** Normals: the surface's tilt, the time to cover. */
export const DRAW_TILT_1 = 2
export const DRAW_TILT_2 = 3
export const DRAW_COVERS = 4
/** Three a player: distance and angle, uniform, and the normal of the reading. */
export const DRAW_PLAYER = 5
export const DRAWS_OF_PLAYER = 3
export const DRAW_SHOOTS = DRAW_PLAYER + MOST_PLAYERS * DRAWS_OF_PLAYER
/** Uniforms. */
export const DRAW_SEES = DRAW_SHOOTS + 1
export const DRAW_AIM_1 = DRAW_SHOOTS + 2
export const DRAW_AIM_2 = DRAW_SHOOTS + 3
export const DRAW_SPEED = DRAW_SHOOTS + 4
export const DRAW_AZIMUTH = DRAW_SHOOTS + 5
export const DRAW_ELEVATION = DRAW_SHOOTS + 6
/** The goalie's draws of the second shot, in the order of the first. */
export const DRAW_GOALIE = DRAW_SHOOTS + 7
export const REBOUND_DRAWS = DRAW_GOALIE + GOALIE_DRAWS

/** Columns of a batch's `again`: how long before the release it can be read; 1 for a goalie who is still down. */
export const AGAIN_READ = 0
export const AGAIN_DOWN = 1
export const AGAIN_LENGTH = 2

/** Makes normals of the REBOUND draws that are read as such, from `at` on. */
export function shapeReboundDraws(draws: Float64Array, at: number): void {
  draws[at + DRAW_TILT_1] = invertNormal(draws[at + DRAW_TILT_1]!)
  draws[at + DRAW_TILT_2] = invertNormal(draws[at + DRAW_TILT_2]!)
  draws[at + DRAW_COVERS] = invertNormal(draws[at + DRAW_COVERS]!)
  draws[at + DRAW_SHOOTS] = invertNormal(draws[at + DRAW_SHOOTS]!)
  for (let j = 0; j < MOST_PLAYERS; j++) {
    const reads = at + DRAW_PLAYER + j * DRAWS_OF_PLAYER + 2
    draws[reads] = invertNormal(draws[reads]!)
  }
}
