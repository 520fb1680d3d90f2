import {
  DISC_HALF,
  DISC_RADIUS,
  HAND,
  HAND_CLOSEST,
  MET_LEAST,
  MET_MOST,
  PART_ROUNDING,
  PART_SIZES,
} from "../sim/compiled/layout.ts"
import { NUMBER } from "./tables.ts"

/** The same as in sim/rounded-box.ts. */
const THROUGH_CORE: f64 = 1e-12
const MOST_STEPS: i32 = 24
const NO_STEP: f64 = 1e-12

/**
 * Clearance of a path from a rounded box, see sim/rounded-box.ts: in the box's axes, the first two side by side. `third`
 * holds q and w along the third. The search starts where the one before ended.
 */
export function solveRow(part: usize, met: usize, q: v128, w: v128, third: v128, up: v128, up2: f64): f64 {
  const h = v128.load(part, PART_SIZES)
  const h2 = v128.load64_zero(part, PART_SIZES + 2 * NUMBER)
  const minus = f64x2.neg(h)
  const minus2 = f64x2.neg(h2)
  const q2 = third
  const w2 = v128.shuffle<f64>(third, third, 1, 1)
  const steep = f64x2.mul(w, w)
  const steep2 = f64x2.mul(w2, w2)
  const least = load<f64>(met, MET_LEAST)
  const most = load<f64>(met, MET_MOST)
  let s = load<f64>(HAND + HAND_CLOSEST)
  if (s < least) s = least
  else if (s > most) s = most

  // Newton on the piecewise linear slope, kept inside a bracket
  let low = least - 1
  let high = most + 1
  let e = f64x2.splat(0)
  let e2 = e
  for (let step = 0; step < MOST_STEPS; step++) {
    // excess over each pair of faces, the slope it makes and how fast that grows
    const at = f64x2.splat(s)
    const r = f64x2.add(q, f64x2.mul(at, w))
    const r2 = f64x2.add(q2, f64x2.mul(at, w2))
    e = f64x2.sub(r, f64x2.pmax(f64x2.pmin(r, h), minus))
    e2 = f64x2.sub(r2, f64x2.pmax(f64x2.pmin(r2, h2), minus2))
    const zero = f64x2.splat(0)
    const slopes = f64x2.mul(e, w)
    const slopes2 = f64x2.mul(e2, w2)
    const grows = v128.and(steep, f64x2.ne(e, zero))
    const grows2 = v128.and(steep2, f64x2.ne(e2, zero))
    const first = v128.shuffle<f64>(slopes, grows, 0, 2)
    const second = v128.shuffle<f64>(slopes, grows, 1, 3)
    const last = v128.shuffle<f64>(slopes2, grows2, 0, 2)
    const sums = f64x2.add(f64x2.add(first, second), last)
    const slope = f64x2.extract_lane(sums, 0)
    const curvature = f64x2.extract_lane(sums, 1)
    // at the lowest point, or inside the core
    if (abs(slope) <= NO_STEP * curvature) break
    if (slope > 0) {
      if (s == least) break
      high = s
    } else {
      if (s == most) break
      low = s
    }
    let next = s - slope / curvature
    if (next < least) next = least
    else if (next > most) next = most
    if (next <= low || next >= high) next = 0.5 * (low + high) // Newton would cycle between two kinks
    s = next
  }
  store<f64>(HAND + HAND_CLOSEST, s)
  return clearanceOf(part, e, e2, up, up2)
}

/** Support of the level disc along the direction of closest approach, times the distance. */
// @ts-ignore: decorator
@inline
function clearanceOf(part: usize, e: v128, e2: v128, up: v128, up2: f64): f64 {
  const half = load<f64>(DISC_HALF)
  const rounding = load<f64>(part, PART_ROUNDING)
  const squares = f64x2.mul(e, e)
  const rest = f64x2.extract_lane(e2, 0)
  const squared = f64x2.extract_lane(squares, 0) + f64x2.extract_lane(squares, 1) + rest * rest
  if (squared < THROUGH_CORE) return -(rounding + half)
  const ups = f64x2.mul(e, up)
  const raised = abs(f64x2.extract_lane(ups, 0) + f64x2.extract_lane(ups, 1) + rest * up2)
  const level = squared - raised * raised
  const distance = sqrt(squared)
  const support = load<f64>(DISC_RADIUS) * sqrt(level > 0 ? level : 0) + half * raised
  return distance - rounding - support / distance
}
