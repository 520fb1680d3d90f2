import type { Goalkeeping } from "./answer.ts"
import type { Pose } from "./pose.ts"
import { REGION_COUNT } from "./saves.ts"
import type { ShotBatch } from "./shots.ts"
import type { Seconds } from "./units.ts"

/** How the goalie's reaction enters: its probability, or one draw of it. */
export type Decide = (g: Goalkeeping, pose: Pose, batch: ShotBatch, i: number, path: number, outcome: Outcome) => void

/** What one shot does to one pose: probability that it is stopped, by whom, and whether the standing body did. */
export interface Outcome {
  saved: number
  /** What of `saved` a drop begun before the release adds. */
  savedByBlock: number
  stood: number
  blocked: number
  readonly byRegion: Float64Array
  /** The save that a rebound starts from; see {@link SaveMade}. */
  readonly save: SaveMade
}

/** One save: the part that made it, when, and where the drop was. */
export interface SaveMade {
  /** Index of the part, or -1 where none is chosen yet. */
  part: number
  /** The limb that carried it to the puck, or NO_LIMB. */
  limb: number
  /** Seconds on the clock of the shot's path; the drop's start may be Infinity. */
  time: Seconds
  dropStart: Seconds
  /** 1 where chance decided this save, 0 where it stands for all that were possible. */
  drawn: number
}

export function emptyOutcome(): Outcome {
  return {
    saved: 0,
    savedByBlock: 0,
    stood: 0,
    blocked: 0,
    byRegion: new Float64Array(REGION_COUNT),
    save: { part: -1, limb: -1, time: 0, dropStart: Number.POSITIVE_INFINITY, drawn: 0 },
  }
}
