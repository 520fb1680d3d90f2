import type { Metres, Radians } from "../../sim/units.ts"

/**
 * How wrong a cue is about the line from the middle of the goal line to the puck, positive toward the goalie's left.
 * An angle about the middle of the goal line grows with depth; a way off the line, square to it, is the same at any.
 */
export interface CueError {
  readonly angleBias: Radians
  /** Standard deviation. */
  readonly angleSpread: Radians
  readonly offLineBias: Metres
  /** Standard deviation. */
  readonly offLineSpread: Metres
}

/** A cue that is never wrong: the fields a cue does not speak of. */
export const NO_ERROR: Readonly<CueError> = { angleBias: 0, angleSpread: 0, offLineBias: 0, offLineSpread: 0 }

/** Where a cue leads at one depth. */
export interface OffTheLine {
  /** Off the line, square to it. */
  readonly bias: Metres
  readonly spread: Metres
  /** The same seen from the middle of the goal line. */
  readonly biasAngle: Radians
  readonly spreadAngle: Radians
}

/**
 * Plane geometry of an error at a depth: the goalie stands at `depth` on a line turned by the bias, moved to the side by
 * the bias off the line; the two spreads are independent. On the goal line itself every line meets: no angle is off.
 */
export function offTheLine(error: CueError, depth: Metres): OffTheLine {
  const bias = depth * Math.sin(error.angleBias) + error.offLineBias
  const spread = Math.hypot(depth * error.angleSpread, error.offLineSpread)
  const along = depth * Math.cos(error.angleBias)
  if (depth === 0) return { bias, spread, biasAngle: 0, spreadAngle: 0 }
  return { bias, spread, biasAngle: Math.atan2(bias, along), spreadAngle: Math.atan2(spread, depth) }
}
