import type { Metres, Probability, Radians } from "../../sim/units.ts"
import type { BodySize } from "./body-size.ts"
import { gearScale, legSpan } from "./fitted-stance.ts"
import type { GearSize } from "./gear-size.ts"
import { downLeg, fallingLeg, type LegPose, type LegSize, type Side, standingLeg } from "./leg.ts"
import type { Stance } from "./stance.ts"
import type { Vector } from "./vector.ts"

/** A whole posture as numbers that a fall can run between: hips, legs, trunk, hands and stick. The near post is left. */
export interface KeyPose {
  readonly hips: Vector
  readonly left: LegPose
  readonly right: LegPose
  readonly torsoLean: Radians
  readonly sideLean: Radians
  readonly leftHand: Vector
  readonly rightHand: Vector
  readonly blade: Metres
  readonly bladeLift: Metres
  readonly gloveOpening: Probability
}

export interface Person {
  readonly body: BodySize
  readonly gear: GearSize
  readonly leg: LegSize
}

/** How far behind the skates' midpoint the hips are when neither leg stands, at 1.88 m (an assumption). */
const KNEELING_BACK: Metres = 0.24
/** Hips never come lower than this share of stature (an assumption): kneeling with the seat on the heels. */
const LOWEST_HIPS = 0.18

/** The posture of one stance in this goalie's own metres. `hipsBack` overrides where the hips are fore and aft: a fall goes straight down. */
export function keyPose(stance: Stance, person: Person, hipsBack?: Metres): KeyPose {
  const { body, leg } = person
  const feet = stance.feetWidth / 2
  const hips = hipsOf(stance, person, feet, hipsBack)
  const wanted = { feet, halfGap: stance.fiveHole / 2 }
  return {
    hips,
    left: legOf(1, hips, body, leg, { ...wanted, flare: stance.nearFlare, down: stance.nearDown }),
    right: legOf(-1, hips, body, leg, { ...wanted, flare: stance.farFlare, down: stance.farDown }),
    torsoLean: stance.torsoLean,
    sideLean: stance.sideLean,
    leftHand: handOf(hips, body, 1, stance.nearHandHeight, stance.nearHandOut, stance.nearHandAhead),
    rightHand: handOf(hips, body, -1, stance.farHandHeight, stance.farHandOut, stance.farHandAhead),
    blade: stance.bladeLead,
    bladeLift: stance.bladeLift,
    gloveOpening: stance.gloveOpening,
  }
}

/**
 * Hips of a stance: height from the crouch; fore and aft from the bend of the knees, which fixes how far the hip joint is
 * from the ankle. Feet too far apart for that height bring the hips down.
 */
function hipsOf(stance: Stance, person: Person, feet: Metres, hipsBack: Metres | undefined): Vector {
  const { body, gear, leg } = person
  const shift = stance.hipShift
  const height = Math.max((1 - stance.crouch) * (body.hipHeight + gear.skateHeight), LOWEST_HIPS * body.stature)
  const stands = Math.min(stance.nearDown, stance.farDown) < 1
  if (hipsBack !== undefined) return [-hipsBack, shift, height]
  if (!stands) return [-KNEELING_BACK * gearScale(body.stature), shift, height]
  // hip joint to ankle, less what the feet take sideways
  const level = Math.max(0, legSpan(leg.thigh, leg.shank, stance.kneeBend) ** 2 - (feet - body.hipJoint) ** 2)
  const highest = leg.ankleHeight + Math.sqrt(level)
  const z = Math.min(height, highest)
  const back = Math.sqrt(Math.max(0, level - (z - leg.ankleHeight) ** 2))
  return [-back, shift, z]
}

function legOf(
  side: Side,
  hips: Vector,
  body: BodySize,
  size: LegSize,
  wanted: { readonly feet: Metres; readonly halfGap: Metres; readonly flare: Radians; readonly down: Probability },
): LegPose {
  const hipJoint: Vector = [hips[0], hips[1] + side * body.hipJoint, hips[2]]
  if (wanted.down === 0) return standingLeg(hipJoint, side, size, wanted)
  if (wanted.down === 1) return downLeg(hipJoint, side, size, wanted)
  return fallingLeg(standingLeg(hipJoint, side, size, wanted), downLeg(hipJoint, side, size, wanted), wanted.down)
}

function handOf(hips: Vector, body: BodySize, side: Side, height: Metres, out: Metres, ahead: Metres): Vector {
  return [hips[0] + ahead, hips[1] + side * (body.halfHips + out), height]
}

/** Part of the way down: level movement in proportion to `phase`, vertical movement to its square, a free fall. */
export function fallingPose(from: KeyPose, to: KeyPose, phase: Probability): KeyPose {
  const mix = (a: number, b: number): number => a + phase * (b - a)
  return {
    hips: fallingPoint(from.hips, to.hips, phase),
    left: fallingLeg(from.left, to.left, phase),
    right: fallingLeg(from.right, to.right, phase),
    torsoLean: mix(from.torsoLean, to.torsoLean),
    sideLean: mix(from.sideLean, to.sideLean),
    leftHand: fallingPoint(from.leftHand, to.leftHand, phase),
    rightHand: fallingPoint(from.rightHand, to.rightHand, phase),
    blade: mix(from.blade, to.blade),
    bladeLift: mix(from.bladeLift, to.bladeLift),
    gloveOpening: from.gloveOpening,
  }
}

function fallingPoint(from: Vector, to: Vector, phase: Probability): Vector {
  return [
    from[0] + phase * (to[0] - from[0]),
    from[1] + phase * (to[1] - from[1]),
    from[2] + phase * phase * (to[2] - from[2]),
  ]
}
