import { AXIS_0, CENTRE, GREATEST_V, HALF_SIZE, LEAST_V, LIMB_STRIDE, NO_LIMB, PART_STRIDE, ROUNDING } from "./parts.ts"
import { heightAt, PATH_DX, PATH_DY, PATH_END, PATH_X, PATH_Y, paceAt, slopeAt, timeAt } from "./path.ts"
import type { PreparedPosture } from "./prepared.ts"
import {
  BOX_H,
  BOX_LEAST,
  BOX_MOST,
  BOX_Q,
  BOX_RECORD,
  BOX_ROUNDING,
  BOX_UP,
  BOX_W,
  CLEARANCE,
  DISC_HALF,
  DISC_RADIUS,
  solveClearance,
} from "./rounded-box.ts"
import { STATION_COS, STATION_SIN, STATION_X, STATION_Y } from "./station.ts"
import { PUCK_HALF_THICKNESS, PUCK_RADIUS } from "./world.ts"

/**
 * Where a puck's path runs relative to one goalie and one part of the body.
 *
 * The path is put into the goalie's frame, then, for each key phase of the drop, into the axes of the part as it is
 * at that phase. Near a part the path is straight; the part moves while the puck passes, so its own motion (fall and
 * turn, by central differences over the phases) is taken off the path's direction: the clearance is that of the
 * relative path. Phase is counted at the moment the puck is level with the part.
 */
export interface Meeting {
  /** [phases x 9] for the part in hand: path start in the part's axes, path direction, vertical share of the axes */
  readonly local: Float64Array
  readonly box: Float64Array
  /** Path in the goalie's frame: release u v, direction u v, distance where the path ends for the goalie. */
  readonly frame: Float64Array
  /** Columns: see LEVEL_… */
  readonly level: Float64Array
}

const LOCAL_STRIDE = 9
const FRAME_U = 0
const FRAME_V = 1
const FRAME_DU = 2
const FRAME_DV = 3
const FRAME_END = 4

/** The path at the moment it is level with the part in hand: time since release, pace, and place (u, v, z). */
export const LEVEL_TIME = 0
export const LEVEL_PACE = 1
export const LEVEL_U = 2
export const LEVEL_V = 3
export const LEVEL_Z = 4
const LEVEL_SLOPE = 5
const LEVEL_DISTANCE = 6

/** A path and a straight line differ by less than this over the reach of a part, m: slack of the quick refusal. */
const BOW = 0.06

/** Scratch for postures of up to `phases` key phases, with the puck's disc set from the world. */
export function meeting(phases: number, world: Float64Array): Meeting {
  const box = new Float64Array(BOX_RECORD)
  box[DISC_RADIUS] = world[PUCK_RADIUS]!
  box[DISC_HALF] = world[PUCK_HALF_THICKNESS]!
  return {
    local: new Float64Array(phases * LOCAL_STRIDE),
    box,
    frame: new Float64Array(5),
    level: new Float64Array(7),
  }
}

/** Puts the path at `offset` into the frame of the goalie at `station`; `end` is the distance where it crosses the line. */
export function meetGoalie(m: Meeting, path: Float64Array, offset: number, station: Float64Array, end: number): void {
  const c = station[STATION_COS]!
  const s = station[STATION_SIN]!
  const x = path[offset + PATH_X]! - station[STATION_X]!
  const y = path[offset + PATH_Y]! - station[STATION_Y]!
  const dx = path[offset + PATH_DX]!
  const dy = path[offset + PATH_DY]!
  m.frame[FRAME_U] = c * x + s * y
  m.frame[FRAME_V] = c * y - s * x
  m.frame[FRAME_DU] = c * dx + s * dy
  m.frame[FRAME_DV] = c * dy - s * dx
  m.frame[FRAME_END] = end < path[offset + PATH_END]! ? end : path[offset + PATH_END]!
}

/** Distance along the path where it is nearest, in plan, to the spot between the skates (never before the release). */
export function distanceToBody(m: Meeting): number {
  const f = m.frame
  const distance = -(f[FRAME_U]! * f[FRAME_DU]! + f[FRAME_V]! * f[FRAME_DV]!)
  return distance > 0 ? distance : 0
}

/**
 * Takes up one part: returns false at once when the path stays clear of the space the part (carried by its limb) can
 * ever fill; otherwise fills the path in the part's axes for every key phase, and `level`.
 */
