import { chosenFrame } from "../../models/goal/chosen-frame.ts"
import { defaultSettings } from "../../models/settings.ts"
import type { Mode } from "../../sim/motion/mode.ts"
import type { Metres } from "../../sim/units.ts"

/** A movement that is timed from standing still, from the first movement until the lead skate or knee passes a mark. */
export interface Timed {
  /** Key of the readings; the distance stands under the same key with `_distance`. */
  readonly key: "post_to_post" | "shuffle" | "slide" | "forward" | "backward"
  readonly name: string
  readonly mode: Mode
  /** What to do, in one line. */
  readonly how: string
  /** Distance when none is given; null where it must be. */
  readonly distance: Metres | null
}

/** Opening between the posts of the default goal. */
const POST_TO_POST: Metres = chosenFrame(defaultSettings()).width

/** What a coach can time along the ice. */
export const TIMED = [
  {
    key: "post_to_post",
    name: "post to post",
    mode: "T-push",
    how: "T-push on the goal line: lead skate beside one post; start at its first movement, stop as it touches the other post",
    distance: POST_TO_POST,
  },
  {
    key: "shuffle",
    name: "shuffle",
    mode: "shuffle",
    how: "Shuffle past a mark, square all the way; start at the first movement, stop as the lead skate passes the mark",
    distance: null,
  },
  {
    key: "slide",
    name: "butterfly slide",
    mode: "butterfly slide",
    how: "From the butterfly, slide past a mark; start at the first movement, stop as the lead knee passes the mark",
    distance: null,
  },
  {
    key: "forward",
    name: "push forward",
    mode: "telescope",
    how: "From the goal line out past a mark such as the crease's front; start at the first movement, stop at the mark",
    distance: null,
  },
  {
    key: "backward",
    name: "backward glide",
    mode: "backward glide",
    how: "From standing, back past a mark as with a rush; start at the first movement, stop at the mark",
    distance: null,
  },
] as const satisfies readonly Timed[]

/** Key of the timed drop, which has no distance. */
export const DROP_KEY = "drop"
export const DROP_HOW =
  "From the set stance to both knees on the ice: count the frames from the first movement down to the knees' touch"
