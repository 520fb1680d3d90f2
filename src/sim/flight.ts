import { piecesFor, stepPiece } from "./flight-step.ts"
import { landOnIce, slideOnIce } from "./ice.ts"
import * as pathColumns from "./path.ts"
import type { Metres, MetresPerSecond, Radians } from "./units.ts"
import * as worldColumns from "./world.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const {
  MOST_PIECES,
  PATH_COUNT,
  PATH_DX,
  PATH_DY,
  PATH_END,
  PATH_PIECES,
  PATH_X,
  PATH_Y,
  PIECE_START,
  PIECE_STRIDE,
  PIECE_T,
  PIECE_Z,
} = pathColumns
const { GRAVITY, LIFT, PUCK_HALF_THICKNESS } = worldColumns

/** Most pieces of the flight from the release to the first landing, and of each hop after it. */
const MOST_AIR_PIECES = 5
const MOST_HOP_PIECES = 1
/** Rows kept for the slide: hops that would take them are left out. */
const SLIDE_PIECES = 2

/** A path is flown well past the goal line, m: iron and reflections need a little beyond it. */
const BEYOND: Metres = 0.3

/** How far a puck that leaves the stick at (x, y) is followed, in plan. */
export function reachFrom(x: Metres, y: Metres): Metres {
  return 1.5 * Math.sqrt(x * x + y * y) + BEYOND
}

/**
 * Flies one puck and stores its path (see path.ts) at `offset` of `path`: through the air by Runge-Kutta steps in
 * distance, then hopping and sliding on the ice. Allocates nothing.
 *
 * (x, y, z) is the puck's centre at release. `azimuth` is the direction of flight in plan, the angle of the velocity
 * from the x axis positive toward y: a shot straight at the goal from in front of it has azimuth pi. `elevation` is
 * the angle above the ice. The path ends at `untilDistance` from the release in plan, or where the puck stops.
 * Within 1 mm and 0.1 ms of the reference while airborne, for 5 to 50 m/s, 1 to 30 m and up to 40 degrees.
 */
export function fly(
  world: Float64Array,
  x: Metres,
  y: Metres,
  z: Metres,
  azimuth: Radians,
  elevation: Radians,
  speed: MetresPerSecond,
  untilDistance: Metres,
  path: Float64Array,
  offset: number,
): void {
  // release: a puck that rests on the ice cannot start below it
  const floor = world[PUCK_HALF_THICKNESS]!
  const cosine = Math.cos(elevation)
  let row = offset + PATH_PIECES
  path[offset + PATH_X] = x
  path[offset + PATH_Y] = y
  path[offset + PATH_DX] = Math.cos(azimuth)
  path[offset + PATH_DY] = Math.sin(azimuth)
  path[row + PIECE_START] = 0
  path[row + PIECE_Z] = z > floor ? z : floor
  path[row + PIECE_Z + 1] = Math.sin(elevation) / cosine
  path[row + PIECE_T] = 0
  path[row + PIECE_T + 1] = 1 / (speed * cosine)

  // air, then hop after hop while rows are left
  let left = MOST_PIECES
  let airborne = z > floor || elevation > 0
  let most = MOST_AIR_PIECES
  while (airborne && left > SLIDE_PIECES && path[row + PIECE_START]! < untilDistance) {
    const used = flyLeg(world, path, row, untilDistance, Math.min(most, left))
    row += used * PIECE_STRIDE
    left -= used
    most = MOST_HOP_PIECES
    if (path[row + PIECE_START]! < untilDistance) airborne = landOnIce(world, path, row)
  }

  // what remains is a slide
  if (path[row + PIECE_START]! < untilDistance && left > 0 && Number.isFinite(path[row + PIECE_T + 1]!))
    row += slideOnIce(world, path, row, untilDistance, left) * PIECE_STRIDE
  path[offset + PATH_COUNT] = (row - offset - PATH_PIECES) / PIECE_STRIDE
  path[offset + PATH_END] = path[row + PIECE_START]!
}

/**
 * One leg through the air, from the state at `row` to the ice or to distance `until`; returns the pieces it took. The
 * row behind the last one holds the state at the end: it landed if that row starts before `until`.
 */
function flyLeg(world: Float64Array, path: Float64Array, row: number, until: Metres, most: number): number {
  const floor = world[PUCK_HALF_THICKNESS]!
  const span = legLength(world, path, row, until)
  const steps = piecesFor(world, path, row, span, most)
  const h = span / steps
  let at = row
  for (let used = 1; ; used++) {
    const left = until - path[at + PIECE_START]!
    const arrives = h * 1.000001 > left
    stepPiece(world, path, at, arrives ? left : h)
    at += PIECE_STRIDE
    if (path[at + PIECE_Z]! <= floor) cutAtIce(path, at - PIECE_STRIDE, floor)
    if (arrives || used === most || path[at + PIECE_Z]! <= floor) return used
  }
}

/** Length of the leg if there were no drag, which only shortens it; a little more, so that it ends under the ice. */
function legLength(world: Float64Array, path: Float64Array, row: number, until: Metres): Metres {
  const left = until - path[row + PIECE_START]!
  const s = path[row + PIECE_Z + 1]!
  const p = path[row + PIECE_T + 1]!
  const lift = world[LIFT]!
  const bend = world[GRAVITY]! * p * p - (lift > 0 ? 3 * lift : 0)
  if (bend <= 0) return left
  const height = path[row + PIECE_Z]! - world[PUCK_HALF_THICKNESS]!
  const landing = (1.001 * (s + Math.sqrt(s * s + 2 * bend * height))) / bend
  return Math.min(landing, left)
}

/** Cuts the piece at `row`, which ends under the ice, where its falling height crosses `floor`. */
function cutAtIce(path: Float64Array, row: number, floor: Metres): void {
  const next = row + PIECE_STRIDE
  const z1 = path[row + PIECE_Z + 1]!
  const z2 = path[row + PIECE_Z + 2]!
  const z3 = path[row + PIECE_Z + 3]!
  const above = path[row + PIECE_Z]! - floor

  // Newton from the end: the height is concave, so it comes down on the landing without passing it
  let q = path[next + PIECE_START]! - path[row + PIECE_START]!
  for (let i = 0; i < 30; i++) {
    const step = (above + q * (z1 + q * (z2 + q * z3))) / (z1 + q * (2 * z2 + q * 3 * z3))
    q -= step
    if (Math.abs(step) < 1e-12) break
  }

  const t1 = path[row + PIECE_T + 1]!
  const t2 = path[row + PIECE_T + 2]!
  const t3 = path[row + PIECE_T + 3]!
  path[next + PIECE_START] = path[row + PIECE_START]! + q
  path[next + PIECE_Z] = floor
  path[next + PIECE_Z + 1] = z1 + q * (2 * z2 + q * 3 * z3)
  path[next + PIECE_T] = path[row + PIECE_T]! + q * (t1 + q * (t2 + q * t3))
  path[next + PIECE_T + 1] = t1 + q * (2 * t2 + q * 3 * t3)
}
