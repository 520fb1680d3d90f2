import { distanceBy, heightAt, PATH_DX, PATH_DY, PATH_X, PATH_Y, timeAt } from "../path.ts"
import type { Metres, Seconds } from "../units.ts"
import { EYE_X, EYE_Y, EYE_Z, LINE_COS, LINE_SIN, NEEDED, type SightFrom, STRAYED } from "./sight.ts"
import { BODY, BOX_COUNT, BOX_STRIDE, BOXES } from "./traffic.ts"

/**
 * When a puck comes into sight, slow and obvious: look every millisecond, each time through every face of every body.
 * The referee of {@link sightFrom}.
 */

const STEP: Seconds = 0.001

export const steppedSight: SightFrom = (traffic, look, path, offset, until) => {
  const last = timeAt(path, offset, until)
  let since = Number.NaN
  let D = 0
  for (let t = 0; t <= last; t += STEP) {
    D = distanceBy(path, offset, t, D)
    if (isBehind(traffic, look, eyeOf(look), puckAt(look, path, offset, D))) since = Number.NaN
    else if (Number.isNaN(since)) since = t
    if (t - since >= look[NEEDED]!) return since
  }
  return Number.isNaN(since) ? last : since
}

function eyeOf(look: Float64Array): number[] {
  return inLine(look, look[EYE_X]!, look[EYE_Y]!, look[EYE_Z]!)
}

function puckAt(look: Float64Array, path: Float64Array, offset: number, D: Metres): number[] {
  const x = path[offset + PATH_X]! + D * path[offset + PATH_DX]!
  const y = path[offset + PATH_Y]! + D * path[offset + PATH_DY]!
  return inLine(look, x, y, heightAt(path, offset, D))
}

/** A point of the rink as (out along the shot's line, to its left, up). */
function inLine(look: Float64Array, x: Metres, y: Metres, z: Metres): number[] {
  const c = look[LINE_COS]!
  const s = look[LINE_SIN]!
  return [c * x + s * y, c * y - s * x, z]
}

/** Whether the straight line between two points goes through a face of a body. */
function isBehind(traffic: Float64Array, look: Float64Array, eye: readonly number[], puck: readonly number[]): boolean {
  for (let box = 0; box < traffic[BOX_COUNT]!; box++) {
    const row = BOXES + box * BOX_STRIDE
    const aside = look[STRAYED + traffic[row + BODY]!]!
    for (let face = 0; face < 6; face++) {
      const axis = face >> 1
      const share = (traffic[row + face]! + (axis === 1 ? aside : 0) - eye[axis]!) / (puck[axis]! - eye[axis]!)
      if (!(share > 0 && share < 1)) continue
      let within = true
      for (let other = 0; other < 3; other++) {
        if (other === axis) continue
        const at = eye[other]! + share * (puck[other]! - eye[other]!) - (other === 1 ? aside : 0)
        if (at <= traffic[row + 2 * other]! || at >= traffic[row + 2 * other + 1]!) within = false
      }
      if (within) return true
    }
  }
  return false
}
