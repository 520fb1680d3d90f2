import { AXIS_0, AXIS_1, AXIS_2, CENTRE, HALF_SIZE, ROUNDING } from "./parts.ts"
import type { Metres } from "./units.ts"

/**
 * Clearance between a straight path of the puck and one rounded box.
 *
 *   path      p(s) = p0 + s w,  s in [least, most]
 *   excess    e_i(s) = q_i(s) - clamp(q_i(s), -h_i, h_i),  q_i = (p(s) - c) . a_i
 *   closest   minimise |e(s)|^2: convex in s, its slope sum e_i w_i is piecewise linear and never falls
 *   touch     |e| <= rounding + R sqrt(nx^2 + ny^2) + H |nz|,  n = e / |e|
 *
 * The last line takes the puck as what it is, a level disc of radius R and half thickness H: its support along the
 * direction of closest approach. It is exact wherever the core box shows the puck a face or a straight edge.
 *
 * Results go to `out` because a function too large to inline would box a returned number on every call.
 */

/** Columns of the result. */
export const CLEARANCE = 0 // m; zero or less means the puck touches
export const CLOSEST_AT = 1 // s of the closest approach
export const CLOSEST_RESULT = 2

/** Newton steps needed: at most six kinks, each passed at most twice; two or three are usual. */
const MOST_STEPS = 24

/**
 * Clearance of the path p0 + s w (s in [least, most], same frame as the table) from the rounded box at `at`.
 * `discRadius` and `discHalf` are the level disc's radius and half thickness (0 and 0: a ray of light).
 * Inside the core the clearance is minus (rounding + discHalf): a lower bound of how deep.
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
  out: Float64Array,
): void {
  // path in the box's own axes
  const dx = px - parts[at + CENTRE]!
  const dy = py - parts[at + CENTRE + 1]!
  const dz = pz - parts[at + CENTRE + 2]!
  const a0x = parts[at + AXIS_0]!
  const a0y = parts[at + AXIS_0 + 1]!
  const a0z = parts[at + AXIS_0 + 2]!
  const a1x = parts[at + AXIS_1]!
  const a1y = parts[at + AXIS_1 + 1]!
  const a1z = parts[at + AXIS_1 + 2]!
  const a2x = parts[at + AXIS_2]!
  const a2y = parts[at + AXIS_2 + 1]!
  const a2z = parts[at + AXIS_2 + 2]!
  const q0 = dx * a0x + dy * a0y + dz * a0z
  const q1 = dx * a1x + dy * a1y + dz * a1z
  const q2 = dx * a2x + dy * a2y + dz * a2z
  const w0 = wx * a0x + wy * a0y + wz * a0z
  const w1 = wx * a1x + wy * a1y + wz * a1z
  const w2 = wx * a2x + wy * a2y + wz * a2z
  const h0 = parts[at + HALF_SIZE]!
  const h1 = parts[at + HALF_SIZE + 1]!
  const h2 = parts[at + HALF_SIZE + 2]!

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

  const squared = e0 * e0 + e1 * e1 + e2 * e2
  if (squared === 0) {
    out[CLEARANCE] = -(parts[at + ROUNDING]! + discHalf)
    out[CLOSEST_AT] = s
    return
  }
  // support of the level disc along the direction of closest approach
  const distance = Math.sqrt(squared)
  let nz = (e0 * a0z + e1 * a1z + e2 * a2z) / distance
  if (nz < 0) nz = -nz
  const level = nz < 1 ? Math.sqrt(1 - nz * nz) : 0
  out[CLEARANCE] = distance - parts[at + ROUNDING]! - discRadius * level - discHalf * nz
  out[CLOSEST_AT] = s
}
