import * as fates from "./fate.ts"
import { reflectOffIron } from "./iron-contact.ts"
import * as pathColumns from "./path.ts"
import { heightAt, slopeAt, timeAt } from "./path.ts"
import type { Metres } from "./units.ts"
import * as worldColumns from "./world.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { PATH_COUNT, PATH_DX, PATH_DY, PATH_END, PATH_PIECES, PATH_X, PATH_Y, PIECE_STRIDE, PIECE_T } = pathColumns
const { BAR_RADIUS, MOUTH_HALF_WIDTH, MOUTH_HEIGHT, POST_RADIUS, PUCK_HALF_THICKNESS, PUCK_RADIUS } = worldColumns
const { MISS, ON_GOAL, SHORT } = fates

/** What {@link crossMouth} writes: where and when the puck's centre crosses the plane of the goal line. */
export const MOUTH_Y = 0
export const MOUTH_Z = 1
export const MOUTH_T = 2
export const MOUTH_STRIDE = 3

/** A path that ends this little before the plane was asked for up to the plane. */
const ROUNDING = 1e-9

/**
 * The fate of a shot with no goalie in its way: one of MISS, ON_GOAL, IRON_OUT, IRON_IN, SHORT (fate.ts). Writes the
 * crossing of the goal line's plane to `out` at `at`: for IRON_IN where it crosses after the iron, for every other fate
 * where its undisturbed path does; NaN where it never does: SHORT, or a MISS that leads away from the goal line or was
 * not followed as far as that.
 *
 * Posts stand with their axes on the goal line, the bar lies across them. The puck is a level disc. It touches a
 * cylinder when the distance of its path, taken as the tangent at the goal line, from the axis is less than the iron's
 * radius plus the disc's extent toward the axis: R for the posts; R |nx| + H |nz| for the bar, n square to path and bar.
 */
export function crossMouth(world: Float64Array, path: Float64Array, offset: number, out: Float64Array, at = 0): number {
  const dx = path[offset + PATH_DX]!
  const x = path[offset + PATH_X]!
  const D = -x / dx
  if (!(dx < 0) || x < 0 || path[offset + PATH_END]! < D - ROUNDING) {
    out[at + MOUTH_Y] = Number.NaN
    out[at + MOUTH_Z] = Number.NaN
    out[at + MOUTH_T] = Number.NaN
    return dx < 0 && hasStopped(path, offset) ? SHORT : MISS
  }

  const y = path[offset + PATH_Y]! + D * path[offset + PATH_DY]!
  const z = heightAt(path, offset, D)
  out[at + MOUTH_Y] = y
  out[at + MOUTH_Z] = z
  out[at + MOUTH_T] = timeAt(path, offset, D)

  // clear of each iron on the inner side, or clear of one on the outer side
  const axis = world[MOUTH_HALF_WIDTH]! + world[POST_RADIUS]!
  const touch = world[PUCK_RADIUS]! + world[POST_RADIUS]!
  const besidePost = -(axis - Math.abs(y)) * dx
  if (besidePost <= -touch) return MISS
  const slope = -slopeAt(path, offset, D) / dx
  const steep = Math.sqrt(1 + slope * slope)
  const toBar = (world[MOUTH_HEIGHT]! + world[BAR_RADIUS]! - z) / steep
  const reach = barReach(world, slope)
  if (toBar <= -reach) return MISS
  if (besidePost >= touch && toBar >= reach) return ON_GOAL
  return reflectOffIron(world, path, offset, D, out, at)
}

/** Distance between the bar's axis and a path of this slope dz/dx within which the puck touches the bar. */
function barReach(world: Float64Array, slope: number): Metres {
  const disc = world[PUCK_RADIUS]! * Math.abs(slope) + world[PUCK_HALF_THICKNESS]!
  return world[BAR_RADIUS]! + disc / Math.sqrt(1 + slope * slope)
}

/**
 * Greatest height of the puck's centre on the plane of the goal line that clears the bar, for a path of slope dz/dx;
 * the path's slope over horizontal distance divided by the cosine of its angle to the x axis.
 */
export function highestClear(world: Float64Array, slope: number): Metres {
  return world[MOUTH_HEIGHT]! + world[BAR_RADIUS]! - barReach(world, slope) * Math.sqrt(1 + slope * slope)
}

/** Whether the puck came to rest at the end of its path: the state behind the last piece has an infinite pace. */
function hasStopped(path: Float64Array, offset: number): boolean {
  const end = offset + PATH_PIECES + PIECE_STRIDE * path[offset + PATH_COUNT]!
  return path[end + PIECE_T + 1] === Number.POSITIVE_INFINITY
}
