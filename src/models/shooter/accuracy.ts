import type { Metres, Probability, Radians } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { levelOf } from "./levels.ts"
import { shotTypeOf } from "./shot-types.ts"
import { shotSpeed } from "./speed.ts"

/** Standard deviations of the error about the aim. Both are angles, so errors foreshorten at sharp angles by themselves. */
export interface AimError {
  readonly azimuth: Radians
  readonly elevation: Radians
}

/** What multiplies the error of aimed and hurried shots alike: level, type, state of the puck, effort. */
function shooterFactor(settings: Settings, distance: Metres): number {
  const type = shotTypeOf(settings.choices["shooter.shot"])
  const level = levelOf(settings.choices["shooter.level"])
  const effort = shotSpeed(settings, distance).effort ** settings.quantities["shooter.speed_error"]
  return level.errorFactor.value * (type?.errorFactor.value ?? 1) * puckFactor(settings) * effort
}

/** A puck that slides or bounces is hit less cleanly than one that lies on the blade. */
function puckFactor(settings: Settings): number {
  const shot = settings.choices["shooter.shot"]
  let puck = settings.choices["shooter.puck"]
  if (puck === "by shot") puck = shot === "one-timer" || shot === "tip" ? "moving" : "settled"
  if (puck === "moving") return settings.quantities["shooter.moving_puck_error"]
  return puck === "bouncing" ? settings.quantities["shooter.bouncing_puck_error"] : 1
}

/**
 * Error of an aimed shot: base x (1 + close_in_growth exp(-distance / close_in_length)) x (1 + elevation_growth tan e).
 * `slope` is the tangent of the aim's elevation; below the puck it counts as level.
 */
export function aimedError(settings: Settings, distance: Metres, slope: number): AimError {
  const q = settings.quantities
  const closeIn = 1 + q["shooter.close_in_growth"] * Math.exp(-distance / q["shooter.close_in_length"])
  const raised = 1 + q["shooter.elevation_growth"] * Math.max(0, slope)
  const azimuth = q["shooter.aim_error"] * closeIn * raised * shooterFactor(settings, distance)
  return { azimuth, elevation: azimuth * q["shooter.vertical_error"] }
}

/** Error of a hurried shot about its own, scattered aim: the same in both axes and at all distances. */
export function hurriedError(settings: Settings, distance: Metres): AimError {
  const error = settings.quantities["shooter.hurried_error"] * shooterFactor(settings, distance)
  return { azimuth: error, elevation: error }
}

/** Share of shots from this far out that are hurried. */
export function hurriedShare(settings: Settings, distance: Metres): Probability {
  const q = settings.quantities
  const stated = q["shooter.hurried_share"]
  if (!Number.isNaN(stated)) return stated
  const near = q["shooter.hurried_near_distance"]
  const far = q["shooter.hurried_far_distance"]
  // a step where the two distances meet
  const along = far > near ? Math.min(1, Math.max(0, (distance - near) / (far - near))) : distance < near ? 0 : 1
  return q["shooter.hurried_near"] + along * (q["shooter.hurried_far"] - q["shooter.hurried_near"])
}
