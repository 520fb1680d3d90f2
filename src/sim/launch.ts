import { piecesFor, stepPiece } from "./flight-step.ts"
import * as pathColumns from "./path.ts"
import type { Metres, MetresPerSecond } from "./units.ts"
import * as worldColumns from "./world.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { PATH_PIECES, PIECE_START, PIECE_STRIDE, PIECE_T, PIECE_Z } = pathColumns
const { DRAG, GRAVITY, LIFT, PUCK_HALF_THICKNESS } = worldColumns

/** What {@link aimAt} writes: azimuth of the flight (see fly) and tangent of its elevation. */
export const LAUNCH_AZIMUTH = 0
export const LAUNCH_TANGENT = 1
export const LAUNCH_STRIDE = 2

/** Answers of {@link aimAt}. */
export const TARGET_HIT = 0
/** Too far or too high for this speed: the highest point that it reaches under the target, or along the ice. */
export const TARGET_OUT_OF_REACH = 1
/** Steeper than this shooter aims: the point under the target that the steepest aim reaches, or along the ice. */
export const TARGET_TOO_STEEP = 2

/** Height error at the goal line that ends the search, m. */
const CLOSE_ENOUGH = 1e-5
const MOST_NEWTON_STEPS = 8
const MOST_STEPS = 5

// while aiming, the head of the path keeps the problem and the answer of the last trial
const HEIGHT_REACHED = 0
const FROM_HEIGHT = 1
const SPEED = 2
const DISTANCE = 3

/**
 * Aims a perfect shot: finds the launch from (x, y, z) at which a puck of this speed comes to (targetY, targetZ) on the
 * plane of the goal line under gravity and drag, always the flatter of the two ways. Heights are of the puck's centre.
 * A start from the parabola with the first term of drag, then Newton on the fast flight. Writes LAUNCH_AZIMUTH and
 * LAUNCH_TANGENT at `at` of `out` and says whether the target is hit; TARGET_OUT_OF_REACH and TARGET_TOO_STEEP
 * come with the nearest launch under the target. Allocates nothing.
 *
 * `steepest` is the tangent of the steepest elevation aimed. The path at `offset` serves as scratch and is overwritten.
 */
export function aimAt(
  world: Float64Array,
  x: Metres,
  y: Metres,
  z: Metres,
  targetY: Metres,
  targetZ: Metres,
  speed: MetresPerSecond,
  steepest: number,
  path: Float64Array,
  offset: number,
  out: Float64Array,
  at: number,
): number {
  const floor = world[PUCK_HALF_THICKNESS]!
  const from = z > floor ? z : floor
  const wanted = targetZ > floor ? targetZ : floor
  const across = targetY - y
  const D = Math.sqrt(x * x + across * across)
  out[at + LAUNCH_AZIMUTH] = Math.atan2(across, -x)
  path[offset + FROM_HEIGHT] = from
  path[offset + SPEED] = speed
  path[offset + DISTANCE] = D

  // flatter root of rise = D T - a (1 + T²), a the drop of a level shot with the first term of drag
  const drop = (0.5 * world[GRAVITY]! * D * D) / (speed * speed)
  const a = drop * (1 + (2 / 3) * world[DRAG]! * D) - 0.5 * world[LIFT]! * D * D
  const rise = wanted - from
  const inside = D * D - 4 * a * (a + rise)
  // near the peak height hardly changes with the aim and Newton is no use
  if (inside > 0.04 * D * D) {
    const root = Math.sqrt(inside)
    // the same root as (D - root) / 2a, and right for a = 0
    let tangent = (2 * (a + rise)) / (D + root)
    const perHeight = 1 / (D - 2 * a * tangent)
    for (let i = 0; i < MOST_NEWTON_STEPS; i++) {
      climb(world, path, offset, tangent)
      const error = path[offset + HEIGHT_REACHED]! - wanted
      tangent -= error * perHeight
      if (Math.abs(error) < CLOSE_ENOUGH) {
        if (tangent > steepest) break
        out[at + LAUNCH_TANGENT] = tangent
        return TARGET_HIT
      }
    }
  }
  return aimWithCare(world, path, offset, wanted, steepest, out, at + LAUNCH_TANGENT)
}

