import { type PlacedArm, placeArm } from "./arm.ts"
import type { KeyPose, Person } from "./key-pose.ts"
import { type PlacedLeg, placeLeg, type Side } from "./leg.ts"
import { along, type Vector } from "./vector.ts"

/** Where every joint is, goalie frame. Side "left" is v > 0. */
export interface Skeleton {
  readonly hips: Vector
  /** Unit vectors: up the trunk, and from the right shoulder to the left. */
  readonly spine: Vector
  readonly across: Vector
  /** Middle of the line of the shoulders. */
  readonly chestTop: Vector
  readonly left: PlacedLeg
  readonly right: PlacedLeg
  readonly leftHip: Vector
  readonly rightHip: Vector
  readonly leftArm: PlacedArm
  readonly rightArm: PlacedArm
  /** How far the stick blade is ahead of the skates' midpoint. */
  readonly blade: number
  /** How high it is off the ice. */
  readonly bladeLift: number
  readonly gloveOpening: number
}

/** Elbows hang down, a little out and back (an assumption). */
const ELBOW: Vector = [-0.6, 0.35, -0.6]

/** Joints of one posture: legs from the ice up, trunk from the hips, arms from the shoulders to the wanted hands. */
export function placeSkeleton(pose: KeyPose, person: Person): Skeleton {
  const { body, leg } = person
  const [lean, tilt] = [pose.torsoLean, pose.sideLean]
  const spine: Vector = [Math.sin(lean), Math.cos(lean) * Math.sin(tilt), Math.cos(lean) * Math.cos(tilt)]
  const acrossBody: Vector = [0, Math.cos(tilt), -Math.sin(tilt)]
  const chestTop = along(pose.hips, spine, body.trunk)
  const arm = (side: Side, hand: Vector): PlacedArm =>
    placeArm(along(chestTop, acrossBody, side * body.halfShoulders), hand, body.upperArm, body.forearm, [
      ELBOW[0],
      side * ELBOW[1],
      ELBOW[2],
    ])
  return {
    hips: pose.hips,
    spine,
    across: acrossBody,
    chestTop,
    left: placeLeg(pose.left, 1, leg),
    right: placeLeg(pose.right, -1, leg),
    leftHip: [pose.hips[0], pose.hips[1] + body.hipJoint, pose.hips[2]],
    rightHip: [pose.hips[0], pose.hips[1] - body.hipJoint, pose.hips[2]],
    leftArm: arm(1, pose.leftHand),
    rightArm: arm(-1, pose.rightHand),
    blade: pose.blade,
    bladeLift: pose.bladeLift,
    gloveOpening: pose.gloveOpening,
  }
}
