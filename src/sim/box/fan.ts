import * as boxColumns from "../box-record.ts"
import { AXIS_0, CENTRE, HALF_SIZE, ROUNDING } from "../parts.ts"
import { solveClearance } from "../rounded-box.ts"
import type { Metres } from "../units.ts"
import { CLOSEST_AT, CLOSEST_RECORD, excessAt, findClosest } from "./closest-approach.ts"
import type { Sight } from "./sight.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { BOX_H, BOX_LEAST, BOX_MOST, BOX_Q, BOX_ROUNDING, BOX_UP, BOX_W, CLEARANCE, DISC_HALF, DISC_RADIUS } = boxColumns

/**
 * A fan: the straight paths from the puck to the places of one straight line on the goal plane, before one part.
 *
 *   path      P + s (T - P), T = (0, y0, z0) + t (0, dy, dz), s in [0, 1]: what stands behind the goal line does not count
 *   c(t)      clearance of that path from the part (light, or the level disc)
 *
 * In the part's own axes the path's direction is linear in t, so each clearance costs one solve.
 */

/** Width to which the end of the covered stretch is found unless asked otherwise, m. */
export const COVER_TOLERANCE = 5e-13
/** Coordinates of some metres are known to this, m. */
const ROUND_OFF = 5e-15
const MOST_STEPS = 100

/** The record of {@link findClosest}, then the path's direction at t = 0 and its change with t, in the part's axes. */
const FAN_W = CLOSEST_RECORD
const FAN_TURN = CLOSEST_RECORD + 3
const FAN_RECORD = CLOSEST_RECORD + 6

/** Scratch for the fans of one puck. */
export function fanRecord(sight: Sight): Float64Array {
  const fan = new Float64Array(FAN_RECORD)
  fan[BOX_LEAST] = 0
  fan[BOX_MOST] = 1
  fan[DISC_RADIUS] = sight.discRadius
  fan[DISC_HALF] = sight.discHalf
  return fan
}

/** Sets the fan from the puck to the line through (y0, z0) along (dy, dz) before the part at `at`. */
export function setFan(
  sight: Sight,
  parts: Float64Array,
  at: number,
  y0: Metres,
  z0: Metres,
  turnY: number,
  turnZ: number,
  fan: Float64Array,
): void {
  const wy = y0 - sight.py
  const wz = z0 - sight.pz
  const dx = sight.px - parts[at + CENTRE]!
  const dy = sight.py - parts[at + CENTRE + 1]!
  const dz = sight.pz - parts[at + CENTRE + 2]!
  for (let i = 0; i < 3; i++) {
    const axis = at + AXIS_0 + 3 * i
    const ax = parts[axis]!
    const ay = parts[axis + 1]!
    const az = parts[axis + 2]!
    fan[BOX_Q + i] = dx * ax + dy * ay + dz * az
    fan[BOX_H + i] = parts[at + HALF_SIZE + i]!
    fan[BOX_UP + i] = az
    fan[FAN_W + i] = -sight.px * ax + wy * ay + wz * az
    fan[FAN_TURN + i] = turnY * ay + turnZ * az
  }
  fan[BOX_ROUNDING] = parts[at + ROUNDING]!
}

/** Clearance of the path to the place t of the line. */
export function fanClearance(fan: Float64Array, t: Metres): Metres {
  for (let i = 0; i < 3; i++) fan[BOX_W + i] = fan[FAN_W + i]! + t * fan[FAN_TURN + i]!
  if (fan[DISC_RADIUS]! > 0 || fan[DISC_HALF]! > 0) {
    solveClearance(fan)
    return fan[CLEARANCE]!
  }
  const distance = findClosest(fan)
  const rounding = fan[BOX_ROUNDING]!
  if (rounding > 0) return distance - rounding
  // a sharp edge of the core bounds the light: keep the last micrometre
  polishClosest(fan)
  const gap = Math.hypot(excess(fan, 0), excess(fan, 1), excess(fan, 2))
  return gap > ROUND_OFF ? gap : 0
}

/** One more Newton step of the closest approach: its place must be known far better than the gap that is left. */
function polishClosest(fan: Float64Array): void {
  let slope = 0
  let curvature = 0
  for (let i = 0; i < 3; i++) {
    const e = excess(fan, i)
    const w = fan[BOX_W + i]!
    if (e === 0) continue
    slope += e * w
    curvature += w * w
  }
  if (curvature > 0) fan[CLOSEST_AT] = Math.min(1, Math.max(0, fan[CLOSEST_AT]! - slope / curvature))
}

/** Way out of the core along its axis i, at the line's closest approach. */
function excess(fan: Float64Array, i: number): Metres {
  return excessAt(fan, i, fan[CLOSEST_AT]!)
}

/** How far the closest approach lies beside the core, positive the way t grows: the sign tells where the part is. */
export function fanSide(fan: Float64Array): Metres {
  return excess(fan, 0) * fan[FAN_TURN]! + excess(fan, 1) * fan[FAN_TURN + 1]! + excess(fan, 2) * fan[FAN_TURN + 2]!
}

/**
 * End of the covered stretch between a covered t and the end of the line, to `tolerance`: secant steps inside a bracket.
 * Each step is set a little past the estimate, toward the farther end of the bracket, so that the bracket closes from both sides.
 */
export function coverEnd(
  fan: Float64Array,
  covered: Metres,
  edge: Metres,
  tolerance: Metres = COVER_TOLERANCE,
): Metres {
  let clearance = fanClearance(fan, edge)
  if (clearance <= 0) return edge
  // inside the core the clearance is one constant and says nothing about the slope
  const floor = -fan[BOX_ROUNDING]!
  let inside = covered
  let outside = edge
  let t0 = Number.NaN
  let c0 = 0
  let t1 = edge
  let c1 = clearance
  let width = Math.abs(outside - inside)
  for (let step = 1; step < MOST_STEPS && Math.abs(outside - inside) > tolerance; step++) {
    const middle = 0.5 * (inside + outside)
    let t = t1 - (c1 * (t1 - t0)) / (c1 - c0)
    t += (Math.abs(t - inside) > Math.abs(t - outside) ? 0.4 : -0.4) * tolerance * Math.sign(inside - outside)
    // halve when the secant leaves the bracket, or three steps in a row did not do as well as halving
    if (!((t - inside) * (t - outside) < 0)) t = middle
    if (step % 4 === 0) {
      const now = Math.abs(outside - inside)
      if (now > 0.5 * width) t = middle
      width = now
    }
    clearance = fanClearance(fan, t)
    if (clearance > 0) outside = t
    else inside = t
    if (clearance <= floor) continue
    t0 = t1
    c0 = c1
    t1 = t
    c1 = clearance
  }
  return 0.5 * (inside + outside)
}
