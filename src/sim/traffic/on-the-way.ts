import { BLOCKED } from "../fate.ts"
import { fly, reachFrom } from "../flight.ts"
import { crossMouth } from "../iron.ts"
import * as pathColumns from "../path.ts"
import { heightAt, paceAt, slopeAt, timeAt } from "../path.ts"
import type { Metres } from "../units.ts"
import * as worldColumns from "../world.ts"
import * as lookColumns from "./sight.ts"
import { lineUp, meetsBox } from "./sight.ts"
import * as T from "./traffic.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { PATH_DX, PATH_DY, PATH_END, PATH_STRIDE, PATH_X, PATH_Y } = pathColumns
const { PUCK_HALF_THICKNESS, PUCK_RADIUS } = worldColumns
const { ALONG_A, ALONG_B, FROM_A, FROM_B, STRAYED } = lookColumns
const { BODY, BOX_COUNT, BOX_STRIDE, BOXES, DRAW_STOPS, DRAW_TIP_ACROSS, DRAW_TIP_KEEPS, DRAW_TIP_UP, DRAW_TIPPED } = T

/** A tipped puck keeps at least this share of its speed. */
const LEAST_KEPT = 0.1

/** What {@link meetTraffic} works on: paths of a batch, the first flights of tipped shots, and when they were tipped. */
export interface OnTheWay {
  readonly path: Float64Array
  /** [capacity x PATH_STRIDE] the flight before the tip, where there is one */
  readonly firstPath: Float64Array
  /** [capacity] when it was tipped, s after the release; 0 where it was not */
  readonly tipped: Float64Array
  /** [capacity x PUCK_DRAWS] */
  readonly puck: Float64Array
  readonly look: Float64Array
}

/**
 * What those on its way make of shot i, which left the stick at (x, y): tipped, its path is replaced by the one from the
 * stick on, and the crossing of the goal line written to `crossing`; stopped by a body, its fate is BLOCKED. Returns the
 * fate. Whoever is nearer to the puck comes first. Allocates nothing.
 */
export function meetTraffic(
  world: Float64Array,
  traffic: Float64Array,
  way: OnTheWay,
  i: number,
  x: Metres,
  y: Metres,
  fate: number,
  crossing: Float64Array,
): number {
  const offset = i * PATH_STRIDE
  const draws = i * T.PUCK_DRAWS
  const { path, look, puck } = way
  way.tipped[i] = 0
  standAside(traffic, puck, draws, look)
  lineUp(look, x, y, path, offset)
  const stopped = stoppedAt(world, traffic, way, draws, offset)
  if (puck[draws + DRAW_TIPPED]! < traffic[T.TIP_SHARE]!) {
    const at = tipDistance(traffic, look, path, offset)
    if (at < stopped) {
      tip(world, traffic, way, i, at)
      lineUp(look, x, y, path, offset)
      const fateNow = crossMouth(world, path, offset, crossing)
      return stoppedAt(world, traffic, way, draws, offset) < Infinity ? BLOCKED : fateNow
    }
  }
  return stopped < Infinity ? BLOCKED : fate
}

/** Puts both bodies where this shot finds them. */
export function standAside(traffic: Float64Array, puck: Float64Array, draws: number, look: Float64Array): void {
  look[STRAYED] = traffic[T.STRAYS]! * puck[draws + T.DRAW_STRAYS]!
  look[STRAYED + 1] = traffic[T.STRAYS]! * puck[draws + T.DRAW_STRAYS + 1]!
}

/** Distance along the path at which a body stops the puck, or Infinity. */
function stoppedAt(
  world: Float64Array,
  traffic: Float64Array,
  { path, look, puck }: OnTheWay,
  draws: number,
  offset: number,
): Metres {
  let first = Infinity
  const end = BOXES + traffic[BOX_COUNT]! * BOX_STRIDE
  for (let row = BOXES; row < end; row += BOX_STRIDE) {
    if (puck[draws + DRAW_STOPS + traffic[row + BODY]!]! >= traffic[T.STOPS]!) continue
    const until = path[offset + PATH_END]!
    const at = meetsBox(traffic, row, look, path, offset, until, world[PUCK_RADIUS]!, world[PUCK_HALF_THICKNESS]!)
    if (at < first) first = at
  }
  return first
}

/** Distance along the path at which the puck is level with the stick and within its reach, or Infinity. */
function tipDistance(traffic: Float64Array, look: Float64Array, path: Float64Array, offset: number): Metres {
  const D = (traffic[T.TIP_DISTANCE]! - look[FROM_A]!) / look[ALONG_A]!
  if (!(D > 0) || D > path[offset + PATH_END]!) return Infinity
  const b = look[FROM_B]! + D * look[ALONG_B]!
  const reach = traffic[T.TIP_REACH]!
  if (b > reach || b < -reach || heightAt(path, offset, D) > traffic[T.TIP_HEIGHT]!) return Infinity
  return D
}

/** Turns the path at distance D: what was flown is kept as the first path, what follows starts anew there. */
function tip(world: Float64Array, traffic: Float64Array, way: OnTheWay, i: number, D: Metres): void {
  const offset = i * PATH_STRIDE
  const draws = i * T.PUCK_DRAWS
  const { path, firstPath, puck } = way
  for (let k = 0; k < PATH_STRIDE; k++) firstPath[offset + k] = path[offset + k]!
  way.tipped[i] = timeAt(path, offset, D)

  const slope = slopeAt(path, offset, D)
  const speed = Math.sqrt(1 + slope * slope) / paceAt(path, offset, D)
  const keeps = traffic[T.TIP_KEEPS]! + traffic[T.TIP_KEEPS_SD]! * puck[draws + DRAW_TIP_KEEPS]!
  const kept = keeps < LEAST_KEPT ? LEAST_KEPT : keeps > 1 ? 1 : keeps
  const turned = traffic[T.TIP_ACROSS]! * puck[draws + DRAW_TIP_ACROSS]!
  const azimuth = Math.atan2(path[offset + PATH_DY]!, path[offset + PATH_DX]!) + turned
  const elevation = Math.atan(slope) + traffic[T.TIP_UP]! * puck[draws + DRAW_TIP_UP]!
  const x = path[offset + PATH_X]! + D * path[offset + PATH_DX]!
  const y = path[offset + PATH_Y]! + D * path[offset + PATH_DY]!
  const z = heightAt(path, offset, D)
  // along the ice it can only be lifted
  const lies = z <= world[PUCK_HALF_THICKNESS]! + 1e-6
  fly(world, x, y, z, azimuth, lies && elevation < 0 ? 0 : elevation, kept * speed, reachFrom(x, y), path, offset)
}
