import type { Metres, Radians } from "../../sim/units.ts"
import { type CueError, NO_ERROR } from "./cue-error.ts"

/** Sighting the net at the other end, which stands on the middle of the ice. */
export interface FarNetCue {
  /** Standard deviation of the middle told by it. */
  readonly middle: Metres
  /** Standard deviation of a turn away from straight ahead, as a share of it. */
  readonly turn: number
}

/** Good straight on: to the side the middle counts less, and the turn away from it has to be guessed. */
export function farNetError(cue: FarNetCue, bearing: Radians): CueError {
  return {
    ...NO_ERROR,
    angleSpread: cue.turn * Math.abs(bearing),
    offLineSpread: cue.middle * Math.abs(Math.cos(bearing)),
  }
}