export function meetPart(
  m: Meeting,
  prepared: PreparedPosture,
  part: number,
  path: Float64Array,
  offset: number,
): boolean {
  const f = m.frame
  const du = f[FRAME_DU]!
  const dv = f[FRAME_DV]!
  const bounds = prepared.bounds
  const b = part * 6
  let grown = prepared.reach[part]! + BOW

  // quick refusal: where the path enters and leaves the part's slab of u
  if (du < -0.2 || du > 0.2) {
    const inv = 1 / du
    const near = (bounds[b]! - f[FRAME_U]!) * inv
    const far = (bounds[b + 1]! - f[FRAME_U]!) * inv
    const v1 = f[FRAME_V]! + dv * near
    const v2 = f[FRAME_V]! + dv * far
    // on the wrong side of the body the limb cannot help: only what the part itself covers counts
    const limb = prepared.posture.carrier[part]!
    if (limb !== NO_LIMB) {
      const row = limb * LIMB_STRIDE
      const limbs = prepared.posture.limbs
      if (
        (v1 < limbs[row + LEAST_V]! && v2 < limbs[row + LEAST_V]!) ||
        (v1 > limbs[row + GREATEST_V]! && v2 > limbs[row + GREATEST_V]!)
      )
        grown = BOW
    }
    if (
      (v1 > bounds[b + 3]! + grown && v2 > bounds[b + 3]! + grown) ||
      (v1 < bounds[b + 2]! - grown && v2 < bounds[b + 2]! - grown)
    )
      return false
    const z1 = heightAt(path, offset, near > 0 ? near : 0)
    const z2 = heightAt(path, offset, far > 0 ? far : 0)
    if (z1 > bounds[b + 5]! + grown && z2 > bounds[b + 5]! + grown) return false
    if (z1 < bounds[b + 4]! - grown && z2 < bounds[b + 4]! - grown) return false
  }

  // the path where it is level with the part's middle
  const posture = prepared.posture
  const parts = posture.parts
  const middle = ((posture.phases >> 1) * posture.count + part) * PART_STRIDE
  let distance = (parts[middle + CENTRE]! - f[FRAME_U]!) * du + (parts[middle + CENTRE + 1]! - f[FRAME_V]!) * dv
  if (distance < 0) distance = 0
  const level = m.level
  const pu = f[FRAME_U]! + du * distance
  const pv = f[FRAME_V]! + dv * distance
  const pz = heightAt(path, offset, distance)
  const slope = slopeAt(path, offset, distance)
  level[LEVEL_TIME] = timeAt(path, offset, distance)
  level[LEVEL_PACE] = paceAt(path, offset, distance)
  level[LEVEL_U] = pu
  level[LEVEL_V] = pv
  level[LEVEL_Z] = pz
  level[LEVEL_SLOPE] = slope
  level[LEVEL_DISTANCE] = distance
  const box = m.box
  box[BOX_LEAST] = -distance
  box[BOX_MOST] = f[FRAME_END]! - distance
  box[BOX_ROUNDING] = parts[middle + ROUNDING]!
  box[BOX_H] = parts[middle + HALF_SIZE]!
  box[BOX_H + 1] = parts[middle + HALF_SIZE + 1]!
  box[BOX_H + 2] = parts[middle + HALF_SIZE + 2]!

  // into the part's axes, phase by phase
  const local = m.local
  const step = posture.count * PART_STRIDE
  let at = part * PART_STRIDE
  for (let phase = 0, row = 0; phase < posture.phases; phase++, row += LOCAL_STRIDE, at += step) {
    const ru = pu - parts[at + CENTRE]!
    const rv = pv - parts[at + CENTRE + 1]!
    const rz = pz - parts[at + CENTRE + 2]!
    for (let i = 0, axis = at + AXIS_0; i < 3; i++, axis += 3) {
      const au = parts[axis]!
      const av = parts[axis + 1]!
      const az = parts[axis + 2]!
      local[row + i] = ru * au + rv * av + rz * az
      local[row + 3 + i] = du * au + dv * av + slope * az
      local[row + 6 + i] = az
    }
  }
  return true
}

/** Clearance, m, of the path from the part in hand standing still at key phase `phase`. */
export function clearanceStill(m: Meeting, phase: number): number {
  const row = phase * LOCAL_STRIDE
  const box = m.box
  const local = m.local
  for (let i = 0; i < 3; i++) {
    box[BOX_Q + i] = local[row + i]!
    box[BOX_W + i] = local[row + 3 + i]!
    box[BOX_UP + i] = local[row + 6 + i]!
  }
  solveClearance(box)
  return box[CLEARANCE]!
}

/**
 * Clearance, m, of the path from the part in hand, moving through drop phase `phase` (0 to `phases` - 1, in key
 * phases, fractions between them) at `phasePerMetre` key phases for each metre the puck flies.
 */
export function clearanceMoving(m: Meeting, phase: number, phases: number, phasePerMetre: number): number {
  let k = phase | 0
  if (k > phases - 2) k = phases - 2
  const share = phase - k
  const row = k * LOCAL_STRIDE
  const next = row + LOCAL_STRIDE
  // motion of the path in the part's axes: over both neighbours at a key phase, over the interval inside one
  const before = share < 1e-9 && k > 0 ? row - LOCAL_STRIDE : row
  const motion = (share < 1e-9 && k > 0 ? 0.5 : 1) * phasePerMetre
  const box = m.box
  const local = m.local
  for (let i = 0; i < 3; i++) {
    const q = local[row + i]!
    const w = local[row + 3 + i]!
    const up = local[row + 6 + i]!
    box[BOX_Q + i] = q + share * (local[next + i]! - q)
    box[BOX_W + i] = w + share * (local[next + 3 + i]! - w) + motion * (local[next + i]! - local[before + i]!)
    box[BOX_UP + i] = up + share * (local[next + 6 + i]! - up)
  }
  solveClearance(box)
  return box[CLEARANCE]!
}
