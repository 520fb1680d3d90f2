import { CENTRE, PART_STRIDE } from "../parts.ts"
import type { Metres } from "../units.ts"
import { COVER_TOLERANCE, coverEnd, fanClearance, fanRecord, fanSide, setFan } from "./fan.ts"
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
 * sideways sign of the closest approach leads to a covered point, and each end is a root of c found to 1e-12 m, or as asked.
 */

const MOST_STEPS = 100
const GOLDEN = 0.6180339887498949
/** A disc's shadow narrower than this, m, is none. */
const NARROWEST: Metres = 1e-7

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
  fan: Float64Array = fanRecord(sight),
  tolerance: Metres = COVER_TOLERANCE,
): boolean {
  const inside = coveredOnRow(sight, parts, at, z, low, high, fan)
  if (Number.isNaN(inside)) return false
  out[0] = coverEnd(fan, inside, low, tolerance)
  out[1] = coverEnd(fan, inside, high, tolerance)
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

/** Sets the fan to the row z before the part at `at`; a covered y of it in [low, high], or NaN when there is none. */
function coveredOnRow(
  sight: Sight,
  parts: Float64Array,
  at: number,
  z: Metres,
  low: Metres,
  high: Metres,
  fan: Float64Array,
): Metres {
  if (!planeMeets(sight, parts, at, z)) return Number.NaN
  setFan(sight, parts, at, 0, z, 1, 0, fan)
  return coveredPoint(sight, parts, at, low, high, fan)
}

/** A covered y of the row in [low, high], or NaN when there is none. */
function coveredPoint(
  sight: Sight,
  parts: Float64Array,
  at: number,
  low: Metres,
  high: Metres,
  fan: Float64Array,
): Metres {
  const { px, py } = sight
  // first guess: where the part's centre shows
  const ahead = px - parts[at + CENTRE]!
  const centred = py + ((parts[at + CENTRE + 1]! - py) * px) / ahead
  let left = low
  let right = high
  let y = ahead > 0 && centred > low && centred < high ? centred : 0.5 * (low + high)
  if (sight.discRadius > 0 || sight.discHalf > 0) {
    // a post shows beside the mouth and closes its edge
    if (ahead > 0) y = Math.min(high, Math.max(low, centred))
    return fanClearance(fan, y) <= 0 ? y : leastClear(fan, low, high)
  }
  for (let step = 0; step < MOST_STEPS; step++) {
    const clearance = fanClearance(fan, y)
    if (clearance <= 0) return y
    // beside the part toward the goalie's left: the shadow lies to the right
    if (fanSide(fan) > 0) right = y
    else left = y
    // the clearance falls by no more than the way along the row
    if (right - left < COVER_TOLERANCE || clearance > right - left) break
    y = 0.5 * (left + right)
  }
  return Number.NaN
}

/**
 * A covered y of the row in [low, high], or NaN: golden section on the clearance of the disc, which falls to one side and
 * rises to the other of where it is least.
 */
function leastClear(fan: Float64Array, low: Metres, high: Metres): Metres {
  let left = low
  let right = high
  let a = right - GOLDEN * (right - left)
  let b = left + GOLDEN * (right - left)
  let atA = fanClearance(fan, a)
  let atB = fanClearance(fan, b)
  for (let step = 0; step < MOST_STEPS; step++) {
    if (atA <= 0) return a
    if (atB <= 0) return b
    if (right - left < NARROWEST || Math.min(atA, atB) > right - left) break
    if (atA < atB) {
      right = b
      b = a
      atB = atA
      a = right - GOLDEN * (right - left)
      atA = fanClearance(fan, a)
    } else {
      left = a
      a = b
      atA = atB
      b = left + GOLDEN * (right - left)
      atB = fanClearance(fan, b)
    }
  }
  return Number.NaN
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
  tolerance: Metres = COVER_TOLERANCE,
): number {
  const fan = fanRecord(sight)
  let found = 0
  for (let part = 0; part < count; part++) {
    const inside = coveredOnRow(sight, parts, part * PART_STRIDE, z, low, high, fan)
    if (Number.isNaN(inside)) continue
    // an end that lies in an interval already known need not be found: a part covers no place past one it leaves open
    const known = intervalAt(intervals, found, inside)
    const from = known < 0 ? inside : intervals[2 * known]!
    const to = known < 0 ? inside : intervals[2 * known + 1]!
    const least = known < 0 || passes(fan, from, low) ? coverEnd(fan, inside, low, tolerance) : from
    const most = known < 0 || passes(fan, to, high) ? coverEnd(fan, inside, high, tolerance) : to
    found = joinInterval(intervals, found, least, most)
  }
  return found
}

/** Whether a part covers a place of the row that is not yet its edge. */
function passes(fan: Float64Array, place: Metres, edge: Metres): boolean {
  return place !== edge && fanClearance(fan, place) <= 0
}

/** Which of `found` ordered intervals a place lies in; -1 in none. */
function intervalAt(intervals: Float64Array, found: number, place: Metres): number {
  for (let i = 0; i < found; i++) if (intervals[2 * i]! <= place && place <= intervals[2 * i + 1]!) return i
  return -1
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
