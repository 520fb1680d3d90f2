import type { Posture } from "../parts.ts"
import * as partColumns from "../parts.ts"
import * as pathColumns from "../path.ts"
import { distanceBy, heightAt, paceAt, slopeAt } from "../path.ts"
import type { Metres, Seconds } from "../units.ts"
import * as worldColumns from "../world.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { PATH_DX, PATH_DY, PATH_END, PATH_X, PATH_Y } = pathColumns
const { AXIS_0, AXIS_1, AXIS_2, CENTRE, HALF_SIZE, NO_LIMB, PART_STRIDE, ROUNDING } = partColumns
const { PUCK_HALF_THICKNESS, PUCK_RADIUS } = worldColumns

/** Columns of a bounce. In: the goalie at the moment of the save, place, facing, velocity in the rink. */
export const AT_X = 0
export const AT_Y = 1
export const AT_COS = 2
export const AT_SIN = 3
export const AT_VX = 4
export const AT_VY = 5
/** Restitution and friction of the part; the tilt of its surface, two small angles. */
export const RESTITUTION = 6
export const SLIPS = 7
export const TILT_1 = 8
export const TILT_2 = 9
/** Out: the puck's place and velocity in the rink just after; the surface's normal, and the puck's speed before. */
export const OUT_X = 10
export const OUT_V = 13
export const OUT_N = 16
export const SPEED_BEFORE = 19
/** Scratch: the part in the goalie's frame, centre and axes as in the table of parts, its half-sizes, and a vector. */
const BOX = 20
const VECTOR = 32
const HALVES = 35
export const BOUNCE_LENGTH = 40

/** Steps and halvings that find where the puck first touches a part it is inside of. */
const BACK: Metres = 0.02
const MOST_BACK = 40
const HALVINGS = 12
/** Lapse over which a falling part's velocity is taken, as a share of the drop. */
const LAPSE = 0.01

/**
 * The bounce of a puck off the part that stopped it at time `time` of the path: where it was touched, the surface's normal
 * there, and the velocity after. The part is where the drop has it at `phase` (0 to 1), falling at `rate` (phase a
 * second). With relative velocity w, normal n, restitution e, friction f:
 *
 *   w' = w - (1 + e) (w n) n - min(f (1 + e) |w n|, |t|) t / |t|,   t = w - (w n) n
 *
 * A part that a limb brought to the puck faces it with its flat side. Allocates nothing.
 */
export function bounce(
  world: Float64Array,
  path: Float64Array,
  offset: number,
  posture: Posture,
  part: number,
  limb: number,
  time: Seconds,
  phase: number,
  rate: number,
  b: Float64Array,
): void {
  let D = distanceBy(path, offset, time, time / paceAt(path, offset, 0))
  if (D > path[offset + PATH_END]!) D = path[offset + PATH_END]!
  placePart(posture, part, phase, b)
  if (limb === NO_LIMB) D = firstTouch(world, path, offset, D, posture.parts[part * PART_STRIDE + ROUNDING]!, b)

  // the puck in the rink: place and velocity
  const speed = 1 / paceAt(path, offset, D)
  b[OUT_X] = path[offset + PATH_X]! + D * path[offset + PATH_DX]!
  b[OUT_X + 1] = path[offset + PATH_Y]! + D * path[offset + PATH_DY]!
  b[OUT_X + 2] = heightAt(path, offset, D)
  b[OUT_V] = speed * path[offset + PATH_DX]!
  b[OUT_V + 1] = speed * path[offset + PATH_DY]!
  b[OUT_V + 2] = speed * slopeAt(path, offset, D)
  b[SPEED_BEFORE] = length(b, OUT_V)

  // the surface's normal, in the rink
  if (limb === NO_LIMB) awayFromCore(path, offset, D, b)
  else flatSide(b)
  tilt(b)

  // relative to the part, which falls and goes with the goalie
  partVelocity(posture, part, phase, rate, b)
  for (let i = 0; i < 3; i++) b[OUT_V + i]! -= b[VECTOR + i]!
  rebound(b)
  for (let i = 0; i < 3; i++) b[OUT_V + i]! += b[VECTOR + i]!
}

