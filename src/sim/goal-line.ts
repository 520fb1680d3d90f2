import * as pathColumns from "./path.ts"
import type { Metres } from "./units.ts"
import * as worldColumns from "./world.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { PATH_DX, PATH_END, PATH_X } = pathColumns
const { POST_RADIUS, PUCK_RADIUS } = worldColumns

/**
 * The goal line. A goal is a puck entirely across "a red line the width of the diameter of the goal posts" [GoalECHL2021],
 * and the posts stand in the middle of that line [GoalIIHF2023]. With x = 0 through their axes the line reaches back to
 * x = -(post radius), and the whole puck is over it when its middle is at
 *
 *   x = -(post radius + puck radius)
 *
 * about 7 cm behind the plane of the goal line. Until then a save counts.
 */
export function wayOver(world: Float64Array): Metres {
  return world[POST_RADIUS]! + world[PUCK_RADIUS]!
}

/** Distance along the path where the puck's middle reaches the plane of the goal line; the path's end when it never does. */
export function crossingDistance(path: Float64Array, offset: number): Metres {
  const dx = path[offset + PATH_DX]!
  return dx < 0 ? -path[offset + PATH_X]! / dx : path[offset + PATH_END]!
}

/** Distance along the path where the whole puck is over the goal line; the path's end when it never is. */
export function distanceOver(world: Float64Array, path: Float64Array, offset: number): Metres {
  const end = path[offset + PATH_END]!
  const dx = path[offset + PATH_DX]!
  if (!(dx < 0)) return end
  const over = (path[offset + PATH_X]! + wayOver(world)) / -dx
  return over < end ? over : end
}

/**
 * Whether (x, y) lies behind the goal line outside the posts. What is there has iron and netting between itself and a
 * puck that is past the plane of the line inside them: it stops the puck up to that plane and no farther.
 */
export function isOutsideNet(x: Metres, y: Metres, mouthHalfWidth: Metres): boolean {
  return x < 0 && (y > mouthHalfWidth || y < -mouthHalfWidth)
}
