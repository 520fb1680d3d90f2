import type { Metres, Radians } from "../../sim/units.ts"
import { type CueError, NO_ERROR } from "./cue-error.ts"

/** Touching the post nearer to the puck and stepping straight out to the depth. */
export interface PostCue {
  /** Standard deviation of the place on the goal line. */
  readonly place: Metres
  /** Standard deviation of the direction of the step. */
  readonly direction: Radians
  readonly mouthHalfWidth: Metres
}

/**
 * The place is wrong by as much at every depth. A wrong direction swings the whole way from the post; what counts is
 * its part along the puck's line, depth less the post's own advance on that line, w sin|b|.
 */
export function postError(cue: PostCue, depth: Metres, bearing: Radians): CueError {
  const arm = Math.max(0, depth - cue.mouthHalfWidth * Math.sin(Math.abs(bearing)))
  const angleSpread = depth > 0 ? (cue.direction * arm) / depth : 0
  return { ...NO_ERROR, angleSpread, offLineSpread: cue.place }
}
