import { AXIS_0, AXIS_1, AXIS_2, CENTRE, HALF_SIZE, ROUNDING } from "./parts.ts"
import type { Metres } from "./units.ts"

/**
 * Clearance between a straight path of the puck and one rounded box.
 *
 *   path      q(s) = q + s w, in the box's own axes, s in [least, most]
 *   excess    e_i(s) = q_i(s) - clamp(q_i(s), -h_i, h_i)
 *   closest   minimise |e(s)|^2: convex in s, its slope sum e_i w_i is piecewise linear and never falls
 *   touch     |e| <= rounding + R sqrt(nx^2 + ny^2) + H |nz|,  n = e / |e|
 *
 * The last line takes the puck as what it is, a level disc of radius R and half thickness H: its support along the
 * direction of closest approach. It is exact wherever the core box shows the puck a face or a straight edge.
 *
 * Everything goes in and out through one flat record: arguments and results of a function too large to inline would
 * be boxed on every call.
 */

/** Columns of the record. In: path in the box's axes, box, share of each axis that is vertical, range, disc. */
export const BOX_Q = 0 // q, m
export const BOX_W = 3 // w, m per unit of s
export const BOX_H = 6 // half-sizes, m
export const BOX_ROUNDING = 9
export const BOX_UP = 10 // z component of each axis in the frame where the disc is level
export const BOX_LEAST = 13
export const BOX_MOST = 14
export const DISC_RADIUS = 15
export const DISC_HALF = 16
/** Out: clearance in metres, zero or less where the puck touches; and s of the closest approach. */
export const CLEARANCE = 17
export const CLOSEST_AT = 18
export const BOX_RECORD = 19

/** Squared distance, m², under which the path counts as passing through the core (a micrometre: no direction left). */
const THROUGH_CORE = 1e-12
/** Newton steps at most: six kinks, each passed at most twice; two or three are usual. */
const MOST_STEPS = 24

/**
 * Fills CLEARANCE and CLOSEST_AT of a record. Through the core the clearance is minus (rounding + disc half
 * thickness): a lower bound of how deep.
 */
export function solveClearance(box: Float64Array): void {
  const q0 = box[BOX_Q]!
  const q1 = box[BOX_Q + 1]!
  const q2 = box[BOX_Q + 2]!
  const w0 = box[BOX_W]!
  const w1 = box[BOX_W + 1]!
  const w2 = box[BOX_W + 2]!
  const h0 = box[BOX_H]!
  const h1 = box[BOX_H + 1]!
  const h2 = box[BOX_H + 2]!
  const least = box[BOX_LEAST]!
  const most = box[BOX_MOST]!

  // start nearest the box's centre
  let s = -(q0 * w0 + q1 * w1 + q2 * w2) / (w0 * w0 + w1 * w1 + w2 * w2)
  if (s < least) s = least
  else if (s > most) s = most

  // Newton on the piecewise linear slope, kept inside a bracket
  let low = least - 1
  let high = most + 1
  let e0 = 0
  let e1 = 0
  let e2 = 0
  for (let step = 0; step < MOST_STEPS; step++) {
    const r0 = q0 + s * w0
    const r1 = q1 + s * w1
    const r2 = q2 + s * w2
    e0 = r0 > h0 ? r0 - h0 : r0 < -h0 ? r0 + h0 : 0
    e1 = r1 > h1 ? r1 - h1 : r1 < -h1 ? r1 + h1 : 0
    e2 = r2 > h2 ? r2 - h2 : r2 < -h2 ? r2 + h2 : 0
    const slope = e0 * w0 + e1 * w1 + e2 * w2
    const curvature = (e0 === 0 ? 0 : w0 * w0) + (e1 === 0 ? 0 : w1 * w1) + (e2 === 0 ? 0 : w2 * w2)
    if (curvature === 0) break // inside the core
    if (slope > 0) {
      if (s === least) break
      high = s
    } else {
      if (s === most) break
      low = s
    }
    let next = s - slope / curvature
    if (next < least) next = least
    else if (next > most) next = most
    const change = next - s
    if (change < 1e-12 && change > -1e-12) break
    if (next <= low || next >= high) next = 0.5 * (low + high) // Newton would cycle between two kinks
    s = next
  }

  box[CLOSEST_AT] = s
  const squared = e0 * e0 + e1 * e1 + e2 * e2
  if (squared < THROUGH_CORE) {
    box[CLEARANCE] = -(box[BOX_ROUNDING]! + box[DISC_HALF]!)
    return
  }
  // support of the level disc along the direction of closest approach
  const distance = Math.sqrt(squared)
  let up = (e0 * box[BOX_UP]! + e1 * box[BOX_UP + 1]! + e2 * box[BOX_UP + 2]!) / distance
  if (up < 0) up = -up
  const level = up < 1 ? Math.sqrt(1 - up * up) : 0
  box[CLEARANCE] = distance - box[BOX_ROUNDING]! - box[DISC_RADIUS]! * level - box[DISC_HALF]! * up
}

/**
 * Clearance of the path p + s w (s in [least, most], same frame as the table) from the part at `at` of a part table;
 * the convenient form. `discRadius` and `discHalf` are the level disc's radius and half thickness (0 and 0: a ray of
 * light). `box` receives CLEARANCE and CLOSEST_AT.
 */
export function clearancePath(
  parts: Float64Array,
  at: number,
  px: Metres,
  py: Metres,
  pz: Metres,
  wx: number,
  wy: number,
  wz: number,
  least: number,
  most: number,
  discRadius: Metres,
  discHalf: Metres,
  box: Float64Array,
): void {
  const dx = px - parts[at + CENTRE]!
  const dy = py - parts[at + CENTRE + 1]!
  const dz = pz - parts[at + CENTRE + 2]!
  for (let i = 0; i < 3; i++) {
    const axis = at + (i === 0 ? AXIS_0 : i === 1 ? AXIS_1 : AXIS_2)
    const ax = parts[axis]!
    const ay = parts[axis + 1]!
    const az = parts[axis + 2]!
    box[BOX_Q + i] = dx * ax + dy * ay + dz * az
    box[BOX_W + i] = wx * ax + wy * ay + wz * az
    box[BOX_H + i] = parts[at + HALF_SIZE + i]!
    box[BOX_UP + i] = az
  }
  box[BOX_ROUNDING] = parts[at + ROUNDING]!
  box[BOX_LEAST] = least
  box[BOX_MOST] = most
  box[DISC_RADIUS] = discRadius
  box[DISC_HALF] = discHalf
  solveClearance(box)
}
