import { MODES } from "../../sim/motion/mode.ts"
import type { OpenBody } from "../../sim/parts.ts"
import type { Probability } from "../../sim/units.ts"
import { bodySize } from "../goalie/body-size.ts"
import { type Opening, openStance } from "../goalie/opening.ts"
import { buildPosture } from "../goalie/posture.ts"
import { STANCES } from "../goalie/stances.ts"
import { MODE_KEYS } from "../movement/movement-numbers.ts"
import type { Settings } from "../settings.ts"

/** First part of the keys of each way out of the set stance, in the order of the rows of sim/motion/opening.ts. */
const OPENING_KEYS = [...MODES.map((mode) => MODE_KEYS[mode]), "turn"] as const

/** What each way of moving opens at its fullest, by these settings. */
export function openingsOf({ quantities: q }: Settings): Opening[] {
  return OPENING_KEYS.map((key) => ({
    legs: q[`movement.${key}_legs`],
    hands: q[`movement.${key}_hands`],
    blade: q[`movement.${key}_blade`],
    lean: q[`movement.${key}_lean`],
    // a slide is all on the knees
    leftWhenDown: key === "slide" ? 1 : q["movement.left_when_down"],
  }))
}

/** What a share of the movement in row `mode` changes in the stance of this goalie, in their own metres. */
export function openedBy(settings: Settings, mode: number, share: Probability): Omit<Opening, "leftWhenDown"> {
  const set = STANCES.set
  const open = openStance(set, openingsOf(settings)[mode]!, share, bodySize(settings))
  return {
    legs: open.fiveHole - set.fiveHole,
    hands: open.nearHandOut - set.nearHandOut,
    blade: open.bladeLift - set.bladeLift,
    lean: open.torsoLean - set.torsoLean,
  }
}

/** The goalie of these settings as each way of moving opens it at its fullest; none where the stance stays set. */
export function openBodiesOf(settings: Settings): OpenBody[] {
  if (settings.choices["movement.stance"] === "stays set") return []
  return openingsOf(settings).map((opening) => {
    const { parts, roots } = buildPosture(settings, opening)
    return { parts, roots }
  })
}