/** Reflects the relative velocity at OUT_V about the normal at OUT_N, with restitution and friction. */
export function rebound(b: Float64Array): void {
  const e = b[RESTITUTION]!
  let into = b[OUT_V]! * b[OUT_N]! + b[OUT_V + 1]! * b[OUT_N + 1]! + b[OUT_V + 2]! * b[OUT_N + 2]!
  // tilted past the puck's own line the surface meets it head on
  if (into >= 0) {
    const speed = length(b, OUT_V)
    if (speed < 1e-9) return
    for (let i = 0; i < 3; i++) b[OUT_N + i] = -b[OUT_V + i]! / speed
    into = -speed
  }
  let along = 0
  for (let i = 0; i < 3; i++) {
    const t = b[OUT_V + i]! - into * b[OUT_N + i]!
    along += t * t
  }
  along = Math.sqrt(along)
  const loss = along > 0 ? Math.min(1, (-b[SLIPS]! * (1 + e) * into) / along) : 0
  for (let i = 0; i < 3; i++) {
    const t = b[OUT_V + i]! - into * b[OUT_N + i]!
    b[OUT_V + i] = (1 - loss) * t - e * into * b[OUT_N + i]!
  }
}

/** Writes the part at a phase to the scratch: centre, axes made upright, half-sizes. */
function placePart(posture: Posture, part: number, phase: number, b: Float64Array): void {
  const { parts, phases, count } = posture
  const place = phase * (phases - 1)
  let k = place | 0
  if (k > phases - 2) k = phases - 2
  const share = place - k
  const row = (k * count + part) * PART_STRIDE
  const next = row + count * PART_STRIDE
  for (let i = 0; i < 9; i++) b[BOX + i] = parts[row + i]! + share * (parts[next + i]! - parts[row + i]!)
  const first = BOX + AXIS_0
  const second = BOX + AXIS_1
  scale(b, first, 1 / length(b, first))
  const dot = b[first]! * b[second]! + b[first + 1]! * b[second + 1]! + b[first + 2]! * b[second + 2]!
  for (let i = 0; i < 3; i++) b[second + i]! -= dot * b[first + i]!
  scale(b, second, 1 / length(b, second))
  const third = BOX + AXIS_2
  b[third] = b[first + 1]! * b[second + 2]! - b[first + 2]! * b[second + 1]!
  b[third + 1] = b[first + 2]! * b[second]! - b[first]! * b[second + 2]!
  b[third + 2] = b[first]! * b[second + 1]! - b[first + 1]! * b[second]!
  for (let i = 0; i < 3; i++) b[HALVES + i] = parts[row + HALF_SIZE + i]!
}

/** Goes back along the path from D, where the puck is nearest, to where it first touches the part. */
function firstTouch(
  world: Float64Array,
  path: Float64Array,
  offset: number,
  D: Metres,
  rounding: Metres,
  b: Float64Array,
): Metres {
  if (gap(world, path, offset, D, rounding, b) > 0) return D
  let inside = D
  let outside = D
  for (let i = 0; i < MOST_BACK; i++) {
    outside = inside > BACK ? inside - BACK : 0
    if (outside === 0 || gap(world, path, offset, outside, rounding, b) > 0) break
    inside = outside
  }
  for (let i = 0; i < HALVINGS; i++) {
    const middle = 0.5 * (inside + outside)
    if (gap(world, path, offset, middle, rounding, b) > 0) outside = middle
    else inside = middle
  }
  return inside
}

/** Clearance of the puck at distance D from the part in the scratch. */
function gap(
  world: Float64Array,
  path: Float64Array,
  offset: number,
  D: Metres,
  rounding: Metres,
  b: Float64Array,
): Metres {
  toCore(path, offset, D, b)
  const away = length(b, VECTOR)
  const up = away < 1e-9 ? 1 : Math.abs(b[VECTOR + 2]! / away)
  return away - rounding - world[PUCK_RADIUS]! * Math.sqrt(1 - up * up) - world[PUCK_HALF_THICKNESS]! * up
}

/** Writes the vector from the nearest point of the part's core to the puck at distance D, goalie's frame, to VECTOR. */
function toCore(path: Float64Array, offset: number, D: Metres, b: Float64Array): void {
  const c = b[AT_COS]!
  const s = b[AT_SIN]!
  const x = path[offset + PATH_X]! + D * path[offset + PATH_DX]! - b[AT_X]!
  const y = path[offset + PATH_Y]! + D * path[offset + PATH_DY]! - b[AT_Y]!
  const u = c * x + s * y - b[BOX + CENTRE]!
  const v = c * y - s * x - b[BOX + CENTRE + 1]!
  const z = heightAt(path, offset, D) - b[BOX + CENTRE + 2]!
  b[VECTOR] = 0
  b[VECTOR + 1] = 0
  b[VECTOR + 2] = 0
  for (let i = 0; i < 3; i++) {
    const axis = BOX + AXIS_0 + 3 * i
    const half = b[HALVES + i]!
    const q = u * b[axis]! + v * b[axis + 1]! + z * b[axis + 2]!
    const over = q > half ? q - half : q < -half ? q + half : 0
    for (let j = 0; j < 3; j++) b[VECTOR + j]! += over * b[axis + j]!
  }
}

