import type { Settings } from "../settings.ts"
import { STANCE_STATURE } from "./body-size.ts"
import { blendStances, type Stance } from "./stance.ts"
import { HANDS, STANCES, type StanceName } from "./stances.ts"

/** The stance before the shot and what a drop from it ends in. */
export interface ChosenStances {
  readonly stance: Stance
  readonly down: Stance
}

/** The stance the settings ask for: named, blended, with every single parameter that was given in its place. */
export function chosenStances(settings: Settings): ChosenStances {
  const named = STANCES[settings.choices["goalie.stance"] as StanceName]
  const other = STANCES[settings.choices["goalie.blend_with"] as StanceName]
  const plain = withHabits(blendStances(named, other, settings.quantities["goalie.blend"]), settings)
  const down = withHabits(STANCES.butterfly, settings)
  // hands held higher or lower than the stance's stay that much higher or lower when down
  const raised = handsRaised(plain, settings)
  return { stance: withGiven(plain, settings), down: raiseHands(down, raised) }
}

/** Habits a goalie keeps standing and down: where the hands are carried, the glove's opening, the turn of the pads. */
function withHabits(stance: Stance, settings: Settings): Stance {
  const q = settings.quantities
  const hands = settings.choices["goalie.hands"]
  const carried = hands === "stance" ? undefined : HANDS[hands as keyof typeof HANDS]
  const perMetre = STANCE_STATURE / q["goalie.stature"]
  const out = given(q["goalie.hands_out"] * perMetre, carried?.out)
  const ahead = given(q["goalie.hands_ahead"] * perMetre, carried?.ahead)
  const flare = q["goalie.pad_flare"]
  const glove = settings.choices["goalie.glove"]
  const opening = glove === "open" ? 1 : glove === "closed" ? 0 : undefined
  return {
    ...stance,
    nearHandOut: out ?? stance.nearHandOut,
    farHandOut: out ?? stance.farHandOut,
    nearHandAhead: ahead ?? stance.nearHandAhead,
    farHandAhead: ahead ?? stance.farHandAhead,
    nearFlare: given(flare, stance.nearFlare)!,
    farFlare: given(flare, stance.farFlare)!,
    gloveOpening: given(q["goalie.glove_opening"], opening) ?? stance.gloveOpening,
  }
}

/** Parameters of the stance itself; what the drop ends in keeps its own. Lengths come as measured, not at 1.88 m. */
function withGiven(stance: Stance, settings: Settings): Stance {
  const q = settings.quantities
  const perMetre = STANCE_STATURE / q["goalie.stature"]
  const height = q["goalie.hands_height"] * perMetre
  return {
    ...stance,
    crouch: given(q["goalie.crouch"], stance.crouch)!,
    kneeBend: given(q["goalie.knee_bend"], stance.kneeBend)!,
    feetWidth: given(q["goalie.feet_width"] / widthScale(q["goalie.stature"]), stance.feetWidth)!,
    fiveHole: given(q["goalie.five_hole"] / widthScale(q["goalie.stature"]), stance.fiveHole)!,
    torsoLean: given(q["goalie.torso_lean"], stance.torsoLean)!,
    bladeLead: given(q["goalie.blade_lead"] * perMetre, stance.bladeLead)!,
    nearHandHeight: given(height, stance.nearHandHeight)!,
    farHandHeight: given(height, stance.farHandHeight)!,
  }
}

function handsRaised(stance: Stance, settings: Settings): number {
  const height = (settings.quantities["goalie.hands_height"] * STANCE_STATURE) / settings.quantities["goalie.stature"]
  return Number.isNaN(height) ? 0 : height - (stance.nearHandHeight + stance.farHandHeight) / 2
}

function raiseHands(stance: Stance, by: number): Stance {
  return { ...stance, nearHandHeight: stance.nearHandHeight + by, farHandHeight: stance.farHandHeight + by }
}

/** A given number, or what follows where none was given (NaN). */
function given(value: number, follows: number | undefined): number | undefined {
  return Number.isNaN(value) ? follows : value
}

/** Stature under which a stance narrows with the body, m (an assumption). */
const NARROWING_STATURE = 1.6

/**
 * What widths between feet and pads are multiplied with. Pads keep the width of the code, so a tall goalie's feet and
 * holes are no wider than anyone's: above 1.60 m it is 1, below it shrinks with the body.
 */
export function widthScale(stature: number): number {
  return Math.min(1, stature / NARROWING_STATURE)
}
