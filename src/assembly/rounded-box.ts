import {
  DISC_HALF,
  DISC_RADIUS,
  HAND,
  HAND_ACROSS,
  HAND_UP,
  MET_LEAST,
  MET_MOST,
  PART_ROUNDING,
  PART_SIZES,
} from "../sim/compiled/layout.ts"
import { distanceInPlane } from "./planar-distance.ts"
import { distanceInSpace, setRecord } from "./swept-disc.ts"
import { NUMBER } from "./tables.ts"

/** The same as in sim/rounded-box.ts. */
const UPRIGHT: f64 = 1e-16
const LEVEL: f64 = 1e-12
const EDGE_ON: f64 = 1e-22
/** Bytes of two numbers side by side. */
const PAIR = 2 * NUMBER

/**
 * Clearance of a path from a rounded box, see sim/rounded-box.ts: in the box's axes, the first two side by side. `third`
 * holds q and w along the third. The search starts where the one before ended.
 */
export function solveRow(part: usize, met: usize, q: v128, w: v128, third: v128, up: v128, u2: f64): f64 {
  const q0 = f64x2.extract_lane(q, 0)
  const q1 = f64x2.extract_lane(q, 1)
  const q2 = f64x2.extract_lane(third, 0)
  const w0 = f64x2.extract_lane(w, 0)
  const w1 = f64x2.extract_lane(w, 1)
  const w2 = f64x2.extract_lane(third, 1)
  const u0 = f64x2.extract_lane(up, 0)
  const u1 = f64x2.extract_lane(up, 1)
  const h0 = load<f64>(part, PART_SIZES)
  const h1 = load<f64>(part, PART_SIZES + NUMBER)
  const h2 = load<f64>(part, PART_SIZES + 2 * NUMBER)
  const half = load<f64>(DISC_HALF)
  const long = w0 * w0 + w1 * w1 + w2 * w2
  const rise = u0 * w0 + u1 * w1 + u2 * w2
  const both = long * (u0 * u0 + u1 * u1 + u2 * u2)
  // a across the path and level, b square to both
  let a0 = u1 * w2 - u2 * w1
  let a1 = u2 * w0 - u0 * w2
  let a2 = u0 * w1 - u1 * w0
  let across = a0 * a0 + a1 * a1 + a2 * a2
  if (across <= UPRIGHT * both) {
    a0 = w1 - w2
    a1 = w2 - w0
    a2 = w0 - w1
    across = a0 * a0 + a1 * a1 + a2 * a2
  }
  const unit = 1 / sqrt(across)
  a0 *= unit
  a1 *= unit
  a2 *= unit
  const pace = 1 / sqrt(long)
  let b0 = (w1 * a2 - w2 * a1) * pace
  let b1 = (w2 * a0 - w0 * a2) * pace
  let b2 = (w0 * a1 - w1 * a0) * pace
  if (a0 * a0 + b0 * b0 < EDGE_ON) a0 = b0 = 0
  if (a1 * a1 + b1 * b1 < EDGE_ON) a1 = b1 = 0
  if (a2 * a2 + b2 * b2 < EDGE_ON) a2 = b2 = 0
  let tilt = (rise * rise) / both
  if (tilt < LEVEL) tilt = 0
  v128.store(HAND + HAND_ACROSS, f64x2(h0 * a0, h1 * a1))
  v128.store(HAND + HAND_ACROSS, f64x2(h2 * a2, 0), PAIR)
  v128.store(HAND + HAND_UP, f64x2(h0 * b0, h1 * b1))
  v128.store(HAND + HAND_UP, f64x2(h2 * b2, half * sqrt(tilt < 1 ? 1 - tilt : 0)), PAIR)
  const x = q0 * a0 + q1 * a1 + q2 * a2
  const y = q0 * b0 + q1 * b1 + q2 * b2
  let nearest = distanceInPlane(x, y, tilt)

  // as far as anything of box and disc lies along the path
  const least = load<f64>(met, MET_LEAST)
  const most = load<f64>(met, MET_MOST)
  const middle = -(q0 * w0 + q1 * w1 + q2 * w2) / long
  const along = h0 * abs(w0) + h1 * abs(w1) + h2 * abs(w2)
  const reach = along / long + (load<f64>(DISC_RADIUS) + half) / sqrt(long)
  if (middle - reach < least || middle + reach > most) {
    setRecord(q0, q1, q2, w0, w1, w2, u0, u1, u2, h0, h1, h2)
    nearest = distanceInSpace(nearest, x, y, tilt, long, middle, least, most)
  }
  return nearest - load<f64>(part, PART_ROUNDING)
}
