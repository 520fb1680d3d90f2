import { AXIS_0, CENTRE, HALF_SIZE, PART_STRIDE, ROUNDING } from "../parts.ts"
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
  CLOSEST_AT,
  DISC_HALF,
  DISC_RADIUS,
  solveClearance,
} from "../rounded-box.ts"
import type { Metres } from "../units.ts"
import { supportAlong } from "./placed.ts"
import type { Sight } from "./sight.ts"

/**
 * Shadow of a part on one level row of the goal plane: the y from which the straight line to the puck meets the part.
 *
 *   line      P + s (T - P), T = (0, y, z), s in [0, 1]: what stands behind the goal line hides nothing
 *   c(y)      clearance of that line from the part (light, or the level disc)
 *   shadow    { y : c(y) <= 0 }, one interval, since a convex part seen from one point is convex
 *
 * A row is met at all only if the plane through the puck and the row meets the part: an exact, cheap test. Then the
 * sideways sign of the closest approach leads to a covered point, and each end is a root of c found to 1e-12 m.
 */

/** Width to which the ends of a shadow are found, m. */
const END_TOLERANCE = 5e-13
/** Coordinates of some metres are known to this, m. */
const ROUND_OFF = 5e-15
const MOST_STEPS = 100

/** One part before one row, for {@link solveClearance}: its record, then the path's direction at y = 0 and its change. */
const ROW_W = BOX_RECORD
const ROW_SIDE = BOX_RECORD + 3
const ROW_RECORD = BOX_RECORD + 6

/** Scratch for the rows of one puck. */
export function rowRecord(sight: Sight): Float64Array {
  const row = new Float64Array(ROW_RECORD)
  row[BOX_LEAST] = 0
  row[BOX_MOST] = 1
  row[DISC_RADIUS] = sight.discRadius
  row[DISC_HALF] = sight.discHalf
  return row
}

/**
 * Shadow of the part at `at` on the row z of the goal plane, cut to [low, high]; from and to go to `out`.
 * False when there is none.
 */
export function shadowOnRow(
  sight: Sight,
  parts: Float64Array,
  at: number,
  z: Metres,
  low: Metres,
  high: Metres,
  out: Float64Array,
  row: Float64Array = rowRecord(sight),
): boolean {
  if (!planeMeets(sight, parts, at, z)) return false
  setRow(sight, parts, at, z, row)
  const inside = coveredPoint(sight, parts, at, low, high, row)
  if (Number.isNaN(inside)) return false
  out[0] = shadowEnd(row, inside, low)
  out[1] = shadowEnd(row, inside, high)
  return true
}

/** Height of the part above the plane through the puck and row z: positive wholly above, negative wholly below. */
export function abovePlane(sight: Sight, parts: Float64Array, at: number, z: Metres, side: 1 | -1): number {
  const mx = z - sight.pz
  const mz = sight.px
  const centre = mx * (parts[at + CENTRE]! - sight.px) + mz * (parts[at + CENTRE + 2]! - sight.pz)
  const disc = sight.discRadius * Math.abs(mx) + sight.discHalf * mz
  return centre + side * (supportAlong(parts, at, mx, 0, mz) + disc)
}

function planeMeets(sight: Sight, parts: Float64Array, at: number, z: Metres): boolean {
  return abovePlane(sight, parts, at, z, -1) <= 0 && abovePlane(sight, parts, at, z, 1) >= 0
}

/** Puts the puck, the part and the row into the record, in the part's own axes. */
function setRow(sight: Sight, parts: Float64Array, at: number, z: Metres, row: Float64Array): void {
  const dx = sight.px - parts[at + CENTRE]!
  const dy = sight.py - parts[at + CENTRE + 1]!
  const dz = sight.pz - parts[at + CENTRE + 2]!
  for (let i = 0; i < 3; i++) {
    const axis = at + AXIS_0 + 3 * i
    const ax = parts[axis]!
    const ay = parts[axis + 1]!
    const az = parts[axis + 2]!
    row[BOX_Q + i] = dx * ax + dy * ay + dz * az
    row[BOX_H + i] = parts[at + HALF_SIZE + i]!
    row[BOX_UP + i] = az
    row[ROW_W + i] = -sight.px * ax - sight.py * ay + (z - sight.pz) * az
    row[ROW_SIDE + i] = ay
  }
  row[BOX_ROUNDING] = parts[at + ROUNDING]!
}

/** Clearance of the line from the puck to the place y of the row. */
function clearanceAt(row: Float64Array, y: Metres): Metres {
  for (let i = 0; i < 3; i++) row[BOX_W + i] = row[ROW_W + i]! + y * row[ROW_SIDE + i]!
  solveClearance(row)
  if (row[BOX_ROUNDING]! > 0 || row[DISC_HALF]! > 0) return row[CLEARANCE]!
  // a sharp edge of the core bounds the light: keep the last micrometre
  polishClosest(row)
  const gap = Math.hypot(excess(row, 0), excess(row, 1), excess(row, 2))
  return gap > ROUND_OFF ? gap : 0
}

