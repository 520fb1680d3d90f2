import * as pathColumns from "../path.ts"
import { heightAt, timeAt } from "../path.ts"
import type { Metres, Seconds } from "../units.ts"
import * as trafficColumns from "./traffic.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { PATH_DX, PATH_DY, PATH_X, PATH_Y } = pathColumns
const { A_LEAST, A_MOST, B_LEAST, B_MOST, BODY, BOX_COUNT, BOX_STRIDE, BOXES, Z_LEAST, Z_MOST } = trafficColumns

/** Looks along the path for where the puck comes into sight or out of it: a glimpse shorter than one step is none. */
const STEPS = 64
/** Halvings that place such a moment between two looks: to about a tenth of a micrometre. */
const HALVINGS = 20

/** Columns of a look: the goalie's eye in the rink, the unit vector out along the shot's line, and how long a look is. */
export const EYE_X = 0
export const EYE_Y = 1
export const EYE_Z = 2
export const LINE_COS = 3
export const LINE_SIN = 4
/** The puck is seen from the start of the first stretch in sight that lasts this long, s. */
export const NEEDED = 5
/** The path in the frame of the line: place at the release and direction, then the puck in question. Scratch. */
export const FROM_A = 6
export const FROM_B = 7
export const ALONG_A = 8
export const ALONG_B = 9
/** How far off their places the two bodies stand in this shot, along b, m. */
export const STRAYED = 10
export const LOOK_LENGTH = 12

/** From when on a goalie sees a puck; see {@link sightFrom}. */
export type SightFrom = (
  traffic: Float64Array,
  look: Float64Array,
  path: Float64Array,
  offset: number,
  until: Metres,
) => Seconds

/**
 * Time after the release from which the goalie sees the puck: the start of the first stretch of the flight, up to the
 * distance `until`, in which the straight line from the eye to the puck's middle meets no body for as long as a look
 * needs, or to the end. 0 when the release is seen. Where it never is, the time at `until`. Allocates nothing.
 */
export function sightFrom(
  traffic: Float64Array,
  look: Float64Array,
  path: Float64Array,
  offset: number,
  until: Metres,
): Seconds {
  const count = traffic[BOX_COUNT]!
  if (count === 0) return 0
  intoLine(look, path, offset)
  const needed = look[NEEDED]!
  let inSight = !isHidden(traffic, look, path, offset, 0)
  let since = 0
  let before = 0
  for (let step = 1; step <= STEPS; step++) {
    const here = (until * step) / STEPS
    const clear = !isHidden(traffic, look, path, offset, here)
    if (clear !== inSight) {
      const turn = timeAt(path, offset, turnBetween(traffic, look, path, offset, before, here, inSight))
      if (inSight && turn - since >= needed) return since
      since = turn
      inSight = clear
    } else if (clear && timeAt(path, offset, here) - since >= needed) return since
    before = here
  }
  return inSight ? since : timeAt(path, offset, until)
}

/** Puts the path into the frame of the shot's line. */
function intoLine(look: Float64Array, path: Float64Array, offset: number): void {
  const c = look[LINE_COS]!
  const s = look[LINE_SIN]!
  const x = path[offset + PATH_X]!
  const y = path[offset + PATH_Y]!
  const dx = path[offset + PATH_DX]!
  const dy = path[offset + PATH_DY]!
  look[FROM_A] = c * x + s * y
  look[FROM_B] = c * y - s * x
  look[ALONG_A] = c * dx + s * dy
  look[ALONG_B] = c * dy - s * dx
}

/** Distance between two looks, one in sight and one not, at which the puck comes into sight or out of it. */
function turnBetween(
  traffic: Float64Array,
  look: Float64Array,
  path: Float64Array,
  offset: number,
  from: Metres,
  to: Metres,
  inSight: boolean,
): Metres {
  let a = from
  let b = to
  for (let i = 0; i < HALVINGS; i++) {
    const middle = 0.5 * (a + b)
    if (isHidden(traffic, look, path, offset, middle) === inSight) b = middle
    else a = middle
  }
  return 0.5 * (a + b)
}

