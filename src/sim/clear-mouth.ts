import type { Goalkeeping } from "./answer.ts"
import { crossingDistance } from "./goal-line.ts"
import { highestClear } from "./iron.ts"
import type { MouthGrid } from "./mouth-grid.ts"
import { PATH_DX, PATH_STRIDE, slopeAt } from "./path.ts"
import { eachCell, flyTo, type MapShot } from "./reach-map.ts"
import type { Metres } from "./units.ts"
import { MOUTH_HALF_WIDTH, POST_RADIUS, PUCK_RADIUS } from "./world.ts"

/**
 * Where on the goal plane the middle of a puck from (x, y) clears both posts: from the first place to the second, rightmost
 * first; the first is the greater where no puck from there gets in without touching one.
 *
 *   a path from (x, y) through (0, u) passes the post's axis (0, p) at the distance |p - u| x / sqrt(x² + (u - y)²)
 *
 * which has to be both radii: a quadratic in u, with one root on either side of the post. From straight ahead that is the
 * sum of the radii beside the axis, from the side it is more.
 */
export function betweenPosts(world: Float64Array, x: Metres, y: Metres): [right: Metres, left: Metres] {
  const axis = world[MOUTH_HALF_WIDTH]! + world[POST_RADIUS]!
  const touch = world[PUCK_RADIUS]! + world[POST_RADIUS]!
  return [-insidePost(axis, touch, x, -y), insidePost(axis, touch, x, y)]
}

/** The place on the inner side of the post at p > 0; -Infinity where a puck so near the goal line cannot pass there. */
function insidePost(p: Metres, touch: Metres, x: Metres, y: Metres): Metres {
  const square = touch * touch
  const a = x * x - square
  if (!(x > 0) || a <= 0) return Number.NEGATIVE_INFINITY
  const b = p * x * x - square * y
  const c = p * p * x * x - square * (x * x + y * y)
  return (b - Math.sqrt(b * b - a * c)) / a
}

/** [columns x rows] 1 for each cell at whose middle a perfect shot clears posts and bar. */
export function clearCells(g: Goalkeeping, shot: MapShot, grid: MouthGrid): Uint8Array {
  const { world } = g.scene
  const clear = new Uint8Array(grid.columns * grid.rows)
  const path = new Float64Array(PATH_STRIDE)
  const [right, left] = betweenPosts(world, shot.x, shot.y)
  eachCell(grid, (cell, y, z) => {
    if (y < right || y > left) return
    flyTo(g, shot, y, z, path)
    const slope = -slopeAt(path, 0, crossingDistance(path, 0)) / path[PATH_DX]!
    if (z <= highestClear(world, slope)) clear[cell] = 1
  })
  return clear
}
