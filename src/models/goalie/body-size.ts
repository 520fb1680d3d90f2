import type { Kilograms, Metres } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { GIRTHS, type Girths, SEGMENTS } from "./body-fractions.ts"

/** Mass over stature squared, kg/m², of the league goalies on record: 90 kg at 1.88 m [LeagueGoalies2010]. */
export const LEAGUE_BUILD = 90 / (1.88 * 1.88)
/** Stature the lengths of the named stances are written for, m [LeagueGoalies2010]. */
export const STANCE_STATURE = 1.88

/** One goalie's body without gear, in metres. */
export interface BodySize {
  readonly stature: Metres
  readonly mass: Kilograms
  /** Stature over the stature the stances are written for. */
  readonly scale: number
  readonly hipHeight: Metres
  readonly thigh: Metres
  readonly shank: Metres
  readonly trunk: Metres
  readonly upperArm: Metres
  /** Elbow to the middle of the hand. */
  readonly forearm: Metres
  /** Shoulder to fingertips. */
  readonly arm: Metres
  readonly foot: Metres
  /** From the line of the shoulders up to the eyes. */
  readonly neck: Metres
  readonly head: Metres
  readonly headBreadth: Metres
  /** Half-breadths and radii, which grow with the square root of mass. */
  readonly halfShoulders: Metres
  readonly halfChest: Metres
  readonly halfChestDepth: Metres
  readonly halfHips: Metres
  readonly thighRadius: Metres
  readonly deltoidRadius: Metres
  /** Hip joint from the middle of the body. */
  readonly hipJoint: Metres
}

/** Share of the half-breadth of the hips at which the hip joints lie (from memory, an assumption). */
const HIP_JOINT_SHARE = 0.5

/**
 * A body's lengths from stature and mass. Lengths are fractions of stature. A body of the same stature and more mass has
 * the same length, so its cross-sections grow with mass and its breadths and depths with the square root of it:
 *
 *   girth = sqrt((mass / stature³) / (mass / stature³ of the people measured))
 */
export function bodySize(settings: Settings): BodySize {
  const H = settings.quantities["goalie.stature"]
  const given = settings.quantities["goalie.mass"]
  const mass = Number.isNaN(given) ? LEAGUE_BUILD * H * H : given
  const table: Girths = settings.choices["goalie.proportions"] === "women" ? GIRTHS.women : GIRTHS.men
  const girth = Math.sqrt(mass / table.mass) * (table.stature / H) ** 1.5
  const halfHips = (table.hipBreadth.value * H * girth) / 2
  return {
    stature: H,
    mass,
    scale: H / STANCE_STATURE,
    hipHeight: SEGMENTS.hipHeight.value * H,
    thigh: SEGMENTS.thigh.value * H,
    shank: SEGMENTS.shank.value * H,
    trunk: SEGMENTS.trunk.value * H,
    upperArm: SEGMENTS.upperArm.value * H,
    forearm: SEGMENTS.forearmToGrip.value * H,
    arm: (SEGMENTS.upperArm.value + SEGMENTS.forearm.value + SEGMENTS.hand.value) * H,
    foot: SEGMENTS.foot.value * H,
    neck: (SEGMENTS.eyeHeight.value - SEGMENTS.shoulderHeight.value) * H,
    head: SEGMENTS.head.value * H,
    headBreadth: table.headBreadth.value * H,
    halfShoulders: (table.acromialBreadth.value * H) / 2,
    halfChest: (table.chestBreadth.value * H * girth) / 2,
    halfChestDepth: (table.chestDepth.value * H * girth) / 2,
    halfHips,
    thighRadius: (table.thighCircumference.value * H * girth) / (2 * Math.PI),
    deltoidRadius: ((table.bideltoidBreadth.value - table.acromialBreadth.value) * H * girth) / 2,
    hipJoint: HIP_JOINT_SHARE * halfHips,
  }
}
