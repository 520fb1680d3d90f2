import type { Metres, Probability, Radians } from "../../sim/units.ts"
import { type BodySize, STANCE_STATURE } from "./body-size.ts"
import { gearScale } from "./fitted-stance.ts"
import type { Stance } from "./stance.ts"

/** What a movement changes in a stance at its fullest, in the metres of a goalie of 1.88 m. */
export interface Opening {
  /** Five-hole and feet wider by this: the legs go apart whole. */
  readonly legs: Metres
  /** Both gloves further out. */
  readonly hands: Metres
  /** The blade off the ice. */
  readonly blade: Metres
  /** The trunk further forward. */
  readonly lean: Radians
  /** Share of all this that is still open when the drop ends. */
  readonly leftWhenDown: Probability
}

/** A stance as a share of a movement leaves it: widths follow the gear and arms the stature, as those of the stance do. */
export function openStance(stance: Stance, opening: Opening, share: Probability, body: BodySize): Stance {
  const byGear = share * gearScale(body.stature)
  const out = (share * opening.hands * body.stature) / STANCE_STATURE
  return {
    ...stance,
    fiveHole: stance.fiveHole + byGear * opening.legs,
    feetWidth: stance.feetWidth + byGear * opening.legs,
    nearHandOut: stance.nearHandOut + out,
    farHandOut: stance.farHandOut + out,
    bladeLift: stance.bladeLift + byGear * opening.blade,
    torsoLean: stance.torsoLean + share * opening.lean,
  }
}
