import { STATE_LENGTH, STATE_VX, STATE_VY, STATE_X, STATE_Y, stateAt } from "../../sim/motion/timeline.ts"
import * as C from "../../sim/play/course.ts"
import type { Played } from "../../sim/play/moves.ts"
import { LEG_ENDS, LEG_STARTS } from "../../sim/play/timing.ts"
import { milliseconds, rounded } from "./round.ts"
import type { LegStory } from "./story.ts"

const DOES = ["pass", "carry", "cut"] as const

/** What the puck does in the play of the shot in hand, leg by leg, and where that leaves the goalie. */
export function legStories({ play, branch, x, y, clock, clockAt }: Played, timeline: Float64Array): LegStory[] {
  const goalie = new Float64Array(STATE_LENGTH)
  const count = play[branch + C.LEG_COUNT]!
  let from = [play[branch + C.START_X]!, play[branch + C.START_Y]!] as const
  return Array.from({ length: count }, (_, k) => {
    const leg = branch + C.LEGS + k * C.LEG_STRIDE
    const to = k === count - 1 ? ([x, y] as const) : ([play[leg + C.LEG_X]!, play[leg + C.LEG_Y]!] as const)
    const starts = clock[clockAt + LEG_STARTS + k]!
    const ends = clock[clockAt + LEG_ENDS + k]!
    const way = Math.hypot(to[0] - from[0], to[1] - from[1])
    from = to
    stateAt(timeline, ends, goalie)
    return {
      does: DOES[play[leg + C.LEG_KIND]!]!,
      toXM: rounded(to[0], 4),
      toYM: rounded(to[1], 4),
      startMs: milliseconds(starts),
      endMs: milliseconds(ends),
      speedMS: ends > starts ? rounded(way / (ends - starts), 3) : 0,
      goalieOutM: rounded(Math.hypot(goalie[STATE_X]!, goalie[STATE_Y]!), 3),
      goalieSpeedMS: rounded(Math.hypot(goalie[STATE_VX]!, goalie[STATE_VY]!), 3),
    }
  })
}
