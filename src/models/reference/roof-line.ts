import type { Metres, Radians } from "../../sim/units.ts"
import { type CueError, NO_ERROR } from "./cue-error.ts"

/** A beam, a row of lamps or a seam of the roof that is taken for the middle of the ice. */
export interface RoofLineCue {
  /** How far it runs beside the middle, positive toward the goalie's left. */
  readonly shift: Metres
  /** Standard deviation of that, as far as it is not known. */
  readonly middle: Metres
  /** Standard deviation of a turn away from straight ahead, as a share of it. */
  readonly turn: number
}

/** Good straight on, and only where the building is symmetric: its shift becomes the goalie's. */
export function roofLineError(cue: RoofLineCue, bearing: Radians): CueError {
  const cosine = Math.cos(bearing)
  return {
    ...NO_ERROR,
    angleSpread: cue.turn * Math.abs(bearing),
    offLineBias: cue.shift * cosine,
    offLineSpread: cue.middle * Math.abs(cosine),
  }
}
