import type { Metres, Probability, Radians } from "../../sim/units.ts"
import { across, along, cross, scale, type Vector } from "./vector.ts"

/** Side of the body: 1 left (v > 0), -1 right. */
export type Side = 1 | -1

/** Lengths of one leg in its gear, metres. */
export interface LegSize {
  readonly thigh: Metres
  readonly shank: Metres
  /** From the ankle along the pad to its top; what exceeds the shank rises above the knee. */
  readonly ankleToTop: Metres
  readonly padWidth: Metres
  readonly padDepth: Metres
  /** Height of the ankle of a leg that stands. */
  readonly ankleHeight: Metres
  /** How high a pad lying on the ice leaves its lower edge at the ankle's end. */
  readonly sealGap: Metres
}

/** A leg as numbers that a fall can run between. The pad's axis runs from the ankle to the pad's top. */
export interface LegPose {
  readonly topU: Metres
  readonly topZ: Metres
  readonly ankleZ: Metres
  /** Direction of the pad's axis in plan, from straight inward toward straight ahead. */
  readonly turn: Radians
  /** How far the pad's face is turned out from straight ahead. */
  readonly flare: Radians
  /** Gap from the middle to this pad's inner edge at its top: half of the five-hole. */
  readonly halfGap: Metres
  /** 0 the foot stands, 1 it lies on its inner edge along the pad. */
  readonly footDown: Probability
}

export interface PlacedLeg {
  readonly top: Vector
  readonly knee: Vector
  readonly ankle: Vector
  /** Unit vectors: from ankle to top, and out of the pad's face. */
  readonly axis: Vector
  readonly face: Vector
  readonly flare: Radians
  readonly footDown: Probability
}

/** Where the joints of one leg are. The pad's inner edge at its top is `halfGap` from the middle, whatever its roll. */
export function placeLeg(pose: LegPose, side: Side, size: LegSize): PlacedLeg {
  const rise = Math.max(-1, Math.min(1, (pose.topZ - pose.ankleZ) / size.ankleToTop))
  const level = Math.sqrt(1 - rise * rise)
  const axis: Vector = [level * Math.sin(pose.turn), -side * level * Math.cos(pose.turn), rise]
  const face = across(axis, facing(pose.flare, side))
  const top: Vector = [pose.topU, side * (pose.halfGap + innerExtent(axis, face, side, size)), pose.topZ]
  return {
    top,
    knee: along(top, axis, -(size.ankleToTop - size.shank)),
    ankle: along(top, axis, -size.ankleToTop),
    axis,
    face,
    flare: pose.flare,
    footDown: pose.footDown,
  }
}

/** The level direction a pad's face is turned to. */
export function facing(flare: Radians, side: Side): Vector {
  return [Math.cos(flare), side * Math.sin(flare), 0]
}

/** From the pad's inner edge at its top outward to the line of the leg: pads lie half their depth in front of the leg. */
function innerExtent(axis: Vector, face: Vector, side: Side, size: LegSize): Metres {
  const width = cross(face, axis)
  const edge = (size.padWidth * Math.abs(width[1]) + size.padDepth * Math.abs(face[1])) / 2
  return edge - (side * size.padDepth * face[1]) / 2
}

/** A leg that stands: ankle at `feet` from the middle, pad tops `halfGap` apart, thigh and shank of their lengths. */
export function standingLeg(
  hipJoint: Vector,
  side: Side,
  size: LegSize,
  wanted: { readonly feet: Metres; readonly halfGap: Metres; readonly flare: Radians },
): LegPose {
  const ankle: Vector = [0, side * wanted.feet, size.ankleHeight]
  let axis: Vector = [0, 0, 1]
  // the pad's inner edge depends on its roll, its roll on where the knee is: a few rounds settle it
  for (let round = 0; round < 8; round++) {
    const face = across(axis, facing(wanted.flare, side))
    const topV = wanted.halfGap + innerExtent(axis, face, side, size)
    const lean = Math.max(-0.9, Math.min(0.9, (wanted.feet - topV) / size.ankleToTop))
    axis = shankAxis(ankle, hipJoint, size, side, lean)
  }
  return {
    topU: axis[0] * size.ankleToTop,
    topZ: ankle[2] + axis[2] * size.ankleToTop,
    ankleZ: ankle[2],
    turn: Math.atan2(axis[0], -side * axis[1]),
    flare: wanted.flare,
    halfGap: wanted.halfGap,
    footDown: 0,
  }
}

