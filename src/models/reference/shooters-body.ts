import type { Metres } from "../../sim/units.ts"
import { type CueError, NO_ERROR } from "./cue-error.ts"

/** Lining up on the shooter's body in place of the puck. */
export interface BodyCue {
  /** How far the body is beside the puck, square to the puck's line and level with it. */
  readonly beside: Metres
  /** Side of the blade as the shooter faces the net; the body is on the other. */
  readonly blade: "left" | "right"
}

/** The angle between puck and body: the nearer the shooter, the greater. A blade on the left has its body at the goalie's left. */
export function bodyError(cue: BodyCue, distance: Metres): CueError {
  const angle = Math.atan2(cue.beside, distance)
  return { ...NO_ERROR, angleBias: cue.blade === "left" ? angle : -angle }
}
