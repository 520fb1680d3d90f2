import type { Metres } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { SEGMENTS } from "./body-fractions.ts"
import { STANCE_STATURE } from "./body-size.ts"
import { gearScale } from "./fitted-stance.ts"
import { GEAR_CODES, type GearCode, youthGear } from "./gear-codes.ts"

/** One goalie's gear in metres: the code's maxima, or what the person measured. */
export interface GearSize {
  readonly padWidth: Metres
  readonly padLength: Metres
  /** From the face of the pad to its back. */
  readonly padDepth: Metres
  /** The part of the pad's length that lies over the foot instead of along the shank. */
  readonly boot: Metres
  readonly bootWidth: Metres
  readonly glovePerimeter: Metres
  readonly gloveDepth: Metres
  readonly blockerWidth: Metres
  readonly blockerLength: Metres
  readonly blockerDepth: Metres
  readonly bladeLength: Metres
  readonly bladeHeight: Metres
  readonly paddleLength: Metres
  readonly paddleWidth: Metres
  readonly stickThickness: Metres
  readonly thighGuardWidth: Metres
  /** Added around the body by chest protector and pants, and around the arms. */
  readonly bodyPadding: Metres
  readonly armPadding: Metres
  /** How far a skate lifts the foot. */
  readonly skateHeight: Metres
  /** Height of the ankle over the ice: boot and pad set it, so it grows with the body only as long as the gear does. */
  readonly ankleHeight: Metres
}

/** Gear sizes for the chosen code, with every measured size in its place. */
export function gearSize(settings: Settings): GearSize {
  const q = settings.quantities
  const stature = q["goalie.stature"]
  const name = settings.choices["goalie.gear"]
  const code: GearCode = name === "youth" ? youthGear(GEAR_CODES[name]!, stature) : GEAR_CODES[name]!
  // thicknesses that no code fixes shrink with a youth goalie's gear
  const s = code.padWidth / GEAR_CODES[name]!.padWidth
  const padWidth = measured(q["goalie.pad_width"], code.padWidth)
  const padLength = measured(q["goalie.pad_length"], code.padLength(stature))
  return {
    padWidth,
    padLength,
    padDepth: s * q["goalie.pad_depth"],
    boot: q["goalie.boot_share"] * padLength,
    bootWidth: s * q["goalie.boot_width"],
    glovePerimeter: measured(q["goalie.glove_perimeter"], code.glovePerimeter),
    gloveDepth: s * q["goalie.glove_depth"],
    blockerWidth: measured(q["goalie.blocker_width"], code.blockerWidth),
    blockerLength: measured(q["goalie.blocker_length"], code.blockerLength),
    blockerDepth: s * q["goalie.blocker_depth"],
    bladeLength: measured(q["goalie.blade_length"], code.bladeLength),
    bladeHeight: measured(q["goalie.blade_height"], code.bladeHeight),
    paddleLength: measured(q["goalie.paddle_length"], code.paddleLength),
    paddleWidth: code.paddleWidth,
    stickThickness: q["goalie.stick_thickness"],
    thighGuardWidth: code.thighGuardWidth,
    bodyPadding: s * q["goalie.body_padding"],
    armPadding: s * q["goalie.arm_padding"],
    skateHeight: q["goalie.skate_height"],
    ankleHeight: SEGMENTS.ankleHeight.value * STANCE_STATURE * gearScale(stature) + q["goalie.skate_height"],
  }
}

/** A measured size, or what follows from the code where none was given (NaN). */
function measured(given: number, follows: Metres): Metres {
  return Number.isNaN(given) ? follows : given
}
