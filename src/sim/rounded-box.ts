import * as boxColumns from "./box-record.ts"
import { AXIS_0, AXIS_1, AXIS_2, CENTRE, HALF_SIZE, ROUNDING } from "./parts.ts"
import type { Metres } from "./units.ts"

export {
  BOX_H,
  BOX_LEAST,
  BOX_MOST,
  BOX_Q,
  BOX_RECORD,
  BOX_ROUNDING,
  BOX_UP,
  BOX_W,
  CLEARANCE,
  CLOSEST_AT,
  DISC_HALF,
  DISC_RADIUS,
  PATH_ROW,
} from "./box-record.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const {
  BOX_Q,
  BOX_W,
  BOX_UP,
  BOX_H,
  BOX_ROUNDING,
  BOX_LEAST,
  BOX_MOST,
  DISC_RADIUS,
  DISC_HALF,
  CLEARANCE,
  CLOSEST_AT,
} = boxColumns

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

/** Squared distance, m², under which the path counts as passing through the core (a micrometre: no direction left). */
const THROUGH_CORE = 1e-12
/** Newton steps at most: six kinks, each passed at most twice; two or three are usual. */
const MOST_STEPS = 24
/** A step shorter than this share of a unit of s is none. */
const NO_STEP = 1e-12

/**
 * Fills CLEARANCE and CLOSEST_AT of a record. Through the core the clearance is minus (rounding + disc half
 * thickness): a lower bound of how deep.
 */
export function solveClearance(box: Float64Array): void {
  const w0 = box[BOX_W]!
  const w1 = box[BOX_W + 1]!
  const w2 = box[BOX_W + 2]!
  // start nearest the box's centre
  box[CLOSEST_AT] = -(box[BOX_Q]! * w0 + box[BOX_Q + 1]! * w1 + box[BOX_Q + 2]! * w2) / (w0 * w0 + w1 * w1 + w2 * w2)
  solveRow(box, box)
}

/**
 * The same for the path in `row`, with everything else from the record; the search starts at the record's CLOSEST_AT.
 */
export function solveRow(box: Float64Array, row: Float64Array): void {
  const q0 = row[0]!
  const q1 = row[1]!
  const q2 = row[2]!
  const w0 = row[3]!
  const w1 = row[4]!
  const w2 = row[5]!
  const h0 = box[BOX_H]!
  const h1 = box[BOX_H + 1]!
  const h2 = box[BOX_H + 2]!
  const least = box[BOX_LEAST]!
  const most = box[BOX_MOST]!
  let s = box[CLOSEST_AT]!
  if (s < least) s = least
  else if (s > most) s = most

  // Newton on the piecewise linear slope, kept inside a bracket
  let low = least - 1
  let high = most + 1
  let e0 = 0
  let e1 = 0
  let e2 = 0
  for (let step = 0; step < MOST_STEPS; step++) {
    // excess over each pair of faces, the slope it makes and how fast that grows
    let slope = 0
    let curvature = 0
    const r0 = q0 + s * w0
    e0 = r0 > h0 ? r0 - h0 : r0 < -h0 ? r0 + h0 : 0
    if (e0 !== 0) {
      slope = e0 * w0
      curvature = w0 * w0
    }
    const r1 = q1 + s * w1
    e1 = r1 > h1 ? r1 - h1 : r1 < -h1 ? r1 + h1 : 0
    if (e1 !== 0) {
      slope += e1 * w1
      curvature += w1 * w1
    }
    const r2 = q2 + s * w2
    e2 = r2 > h2 ? r2 - h2 : r2 < -h2 ? r2 + h2 : 0
    if (e2 !== 0) {
      slope += e2 * w2
      curvature += w2 * w2
    }
    // at the lowest point, or inside the core
    if (slope <= NO_STEP * curvature && slope >= -NO_STEP * curvature) break
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
    if (next <= low || next >= high) next = 0.5 * (low + high) // Newton would cycle between two kinks
    s = next
  }

  box[CLOSEST_AT] = s
  const squared = e0 * e0 + e1 * e1 + e2 * e2
  if (squared < THROUGH_CORE) {
    box[CLEARANCE] = -(box[BOX_ROUNDING]! + box[DISC_HALF]!)
    return
  }
  // support of the level disc along the direction of closest approach, times the distance
  let up = e0 * row[6]! + e1 * row[7]! + e2 * row[8]!
  if (up < 0) up = -up
  const level = squared - up * up
  const distance = Math.sqrt(squared)
  const support = box[DISC_RADIUS]! * Math.sqrt(level > 0 ? level : 0) + box[DISC_HALF]! * up
  box[CLEARANCE] = distance - box[BOX_ROUNDING]! - support / distance
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
