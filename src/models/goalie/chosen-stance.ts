import type { Settings } from "../settings.ts"
import { type BodySize, STANCE_STATURE } from "./body-size.ts"
import { fitStance } from "./fitted-stance.ts"
import { blendStances, type Stance } from "./stance.ts"
import { HANDS, STANCES, type StanceName } from "./stances.ts"

/** The stance before the shot and what a drop from it ends in, both in the metres of one goalie. */
export interface ChosenStances {
  readonly stance: Stance
  readonly down: Stance
}

/** The stance the settings ask for: named, blended, fitted to the body, every single parameter that was given in its place. */
export function chosenStances(settings: Settings, body: BodySize): ChosenStances {
  const named = STANCES[settings.choices["goalie.stance"] as StanceName]
  const other = STANCES[settings.choices["goalie.blend_with"] as StanceName]
  const skates = settings.quantities["goalie.skate_height"]
  const blended = fitStance(blendStances(named, other, settings.quantities["goalie.blend"]), body, skates)
  const stance = withGiven(withHabits(blended, settings), settings)
  const down = withHabits(fitStance(STANCES.butterfly, body, skates), settings)
  // hands held higher or lower than the named stance's stay that much higher or lower when down
  const raised = (stance.nearHandHeight + stance.farHandHeight - blended.nearHandHeight - blended.farHandHeight) / 2
  return { stance, down: raiseHands(down, raised) }
}

/** Habits a goalie keeps standing and down: where the hands are carried, the glove's opening, the turn of the pads. */
function withHabits(stance: Stance, settings: Settings): Stance {
  const q = settings.quantities
  const hands = settings.choices["goalie.hands"] as keyof typeof HANDS | "stance"
  const glove = settings.choices["goalie.glove"]
  const carried = hands === "stance" ? stance : carryHands(stance, HANDS[hands], q["goalie.stature"] / STANCE_STATURE)
  const opening = glove === "open" ? 1 : glove === "closed" ? 0 : stance.gloveOpening
  return {
    ...carried,
    nearHandOut: given(q["goalie.hands_out"], carried.nearHandOut),
    farHandOut: given(q["goalie.hands_out"], carried.farHandOut),
    nearHandAhead: given(q["goalie.hands_ahead"], carried.nearHandAhead),
    farHandAhead: given(q["goalie.hands_ahead"], carried.farHandAhead),
    nearFlare: given(q["goalie.pad_flare"], stance.nearFlare),
    farFlare: given(q["goalie.pad_flare"], stance.farFlare),
    gloveOpening: given(q["goalie.glove_opening"], opening),
  }
}

/** Parameters of the stance before the shot alone; what the drop ends in keeps its own. */
function withGiven(stance: Stance, settings: Settings): Stance {
  const q = settings.quantities
  return {
    ...stance,
    crouch: given(q["goalie.crouch"], stance.crouch),
    kneeBend: given(q["goalie.knee_bend"], stance.kneeBend),
    feetWidth: given(q["goalie.feet_width"], stance.feetWidth),
    fiveHole: given(q["goalie.five_hole"], stance.fiveHole),
    torsoLean: given(q["goalie.torso_lean"], stance.torsoLean),
    bladeLead: given(q["goalie.blade_lead"], stance.bladeLead),
    nearHandHeight: given(q["goalie.hands_height"], stance.nearHandHeight),
    farHandHeight: given(q["goalie.hands_height"], stance.farHandHeight),
  }
}

/** Both hands where a habit carries them. */
function carryHands(stance: Stance, habit: (typeof HANDS)[keyof typeof HANDS], byArm: number): Stance {
  const [out, ahead] = [byArm * habit.out, byArm * habit.ahead]
  return { ...stance, nearHandOut: out, farHandOut: out, nearHandAhead: ahead, farHandAhead: ahead }
}

function raiseHands(stance: Stance, by: number): Stance {
  return { ...stance, nearHandHeight: stance.nearHandHeight + by, farHandHeight: stance.farHandHeight + by }
}

/** A given number, or what follows where none was given (NaN). */
function given(value: number, follows: number): number {
  return Number.isNaN(value) ? follows : value
}
