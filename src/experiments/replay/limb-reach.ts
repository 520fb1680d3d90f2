import {
  CATCH_RADIUS,
  ERROR_PER_SPEED,
  ERROR_STEADY,
  GREATEST_V,
  LAG,
  LEAST_V,
  LIMB_STRIDE,
  LIMBS,
  LONGEST_REACH,
  PEAK_ACCELERATION,
  PEAK_SPEED,
  type Posture,
  ROOT_LENGTH,
} from "../../sim/parts.ts"
import { STATION_COS, STATION_SIN, STATION_X, STATION_Y } from "../../sim/station.ts"
import type { Metres, Probability, Seconds } from "../../sim/units.ts"

/** Why a limb can or cannot bring its part to the puck. */
export type ReachState = "in reach" | "not started" | "wrong side" | "arm too short" | "too far"

/** How far a limb had got when the puck passed. */
export interface LimbReach {
  readonly limb: number
  readonly state: ReachState
  /** First movement, after the release. */
  readonly begins: Seconds
  /** From where the drop has the part to where its middle is on the path, and how much of that was done. */
  readonly wayToGo: Metres
  readonly moved: Metres
  /** How far off the limb is placed on this shot. */
  readonly error: Metres
  /** Catch radius left over; below zero the limb came short by that much. -Infinity when it is out of the question. */
  readonly margin: Metres
}

/** Where a limb is asked to go and what this shot has in store for it. */
export interface LimbTask {
  /** Clearance of its part from the puck where the drop has the part. */
  readonly gap: Metres
  /** When the puck passes the part, and the phase of the drop then. */
  readonly time: Seconds
  readonly phase: Probability
  /** Middle of the puck then, rink frame. */
  readonly puck: readonly [Metres, Metres, Metres]
  readonly handsStart: Seconds
  /** This shot's placement error in standard deviations. */
  readonly errorLength: number
}

/** The minimum-jerk reach of one limb toward the puck's path, as far as it gets. */
export function limbReach(posture: Posture, station: Float64Array, limb: number, task: LimbTask): LimbReach {
  const { limbs } = posture
  const row = limb * LIMB_STRIDE
  const radius = limbs[row + CATCH_RADIUS]!
  const begins = task.handsStart + limbs[row + LAG]!
  const wayToGo = Math.max(0, task.gap) + radius
  const had = task.time - begins

  // peak speed and peak acceleration of a minimum-jerk reach bound the time it takes
  const takes = Math.max(
    (15 / 8) * (wayToGo / limbs[row + PEAK_SPEED]!),
    Math.sqrt(((10 / Math.sqrt(3)) * wayToGo) / limbs[row + PEAK_ACCELERATION]!),
  )
  const x = Math.min(1, Math.max(0, had / takes))
  const moved = wayToGo * x ** 3 * (10 - 15 * x + 6 * x * x)
  const spread = Math.hypot(limbs[row + ERROR_STEADY]!, (limbs[row + ERROR_PER_SPEED]! * wayToGo) / had)
  const state = stateOf(posture, station, limb, task, had)
  const started = had > 0
  return {
    limb,
    state,
    begins,
    wayToGo,
    moved,
    error: started ? spread * task.errorLength : 0,
    margin: state === "in reach" ? radius - (wayToGo - moved) - spread * task.errorLength : -Infinity,
  }
}

function stateOf(posture: Posture, station: Float64Array, limb: number, task: LimbTask, had: Seconds): ReachState {
  const { limbs } = posture
  const row = limb * LIMB_STRIDE
  const [u, v, z] = inGoalieFrame(station, task.puck)
  if (v < limbs[row + LEAST_V]! || v > limbs[row + GREATEST_V]!) return "wrong side"
  if (task.gap > limbs[row + LONGEST_REACH]!) return "too far"
  const length = limbs[row + ROOT_LENGTH]!
  const [ru, rv, rz] = rootAt(posture, limb, task.phase)
  if (length < Infinity && Math.hypot(u - ru, v - rv, z - rz) > length) return "arm too short"
  return had > 0 ? "in reach" : "not started"
}

/** The limb's root at a phase of the drop, goalie frame. */
function rootAt(posture: Posture, limb: number, phase: Probability): [Metres, Metres, Metres] {
  const place = phase * (posture.phases - 1)
  const k = Math.min(posture.phases - 2, Math.floor(place))
  const at = (k * LIMBS.length + limb) * 3
  const next = at + LIMBS.length * 3
  const { roots } = posture
  const between = (i: number): Metres => roots[at + i]! + (place - k) * (roots[next + i]! - roots[at + i]!)
  return [between(0), between(1), between(2)]
}

function inGoalieFrame(station: Float64Array, [px, py, pz]: LimbTask["puck"]): [Metres, Metres, Metres] {
  const x = px - station[STATION_X]!
  const y = py - station[STATION_Y]!
  const c = station[STATION_COS]!
  const s = station[STATION_SIN]!
  return [c * x + s * y, c * y - s * x, pz]
}