/** One more Newton step of the closest approach: its place must be known far better than the gap that is left. */
function polishClosest(row: Float64Array): void {
  let slope = 0
  let curvature = 0
  for (let i = 0; i < 3; i++) {
    const e = excess(row, i)
    const w = row[BOX_W + i]!
    if (e === 0) continue
    slope += e * w
    curvature += w * w
  }
  if (curvature > 0) row[CLOSEST_AT] = Math.min(1, Math.max(0, row[CLOSEST_AT]! - slope / curvature))
}

/** Way out of the core along its axis i, at the line's closest approach. */
function excess(row: Float64Array, i: number): Metres {
  const q = row[BOX_Q + i]! + row[CLOSEST_AT]! * row[BOX_W + i]!
  const h = row[BOX_H + i]!
  return q > h ? q - h : q < -h ? q + h : 0
}

/** How far the closest approach lies beside the core: positive toward the goalie's left. */
function sideways(row: Float64Array): Metres {
  return excess(row, 0) * row[ROW_SIDE]! + excess(row, 1) * row[ROW_SIDE + 1]! + excess(row, 2) * row[ROW_SIDE + 2]!
}

/** A covered y of the row in [low, high], or NaN when there is none. */
function coveredPoint(
  sight: Sight,
  parts: Float64Array,
  at: number,
  low: Metres,
  high: Metres,
  row: Float64Array,
): Metres {
  const { px, py, discRadius, discHalf } = sight
  // the clearance falls by no more than the way along the row, plus what turning gains on a disc
  const turning = Math.hypot(discRadius, discHalf) - Math.min(discRadius, discHalf)
  // first guess: where the part's centre shows
  const ahead = px - parts[at + CENTRE]!
  const centred = py + ((parts[at + CENTRE + 1]! - py) * px) / ahead
  let left = low
  let right = high
  let y = ahead > 0 && centred > low && centred < high ? centred : 0.5 * (low + high)
  for (let step = 0; step < MOST_STEPS; step++) {
    const clearance = clearanceAt(row, y)
    if (clearance <= 0) return y
    // beside the part toward the goalie's left: the shadow lies to the right
    if (sideways(row) > 0) right = y
    else left = y
    if (right - left < END_TOLERANCE || clearance - turning > right - left) break
    y = 0.5 * (left + right)
  }
  return Number.NaN
}

/**
 * End of the shadow between a covered y and the end of the row: secant steps inside a bracket. Each step is set a
 * little past the estimate, toward the farther end of the bracket, so that the bracket closes from both sides.
 */
function shadowEnd(row: Float64Array, covered: Metres, edge: Metres): Metres {
  let clearance = clearanceAt(row, edge)
  if (clearance <= 0) return edge
  // inside the core the clearance is one constant and says nothing about the slope
  const floor = -(row[BOX_ROUNDING]! + row[DISC_HALF]!)
  let inside = covered
  let outside = edge
  let y0 = Number.NaN
  let c0 = 0
  let y1 = edge
  let c1 = clearance
  let width = Math.abs(outside - inside)
  for (let step = 1; step < MOST_STEPS && Math.abs(outside - inside) > END_TOLERANCE; step++) {
    const middle = 0.5 * (inside + outside)
    let y = y1 - (c1 * (y1 - y0)) / (c1 - c0)
    y += (Math.abs(y - inside) > Math.abs(y - outside) ? 0.4 : -0.4) * END_TOLERANCE * Math.sign(inside - outside)
    // halve when the secant leaves the bracket, or three steps in a row did not do as well as halving
    if (!((y - inside) * (y - outside) < 0)) y = middle
    if (step % 4 === 0) {
      const now = Math.abs(outside - inside)
      if (now > 0.5 * width) y = middle
      width = now
    }
    clearance = clearanceAt(row, y)
    if (clearance > 0) outside = y
    else inside = y
    if (clearance <= floor) continue
    y0 = y1
    c0 = c1
    y1 = y
    c1 = clearance
  }
  return 0.5 * (inside + outside)
}

/**
 * Covered intervals of one row, cut to [low, high], disjoint and in order: from and to in turn in `intervals`
 * (2 x (count + 1) numbers). Returns how many there are.
 */
export function coverRow(
  sight: Sight,
  parts: Float64Array,
  count: number,
  z: Metres,
  low: Metres,
  high: Metres,
  intervals: Float64Array,
): number {
  const shadow = new Float64Array(2)
  const row = rowRecord(sight)
  let found = 0
  for (let part = 0; part < count; part++) {
    if (!shadowOnRow(sight, parts, part * PART_STRIDE, z, low, high, shadow, row)) continue
    found = joinInterval(intervals, found, shadow[0]!, shadow[1]!)
  }
  return found
}

/** Adds [from, to] to `found` disjoint ordered intervals, joining what it touches. Returns how many there are then. */
export function joinInterval(intervals: Float64Array, found: number, from: Metres, to: Metres): number {
  // intervals wholly before, then those that touch
  let first = 0
  while (first < found && intervals[2 * first + 1]! < from) first++
  let last = first
  let least = from
  let most = to
  for (; last < found && intervals[2 * last]! <= to; last++) {
    if (intervals[2 * last]! < least) least = intervals[2 * last]!
    if (intervals[2 * last + 1]! > most) most = intervals[2 * last + 1]!
  }
  intervals.copyWithin(2 * first + 2, 2 * last, 2 * found)
  intervals[2 * first] = least
  intervals[2 * first + 1] = most
  return found - (last - first) + 1
}