/** The normal points from the part's core to the puck; a puck at the core itself is met head on. */
function awayFromCore(path: Float64Array, offset: number, D: Metres, b: Float64Array): void {
  toCore(path, offset, D, b)
  const away = length(b, VECTOR)
  if (away < 1e-9) {
    for (let i = 0; i < 3; i++) b[OUT_N + i] = -b[OUT_V + i]! / b[SPEED_BEFORE]!
    return
  }
  toRink(b, b[VECTOR]! / away, b[VECTOR + 1]! / away, b[VECTOR + 2]! / away, OUT_N)
}

/** The normal of a part that was brought to the puck: along its thinnest side, against the puck. */
function flatSide(b: Float64Array): void {
  let thin = 0
  for (let i = 1; i < 3; i++) if (b[HALVES + i]! < b[HALVES + thin]!) thin = i
  const axis = BOX + AXIS_0 + 3 * thin
  toRink(b, b[axis]!, b[axis + 1]!, b[axis + 2]!, OUT_N)
  const into = b[OUT_V]! * b[OUT_N]! + b[OUT_V + 1]! * b[OUT_N + 1]! + b[OUT_V + 2]! * b[OUT_N + 2]!
  if (into > 0) scale(b, OUT_N, -1)
}

/** Tilts the normal by two small angles about axes square to it. */
function tilt(b: Float64Array): void {
  const nx = b[OUT_N]!
  const ny = b[OUT_N + 1]!
  const nz = b[OUT_N + 2]!
  // one level direction square to the normal, and the one square to both
  const flat = Math.sqrt(nx * nx + ny * ny)
  const lx = flat > 1e-6 ? -ny / flat : 1
  const ly = flat > 1e-6 ? nx / flat : 0
  const t1 = Math.tan(clamp(b[TILT_1]!))
  const t2 = Math.tan(clamp(b[TILT_2]!))
  b[OUT_N] = nx + t1 * lx - t2 * nz * ly
  b[OUT_N + 1] = ny + t1 * ly + t2 * nz * lx
  b[OUT_N + 2] = nz + t2 * (nx * ly - ny * lx)
  scale(b, OUT_N, 1 / length(b, OUT_N))
}

function clamp(angle: number): number {
  return angle > 1 ? 1 : angle < -1 ? -1 : angle
}

/** Velocity of the part's middle in the rink, with the goalie and with the drop, to VECTOR. */
function partVelocity(posture: Posture, part: number, phase: number, rate: number, b: Float64Array): void {
  b[VECTOR] = b[AT_VX]!
  b[VECTOR + 1] = b[AT_VY]!
  b[VECTOR + 2] = 0
  if (rate === 0) return
  const u = b[BOX + CENTRE]!
  const v = b[BOX + CENTRE + 1]!
  const z = b[BOX + CENTRE + 2]!
  const other = phase + LAPSE <= 1 ? phase + LAPSE : phase - LAPSE
  placePart(posture, part, other, b)
  const perSecond = rate / (other - phase)
  const du = (b[BOX + CENTRE]! - u) * perSecond
  const dv = (b[BOX + CENTRE + 1]! - v) * perSecond
  b[VECTOR]! += b[AT_COS]! * du - b[AT_SIN]! * dv
  b[VECTOR + 1]! += b[AT_SIN]! * du + b[AT_COS]! * dv
  b[VECTOR + 2]! += (b[BOX + CENTRE + 2]! - z) * perSecond
}

function toRink(b: Float64Array, u: number, v: number, z: number, at: number): void {
  b[at] = b[AT_COS]! * u - b[AT_SIN]! * v
  b[at + 1] = b[AT_SIN]! * u + b[AT_COS]! * v
  b[at + 2] = z
}

function length(b: Float64Array, at: number): number {
  return Math.sqrt(b[at]! * b[at]! + b[at + 1]! * b[at + 1]! + b[at + 2]! * b[at + 2]!)
}

function scale(b: Float64Array, at: number, by: number): void {
  b[at]! *= by
  b[at + 1]! *= by
  b[at + 2]! *= by
}
