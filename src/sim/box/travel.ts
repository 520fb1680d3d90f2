import { reachTime } from "../limb.ts"
import {
  GREATEST_V,
  LAG,
  LEAST_V,
  LIMB_STRIDE,
  LIMBS,
  type Limb,
  LONGEST_REACH,
  PART_STRIDE,
  type Posture,
  ROOT_LENGTH,
} from "../parts.ts"
import { BOX_RECORD, CLEARANCE, clearancePath } from "../rounded-box.ts"
import type { Metres, Probability, Radians, Seconds } from "../units.ts"
import { keyPhase, type PlacedBody } from "./placed.ts"
import type { Sight } from "./sight.ts"

/** The limb that closes a place of the mouth soonest, how far its gear has to move, and how long that takes. */
export interface Closing {
  readonly limb: Limb | "none"
  /** Infinity when no limb gets there. */
  readonly travel: Metres
  /** From the start of the hands' clock, lag included. */
  readonly time: Seconds
}

/** Where a posture stands: skates' midpoint, heading, drop phase. */
export interface Standing {
  readonly gx: Metres
  readonly gy: Metres
  readonly heading: Radians
  readonly phase: Probability
}

/**
 * Limb that closes the straight path of the puck to (0, y, z) soonest from where the posture holds it. A limb's gear is
 * moved without turning, straight to the path, to a place its side, its root and its reach allow; the way is the
 * clearance of the path from the gear. `body` is the posture placed at `standing`.
 */
export function closePlace(
  posture: Posture,
  body: PlacedBody,
  standing: Standing,
  puck: Sight,
  y: Metres,
  z: Metres,
): Closing {
  let best: Closing = { limb: "none", travel: Number.POSITIVE_INFINITY, time: Number.POSITIVE_INFINITY }
  for (const [index, limb] of LIMBS.entries()) {
    const travel = limbTravel(posture, body, standing, puck, y, z, index)
    if (travel > posture.limbs[index * LIMB_STRIDE + LONGEST_REACH]!) continue
    const row = index * LIMB_STRIDE
    const time = posture.limbs[row + LAG]! + reachTime(posture.limbs, row, travel)
    if (time < best.time) best = { limb, travel, time }
  }
  return best
}

/** Way the limb's gear has to move to touch the puck's path where the limb may go; Infinity when it may not go there. */
function limbTravel(
  posture: Posture,
  body: PlacedBody,
  standing: Standing,
  puck: Sight,
  y: Metres,
  z: Metres,
  limb: number,
): Metres {
  const [least, most] = allowedPath(posture, standing, puck, y, z, limb)
  if (least > most) return Number.POSITIVE_INFINITY
  const { px, py, pz } = puck
  const box = new Float64Array(BOX_RECORD)
  let travel = Number.POSITIVE_INFINITY
  for (let part = 0; part < body.count; part++) {
    if (body.carrier[part] !== limb) continue
    const at = part * PART_STRIDE
    clearancePath(body.parts, at, px, py, pz, -px, y - py, z - pz, least, most, puck.discRadius, puck.discHalf, box)
    travel = Math.min(travel, Math.max(0, box[CLEARANCE]!))
  }
  return travel
}

/** Stretch of the path, as shares of it, that the limb's side and root allow; the first is greater when there is none. */
function allowedPath(
  posture: Posture,
  standing: Standing,
  puck: Sight,
  y: Metres,
  z: Metres,
  limb: number,
): [number, number] {
  const { limbs } = posture
  const row = limb * LIMB_STRIDE
  // path in the goalie's frame: release and way
  const c = Math.cos(standing.heading)
  const s = Math.sin(standing.heading)
  const p = [
    c * (puck.px - standing.gx) + s * (puck.py - standing.gy),
    c * (puck.py - standing.gy) - s * (puck.px - standing.gx),
    puck.pz,
  ]
  const w = [-c * puck.px + s * (y - puck.py), s * puck.px + c * (y - puck.py), z - puck.pz]
  const beside = between(p[1]!, w[1]!, limbs[row + LEAST_V]!, limbs[row + GREATEST_V]!)
  const within = insideBall(p, w, rootOf(posture, standing.phase, limb), limbs[row + ROOT_LENGTH]!)
  return [Math.max(beside[0], within[0]), Math.min(beside[1], within[1])]
}

/** Shares of the path [0, 1] on which q + s w lies between two numbers. */
function between(q: number, w: number, low: number, high: number): [number, number] {
  if (w === 0) return q >= low && q <= high ? [0, 1] : [1, 0]
  const a = (low - q) / w
  const b = (high - q) / w
  return [Math.max(0, Math.min(a, b)), Math.min(1, Math.max(a, b))]
}

/** Shares of the path [0, 1] within `radius` of a point. */
function insideBall(
  p: readonly number[],
  w: readonly number[],
  centre: readonly number[],
  radius: number,
): [number, number] {
  if (radius === Number.POSITIVE_INFINITY) return [0, 1]
  let a = 0
  let b = 0
  let c = -radius * radius
  for (let i = 0; i < 3; i++) {
    const d = p[i]! - centre[i]!
    a += w[i]! * w[i]!
    b += d * w[i]!
    c += d * d
  }
  const under = b * b - a * c
  if (under < 0) return [1, 0]
  const root = Math.sqrt(under)
  return [Math.max(0, (-b - root) / a), Math.min(1, (-b + root) / a)]
}

function rootOf(posture: Posture, phase: Probability, limb: number): number[] {
  const [earlier, share] = keyPhase(posture.phases, phase)
  const later = Math.min(earlier + 1, posture.phases - 1)
  return [0, 1, 2].map((i) => {
    const from = posture.roots[(earlier * LIMBS.length + limb) * 3 + i]!
    return from + share * (posture.roots[(later * LIMBS.length + limb) * 3 + i]! - from)
  })
}
