import type { KeptFile } from "../keep/kept-file.ts"
import type { Checkpoint } from "./checkpoint.ts"
import type { Pictures } from "./pictures.ts"

/** How a run is to be made, and who wants to hear of it. */
export interface RunOptions {
  readonly version: string
  readonly workers: number
  /** Draw the assumption range beside the sampling interval. */
  readonly assumptions: boolean
  /** Estimator of the run; plain is the slow referee. */
  readonly estimator?: "conditional" | "plain"
  /** Leave out pictures, for quick looks and tests. */
  readonly pictures?: boolean
  /** Find chances of a save for the reach maps too, for charts of them. */
  readonly probability?: boolean
  /** Takes the pictures that hang on no shot as soon as they are there; they are found before the shots. */
  readonly onPictures?: (pictures: Pictures) => void
  /** Share of the stage done, 0 to 1, and shots against poses fired in it so far, those of an earlier run among them. */
  readonly onProgress?: (
    share: number,
    stage: "shots" | "assumptions" | "sensitivity" | "keeping",
    shots?: number,
  ) => void
  /** Asked before each task: true ends the run with what is done. */
  readonly interrupted?: () => boolean
  /** Keeps what is done, and knows what an earlier run had done. */
  readonly checkpoint?: Checkpoint
  /** Takes every shot of a run that comes to its end. */
  readonly keepShots?: KeptFile
  /** Delays a finished task by this many milliseconds, for tests of order; never set in a run. */
  readonly delay?: () => number
}
