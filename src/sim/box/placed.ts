import { AXIS_0, AXIS_1, AXIS_2, CENTRE, HALF_SIZE, PART_STRIDE, type Posture, ROUNDING } from "../parts.ts"
import type { Metres, Probability, Radians } from "../units.ts"

/** The parts of a body at one drop phase, standing in the rink frame. */
export interface PlacedBody {
  readonly count: number
  /** [count x PART_STRIDE], rink frame */
  readonly parts: Float64Array
  /** [count] index into REGIONS */
  readonly region: Uint8Array
  /** [count] index into LIMBS, or NO_LIMB */
  readonly carrier: Uint8Array
}

/**
 * Stands a posture at (gx, gy), turned by `heading` from the x axis, at drop phase `phase`.
 * Between key phases centres, half-sizes and roundings move on straight lines; axes turn by interpolation and
 * Gram-Schmidt.
 */
export function placeBody(posture: Posture, phase: Probability, gx: Metres, gy: Metres, heading: Radians): PlacedBody {
  const { count, parts, phases, region, carrier } = posture
  const size = count * PART_STRIDE
  const placed = new Float64Array(size)
  const [earlier, fraction] = keyPhase(phases, phase)
  const later = Math.min(earlier + 1, phases - 1)
  for (let i = 0; i < size; i++) {
    const from = parts[earlier * size + i]!
    placed[i] = from + fraction * (parts[later * size + i]! - from)
  }
  const cosine = Math.cos(heading)
  const sine = Math.sin(heading)
  for (let at = 0; at < size; at += PART_STRIDE) {
    if (fraction !== 0) straighten(placed, at)
    for (const column of [CENTRE, AXIS_0, AXIS_1, AXIS_2]) turn(placed, at + column, cosine, sine)
    placed[at + CENTRE]! += gx
    placed[at + CENTRE + 1]! += gy
  }
  return { count, parts: placed, region, carrier }
}

/** A body made of nothing: the empty net. */
export function emptyBody(): PlacedBody {
  return { count: 0, parts: new Float64Array(0), region: new Uint8Array(0), carrier: new Uint8Array(0) }
}

/** Key phase at or before `phase`, and how far the body is toward the next one. */
export function keyPhase(phases: number, phase: Probability): [number, Probability] {
  const place = Math.min(Math.max(phase, 0), 1) * (phases - 1)
  const earlier = Math.floor(place)
  return [earlier, place - earlier]
}

function turn(parts: Float64Array, at: number, cosine: number, sine: number): void {
  const u = parts[at]!
  const v = parts[at + 1]!
  parts[at] = u * cosine - v * sine
  parts[at + 1] = u * sine + v * cosine
}

/** Makes the three axes of a part perpendicular unit vectors again. */
function straighten(parts: Float64Array, at: number): void {
  const a = at + AXIS_0
  const b = at + AXIS_1
  const c = at + AXIS_2
  normalise(parts, a)
  const along = parts[a]! * parts[b]! + parts[a + 1]! * parts[b + 1]! + parts[a + 2]! * parts[b + 2]!
  for (let i = 0; i < 3; i++) parts[b + i]! -= along * parts[a + i]!
  normalise(parts, b)
  parts[c] = parts[a + 1]! * parts[b + 2]! - parts[a + 2]! * parts[b + 1]!
  parts[c + 1] = parts[a + 2]! * parts[b]! - parts[a]! * parts[b + 2]!
  parts[c + 2] = parts[a]! * parts[b + 1]! - parts[a + 1]! * parts[b]!
}

function normalise(parts: Float64Array, at: number): void {
  const length = Math.sqrt(parts[at]! ** 2 + parts[at + 1]! ** 2 + parts[at + 2]! ** 2)
  for (let i = 0; i < 3; i++) parts[at + i]! /= length
}

/** Half the extent of the rounded box at `at` along the direction (mx, my, mz), times that direction's length. */
export function supportAlong(parts: Float64Array, at: number, mx: number, my: number, mz: number): Metres {
  let sum = parts[at + ROUNDING]! * Math.sqrt(mx * mx + my * my + mz * mz)
  for (let i = 0; i < 3; i++) {
    const axis = at + AXIS_0 + 3 * i
    const along = mx * parts[axis]! + my * parts[axis + 1]! + mz * parts[axis + 2]!
    sum += parts[at + HALF_SIZE + i]! * Math.abs(along)
  }
  return sum
}
