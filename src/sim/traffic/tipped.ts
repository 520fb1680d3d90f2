import type { Moment } from "../moment.ts"
import * as P from "../pose.ts"
import { sampleLognormal } from "../random/lognormal.ts"
import type { Seconds } from "../units.ts"

/** A first flight seen for less than this before the tip was not seen, s. */
const GLIMPSE = 1e-6
/** The latest start of a drop that the clock starts, s after the tip: later is never. */
const LATEST = 0.99

/**
 * Sets the drop of a goalie who met the first flight of a tipped shot: it started as that flight asked for, with this
 * first reaction, and goes on; the hands begin anew at the tip. Times of the first flight count from the release:
 * `tipped` when it ended, `sight` from when on it was seen, `read` what of the reaction had passed at the release.
 * `blocks`: the goalie dropped by anticipation. A goalie who saw nothing of it meets the tip as a shot of its own.
 */
export function setTipped(
  now: Moment,
  n: Float64Array,
  tipped: Seconds,
  sight: Seconds,
  read: Seconds,
  firstReaction: number,
  blocks: boolean,
): void {
  let starts = -now.drawnLead
  if (!blocks) {
    if (sight > tipped - GLIMPSE) {
      now.blockShare = 0
      return
    }
    const lead = sight > 0 ? n[P.LEAD_KEPT]! * n[P.DROP_LEAD]! : n[P.DROP_LEAD]!
    starts = sampleLognormal(firstReaction, n[P.REACTION_MEDIAN]!, n[P.REACTION_SPREAD]!) - read - lead
  }
  const sinceTip = starts - tipped
  now.committed = !blocks
  now.blockShare = 1
  now.longestLead = 0
  now.drawnLead = -(sinceTip < LATEST ? sinceTip : LATEST)
}
