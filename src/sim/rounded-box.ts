import * as boxColumns from "./box-record.ts"
import { AXIS_0, AXIS_1, AXIS_2, CENTRE, HALF_SIZE, ROUNDING } from "./parts.ts"
import { distanceInPlane } from "./planar-distance.ts"
import { distanceInSpace } from "./swept-disc.ts"
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
  DISC_HALF,
  DISC_RADIUS,
  PATH_ROW,
  START_C,
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
  PLANE_X,
  PLANE_Y,
  PLANE_A,
  PLANE_B,
  PLANE_TILT,
  PLANE_NEAREST,
  PATH_LONG,
  PATH_MIDDLE,
  PATH_REACH,
  START_C,
} = boxColumns

/**
 * Clearance between a puck on a straight path and one rounded box, exact to 40 nanometres.
 *
 *   path       q(s) = q + s w, in the box's own axes, s in [least, most]
 *   puck       the level disc of radius R and half thickness H about q(s), its axis u the vertical
 *   clearance  (least distance of the disc from the core box, over s) - rounding
 *
 * Seen along the path all of it is flat. In the plane square to w, with a level and b upward in it, the core box is the
 * sum of three segments h_i (a_i, b_i), the disc's thickness one upright, the disc itself an ellipse of half axes R and
 * R |sin(slope)|, and the path a point: `planar-distance.ts`. Only where the closest approach lies beyond an end of the
 * path is the distance sought in space: `swept-disc.ts`.
 *
 * Everything goes in and out through one flat record: arguments and results of a function too large to inline would
 * be boxed on every call.
 */

/** Squared sine of the angle between path and vertical under which the path counts as upright. */
const UPRIGHT = 1e-16
/** Squared sine of a slope under which the path counts as level: the disc then shows 40 nanometres at most. */
const LEVEL = 1e-12
/** Squared sine of the angle between path and edge under which the edge shows nothing. */
const EDGE_ON = 1e-22

/**
 * Fills CLEARANCE of a record: metres between disc and box, less than zero where they overlap, and there no deeper than
 * minus the rounding.
 */
export function solveClearance(box: Float64Array): void {
  box[START_C] = Number.NaN
  solveRow(box, box)
}

/** The same for the path in `row`, with everything else from the record; the search starts where the last one ended. */
export function solveRow(box: Float64Array, row: Float64Array): void {
  seeAlong(box, row)
  distanceInPlane(box)
  const middle = box[PATH_MIDDLE]!
  const reach = box[PATH_REACH]!
  if (middle - reach < box[BOX_LEAST]! || middle + reach > box[BOX_MOST]!) distanceInSpace(box, row)
  box[CLEARANCE] = box[PLANE_NEAREST]! - box[BOX_ROUNDING]!
}

/** Fills the scratch of a record with what the path in `row` shows: all but the distance. */
export function seeAlong(box: Float64Array, row: Float64Array): void {
  const q0 = row[BOX_Q]!
  const q1 = row[BOX_Q + 1]!
  const q2 = row[BOX_Q + 2]!
  const w0 = row[BOX_W]!
  const w1 = row[BOX_W + 1]!
  const w2 = row[BOX_W + 2]!
  const u0 = row[BOX_UP]!
  const u1 = row[BOX_UP + 1]!
  const u2 = row[BOX_UP + 2]!
  const h0 = box[BOX_H]!
  const h1 = box[BOX_H + 1]!
  const h2 = box[BOX_H + 2]!
  const long = w0 * w0 + w1 * w1 + w2 * w2
  const rise = u0 * w0 + u1 * w1 + u2 * w2
  const both = long * (u0 * u0 + u1 * u1 + u2 * u2)
  // a across the path and level, b square to both
  let a0 = u1 * w2 - u2 * w1
  let a1 = u2 * w0 - u0 * w2
  let a2 = u0 * w1 - u1 * w0
  let across = a0 * a0 + a1 * a1 + a2 * a2
  if (across <= UPRIGHT * both) {
    // any direction across will do
    a0 = w1 - w2
    a1 = w2 - w0
    a2 = w0 - w1
    across = a0 * a0 + a1 * a1 + a2 * a2
  }
  const unit = 1 / Math.sqrt(across)
  a0 *= unit
  a1 *= unit
  a2 *= unit
  const pace = 1 / Math.sqrt(long)
  let b0 = (w1 * a2 - w2 * a1) * pace
  let b1 = (w2 * a0 - w0 * a2) * pace
  let b2 = (w0 * a1 - w1 * a0) * pace
  // an edge along the path shows nothing, not even rounding
  if (a0 * a0 + b0 * b0 < EDGE_ON) a0 = b0 = 0
  if (a1 * a1 + b1 * b1 < EDGE_ON) a1 = b1 = 0
  if (a2 * a2 + b2 * b2 < EDGE_ON) a2 = b2 = 0
  let tilt = (rise * rise) / both
  if (tilt < LEVEL) tilt = 0
  box[PLANE_X] = q0 * a0 + q1 * a1 + q2 * a2
  box[PLANE_Y] = q0 * b0 + q1 * b1 + q2 * b2
  box[PLANE_A] = h0 * a0
  box[PLANE_A + 1] = h1 * a1
  box[PLANE_A + 2] = h2 * a2
  box[PLANE_B] = h0 * b0
  box[PLANE_B + 1] = h1 * b1
  box[PLANE_B + 2] = h2 * b2
  box[PLANE_A + 3] = 0
  box[PLANE_B + 3] = box[DISC_HALF]! * Math.sqrt(tilt < 1 ? 1 - tilt : 0)
  box[PLANE_TILT] = tilt

  // as far as anything of box and disc lies along the path
  const along = h0 * Math.abs(w0) + h1 * Math.abs(w1) + h2 * Math.abs(w2)
  box[PATH_LONG] = long
  box[PATH_MIDDLE] = -(q0 * w0 + q1 * w1 + q2 * w2) / long
  box[PATH_REACH] = along / long + (box[DISC_RADIUS]! + box[DISC_HALF]!) / Math.sqrt(long)
}

/**
 * Clearance of the path p + s w (s in [least, most], same frame as the table) from the part at `at` of a part table;
 * the convenient form. `discRadius` and `discHalf` are the level disc's radius and half thickness (0 and 0: a ray of
 * light). `box` receives CLEARANCE.
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