/** Whether a body is in the way between the eye and the puck at distance D. */
function isHidden(traffic: Float64Array, look: Float64Array, path: Float64Array, offset: number, D: Metres): boolean {
  const c = look[LINE_COS]!
  const s = look[LINE_SIN]!
  const ea = c * look[EYE_X]! + s * look[EYE_Y]!
  const eb = c * look[EYE_Y]! - s * look[EYE_X]!
  const ez = look[EYE_Z]!
  const da = look[FROM_A]! + D * look[ALONG_A]! - ea
  const db = look[FROM_B]! + D * look[ALONG_B]! - eb
  const dz = heightAt(path, offset, D) - ez
  const end = BOXES + traffic[BOX_COUNT]! * BOX_STRIDE
  for (let box = BOXES; box < end; box += BOX_STRIDE) {
    // the part of the line of sight, 0 at the eye to 1 at the puck, that runs between each pair of faces
    let from = 0
    let to = 1
    for (let axis = 0; axis < 3; axis++) {
      const e = axis === 0 ? ea : axis === 1 ? eb - look[STRAYED + traffic[box + BODY]!]! : ez
      const d = axis === 0 ? da : axis === 1 ? db : dz
      const least = traffic[box + 2 * axis]! - e
      const most = traffic[box + 2 * axis + 1]! - e
      if (d === 0) {
        if (least > 0 || most < 0) to = -1
        continue
      }
      const one = least / d
      const other = most / d
      if (one < other) {
        if (one > from) from = one
        if (other < to) to = other
      } else {
        if (other > from) from = other
        if (one < to) to = one
      }
    }
    if (from < to) return true
  }
  return false
}

/**
 * Distance along the path at which the puck, a disc of this radius and half thickness, first meets a box of the table
 * in front of it, or Infinity. `row` is the box; the path has to be in the frame of the line (`look` as after a look).
 */
export function meetsBox(
  traffic: Float64Array,
  row: number,
  look: Float64Array,
  path: Float64Array,
  offset: number,
  until: Metres,
  radius: Metres,
  half: Metres,
): Metres {
  let from = 0
  let to = until
  const pa = look[FROM_A]!
  const pb = look[FROM_B]! - look[STRAYED + traffic[row + BODY]!]!
  const da = look[ALONG_A]!
  const db = look[ALONG_B]!
  // in plan the path is straight
  if (da === 0 && (pa < traffic[row + A_LEAST]! - radius || pa > traffic[row + A_MOST]! + radius)) return Infinity
  if (db === 0 && (pb < traffic[row + B_LEAST]! - radius || pb > traffic[row + B_MOST]! + radius)) return Infinity
  if (da !== 0) {
    const one = (traffic[row + A_LEAST]! - radius - pa) / da
    const other = (traffic[row + A_MOST]! + radius - pa) / da
    from = Math.max(from, Math.min(one, other))
    to = Math.min(to, Math.max(one, other))
  }
  if (db !== 0) {
    const one = (traffic[row + B_LEAST]! - radius - pb) / db
    const other = (traffic[row + B_MOST]! + radius - pb) / db
    from = Math.max(from, Math.min(one, other))
    to = Math.min(to, Math.max(one, other))
  }
  if (!(from > 0 && from < to)) return Infinity
  // a body is thin against the bow of the path: its heights where it comes in and goes out
  const z1 = heightAt(path, offset, from)
  const z2 = heightAt(path, offset, to)
  const low = z1 < z2 ? z1 : z2
  const high = z1 < z2 ? z2 : z1
  return high >= traffic[row + Z_LEAST]! - half && low <= traffic[row + Z_MOST]! + half ? from : Infinity
}

/** Puts a path into the frame of the line from the middle of the goal line to (x, y), for {@link meetsBox}. */
export function lineUp(look: Float64Array, x: Metres, y: Metres, path: Float64Array, offset: number): void {
  layLine(look, x, y)
  intoLine(look, path, offset)
}

/** Lays the line of a look from the middle of the goal line to (x, y). */
export function layLine(look: Float64Array, x: Metres, y: Metres): void {
  const away = Math.sqrt(x * x + y * y)
  look[LINE_COS] = away > 0 ? x / away : 1
  look[LINE_SIN] = away > 0 ? y / away : 0
}