/**
 * Direction of the shank: its inward share is `lean`, and the knee is the forward one of the two points at a shank from
 * the ankle and a thigh from the hip joint in that fore-and-aft plane; where there is none, the nearest to it.
 */
function shankAxis(ankle: Vector, hipJoint: Vector, size: LegSize, side: Side, lean: number): Vector {
  const kneeV = ankle[1] - side * lean * size.shank
  const lower = size.shank * Math.sqrt(1 - lean * lean)
  const upper = Math.sqrt(Math.max(0, size.thigh ** 2 - (kneeV - hipJoint[1]) ** 2))
  const du = hipJoint[0] - ankle[0]
  const dz = hipJoint[2] - ankle[2]
  const distance = Math.sqrt(du * du + dz * dz)
  const foot = (lower * lower - upper * upper + distance * distance) / (2 * distance)
  const share = Math.max(-1, Math.min(1, foot / lower))
  const height = Math.sqrt(1 - share * share)
  // forward of the line from ankle to hip
  const u = share * (du / distance) + height * (dz / distance)
  const z = share * (dz / distance) - height * (du / distance)
  const level = Math.sqrt(1 - lean * lean)
  return [level * u, -side * lean, level * z]
}

/** A leg that is down: pad flat on the ice on its inner edge, face forward and turned out, hip over and behind the knee. */
export function downLeg(
  hipJoint: Vector,
  side: Side,
  size: LegSize,
  wanted: { readonly halfGap: Metres; readonly flare: Radians },
): LegPose {
  const pose: LegPose = {
    topU: 0,
    topZ: size.padWidth / 2,
    ankleZ: size.padWidth / 2 + size.sealGap,
    turn: wanted.flare,
    flare: wanted.flare,
    halfGap: wanted.halfGap,
    footDown: 1,
  }
  // the knee lands a thigh's length ahead of and below the hip joint
  const knee = placeLeg(pose, side, size).knee
  const fall = (hipJoint[1] - knee[1]) ** 2 + (hipJoint[2] - knee[2]) ** 2
  const ahead = Math.sqrt(Math.max(0, size.thigh ** 2 - fall))
  return { ...pose, topU: hipJoint[0] + ahead - knee[0] }
}

/** A leg on its way down: level movement in proportion to `phase`, vertical movement to its square, a free fall. */
export function fallingLeg(from: LegPose, to: LegPose, phase: Probability): LegPose {
  const fall = phase * phase
  return {
    topU: from.topU + phase * (to.topU - from.topU),
    topZ: from.topZ + fall * (to.topZ - from.topZ),
    ankleZ: from.ankleZ + fall * (to.ankleZ - from.ankleZ),
    turn: from.turn + phase * (to.turn - from.turn),
    flare: from.flare + phase * (to.flare - from.flare),
    halfGap: from.halfGap + phase * (to.halfGap - from.halfGap),
    footDown: from.footDown + phase * (to.footDown - from.footDown),
  }
}

/** Level direction of the toe of a placed leg: ahead when it stands, along the pad when it lies. */
export function toeOf(leg: PlacedLeg, side: Side): Vector {
  const ahead = facing(leg.flare, side)
  const size = Math.hypot(leg.axis[0], leg.axis[1])
  const outward: Vector = size < 1e-9 ? ahead : [-leg.axis[0] / size, -leg.axis[1] / size, 0]
  const mixed: Vector = [
    ahead[0] + leg.footDown * (outward[0] - ahead[0]),
    ahead[1] + leg.footDown * (outward[1] - ahead[1]),
    0,
  ]
  return scale(mixed, 1 / Math.hypot(mixed[0], mixed[1]))
}
