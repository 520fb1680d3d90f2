import type { Metres, Radians } from "../../sim/units.ts"
import { SEGMENTS } from "./body-fractions.ts"
import { type BodySize, STANCE_STATURE } from "./body-size.ts"
import type { Stance } from "./stance.ts"

/** Stature under which a stance shrinks with the body, m (an assumption). */
const SHRINKING_STATURE: Metres = 1.6

/**
 * What heights of a stance and widths between feet and pads are multiplied with. They follow the gear, not the body:
 * pads are as large as the code allows, so a tall goalie bends further until the hips are as low over the pads as
 * anyone's, and the holes between pads are no wider and no higher. Above 1.60 m it is 1, below it shrinks with stature.
 */
export function gearScale(stature: Metres): number {
  return Math.min(1, stature / SHRINKING_STATURE)
}

/**
 * A named stance, written for 1.88 m, in the metres of one goalie: hips, feet and pads where the gear wants them, with the
 * crouch and the bend of the knees that bring this goalie's legs there; hands out and ahead as long as the arms.
 */
export function fitStance(stance: Stance, body: BodySize, skateHeight: Metres): Stance {
  const byGear = gearScale(body.stature)
  const byArm = body.stature / STANCE_STATURE
  const hips = byGear * (1 - stance.crouch) * (SEGMENTS.hipHeight.value * STANCE_STATURE + skateHeight)
  const toAnkle =
    byGear * legSpan(SEGMENTS.thigh.value * STANCE_STATURE, SEGMENTS.shank.value * STANCE_STATURE, stance.kneeBend)
  return {
    ...stance,
    crouch: 1 - hips / (body.hipHeight + skateHeight),
    kneeBend: kneeBendFor(body.thigh, body.shank, toAnkle),
    feetWidth: byGear * stance.feetWidth,
    fiveHole: byGear * stance.fiveHole,
    hipShift: byGear * stance.hipShift,
    nearHandHeight: byGear * stance.nearHandHeight,
    farHandHeight: byGear * stance.farHandHeight,
    nearHandOut: byArm * stance.nearHandOut,
    farHandOut: byArm * stance.farHandOut,
    nearHandAhead: byArm * stance.nearHandAhead,
    farHandAhead: byArm * stance.farHandAhead,
    bladeLead: byGear * stance.bladeLead,
    bladeLift: byGear * stance.bladeLift,
  }
}

/** Hip joint to ankle for a bend of the knee, by the law of cosines. */
export function legSpan(thigh: Metres, shank: Metres, bend: Radians): Metres {
  return Math.sqrt(thigh * thigh + shank * shank + 2 * thigh * shank * Math.cos(bend))
}

/** The bend of the knee that brings hip joint and ankle this far apart; a straight leg where it is too short. */
export function kneeBendFor(thigh: Metres, shank: Metres, span: Metres): Radians {
  const cosine = (span * span - thigh * thigh - shank * shank) / (2 * thigh * shank)
  return Math.acos(Math.max(-1, Math.min(1, cosine)))
}
