import type { Metres } from "../../sim/units.ts"
import { type CueError, NO_ERROR } from "./cue-error.ts"

/** Starting well out on the line and backing toward the net without seeing it. */
export interface BackingInCue {
  readonly from: Metres
  /** Standard deviation of the drift to the side for each metre backed. */
  readonly drift: number
}

/** The drift grows with the way backed; a goalie who stands farther out than the start has not backed at all. */
export function backingInError(cue: BackingInCue, depth: Metres): CueError {
  return { ...NO_ERROR, offLineSpread: cue.drift * Math.max(0, cue.from - depth) }
}