/**
 * The slow way, for steep, slow or unreachable targets: heights at the goal line rise with the aim up to one peak, so
 * find the peak or the steepest aim, whichever comes first, and bisect below it. Writes the tangent to out[at].
 */
function aimWithCare(
  world: Float64Array,
  path: Float64Array,
  offset: number,
  wanted: Metres,
  steepest: number,
  out: Float64Array,
  at: number,
): number {
  const floor = world[PUCK_HALF_THICKNESS]!
  const from = path[offset + FROM_HEIGHT]!
  const D = path[offset + DISTANCE]!
  const fast = path[offset + SPEED]! * path[offset + SPEED]!
  out[at] = 0

  // not even without drag does it get there through the air
  const gravity = world[GRAVITY]! - (world[LIFT]! > 0 ? world[LIFT]! * fast : 0)
  if (gravity > 0 && from + (0.5 * fast) / gravity - (0.5 * gravity * D * D) / fast <= floor) return TARGET_OUT_OF_REACH

  // highest aim worth trying
  const low = Math.min((floor - from) / D, steepest)
  climb(world, path, offset, steepest - 1e-4)
  const before = path[offset + HEIGHT_REACHED]!
  climb(world, path, offset, steepest)
  const rising = path[offset + HEIGHT_REACHED]! > before
  const high = rising ? steepest : highestAim(world, path, offset, low, steepest)
  climb(world, path, offset, high)
  const peak = path[offset + HEIGHT_REACHED]!
  if (peak < wanted - CLOSE_ENOUGH) {
    if (peak > floor) out[at] = high
    return rising ? TARGET_TOO_STEEP : TARGET_OUT_OF_REACH
  }
  out[at] = bisectAim(world, path, offset, wanted, low, high)
  return TARGET_HIT
}

/** The aim between `low` and `high` that comes highest at the goal line, by golden section. */
function highestAim(world: Float64Array, path: Float64Array, offset: number, low: number, high: number): number {
  const golden = 0.5 * (Math.sqrt(5) - 1)
  let a = low
  let b = high
  while (b - a > 1e-6) {
    const left = b - golden * (b - a)
    const right = a + golden * (b - a)
    climb(world, path, offset, left)
    const leftHeight = path[offset + HEIGHT_REACHED]!
    climb(world, path, offset, right)
    if (leftHeight < path[offset + HEIGHT_REACHED]!) a = left
    else b = right
  }
  return 0.5 * (a + b)
}

/** The aim between `low` and `high` that comes to height `wanted`; heights rise from one to the other. */
function bisectAim(
  world: Float64Array,
  path: Float64Array,
  offset: number,
  wanted: Metres,
  low: number,
  high: number,
): number {
  let below = low
  let above = high
  while (above - below > 1e-8) {
    const middle = 0.5 * (below + above)
    climb(world, path, offset, middle)
    if (path[offset + HEIGHT_REACHED]! < wanted) below = middle
    else above = middle
  }
  return above
}

/** Height at the goal line of a launch with this tangent, as if there were no ice. */
function climb(world: Float64Array, path: Float64Array, offset: number, tangent: number): void {
  let row = offset + PATH_PIECES
  path[row + PIECE_START] = 0
  path[row + PIECE_Z] = path[offset + FROM_HEIGHT]!
  path[row + PIECE_Z + 1] = tangent
  path[row + PIECE_T] = 0
  path[row + PIECE_T + 1] = Math.sqrt(1 + tangent * tangent) / path[offset + SPEED]!
  const D = path[offset + DISTANCE]!
  const steps = piecesFor(world, path, row, D, MOST_STEPS)
  for (let step = 0; step < steps; step++) {
    stepPiece(world, path, row, D / steps)
    row += PIECE_STRIDE
  }
  path[offset + HEIGHT_REACHED] = path[row + PIECE_Z]!
}
