import { AXIS_0, AXIS_1, AXIS_2, CENTRE, HALF_SIZE, PART_STRIDE, ROUNDING } from "../../sim/parts.ts"
import type { Metres } from "../../sim/units.ts"
import type { PlacedArm } from "./arm.ts"
import type { Person } from "./key-pose.ts"
import { type PlacedLeg, type Side, toeOf } from "./leg.ts"
import { PARTS, type Part } from "./part-names.ts"
import type { Skeleton } from "./skeleton.ts"
import { across, add, along, between, cross, length, scale, subtract, unit, type Vector } from "./vector.ts"

/** Where the parts of one phase are written. */
export interface PartSheet {
  readonly parts: Float64Array
  /** First number of this phase in `parts`. */
  readonly offset: number
}

/** A part as it is built: its long axis, the direction its face should have, and its outer size along axis, width, face. */
interface Box {
  readonly centre: Vector
  readonly axis: Vector
  readonly face: Vector
  readonly size: readonly [Metres, Metres, Metres]
  readonly rounding: Metres
}

/** Writes one part. The face is turned until it is across the axis; the rounding never exceeds half the least size. */
function put(sheet: PartSheet, part: Part, box: Box): void {
  const at = sheet.offset + PARTS.indexOf(part) * PART_STRIDE
  const face = across(box.axis, box.face)
  const width = cross(face, box.axis)
  const rounding = Math.min(box.rounding, ...box.size.map((size) => size / 2))
  sheet.parts.set(box.centre, at + CENTRE)
  sheet.parts.set(box.axis, at + AXIS_0)
  sheet.parts.set(width, at + AXIS_1)
  sheet.parts.set(face, at + AXIS_2)
  for (let i = 0; i < 3; i++) sheet.parts[at + HALF_SIZE + i] = Math.max(0, box.size[i]! / 2 - rounding)
  sheet.parts[at + ROUNDING] = rounding
}

const FORWARD: Vector = [1, 0, 0]
const UP: Vector = [0, 0, 1]

/** Writes every part of one phase. `catching` is the side of the catching glove. */
export function writeParts(sheet: PartSheet, skeleton: Skeleton, person: Person, catching: Side): void {
  writeLeg(sheet, skeleton.left, skeleton.leftHip, 1, person)
  writeLeg(sheet, skeleton.right, skeleton.rightHip, -1, person)
  writeTrunk(sheet, skeleton, person, catching)
  writeArm(sheet, skeleton.leftArm, 1, person)
  writeArm(sheet, skeleton.rightArm, -1, person)
  const [gloveArm, blockerArm] =
    catching === 1 ? [skeleton.leftArm, skeleton.rightArm] : [skeleton.rightArm, skeleton.leftArm]
  writeGlove(sheet, gloveArm, skeleton.gloveOpening, catching, person)
  writeBlocker(sheet, blockerArm, catching === 1 ? -1 : 1, person)
  writeStick(sheet, skeleton, blockerArm, catching === 1 ? -1 : 1, person)
}

/** Heel of the foot behind the ankle, as a share of the foot (from memory, an assumption). */
const HEEL_SHARE = 0.25
/** Height of a skate with the boot of the pad over it, m (an assumption). */
const SKATE_BODY: Metres = 0.12

/** Pad along the shank and above the knee, skate with the boot of the pad over it, thigh from hip joint to knee. */
function writeLeg(sheet: PartSheet, leg: PlacedLeg, hipJoint: Vector, side: Side, person: Person): void {
  const { body, gear, leg: size } = person
  const name = side === 1 ? "left" : "right"
  const middle = along(leg.ankle, leg.axis, size.ankleToTop / 2)
  put(sheet, `${name} pad`, {
    centre: along(middle, leg.face, gear.padDepth / 2),
    axis: leg.axis,
    face: leg.face,
    size: [size.ankleToTop, gear.padWidth, gear.padDepth],
    rounding: 0.03,
  })
  const toe = toeOf(leg, side)
  const heel = HEEL_SHARE * body.foot
  const longest = Math.max(body.foot, heel + gear.boot)
  const onSide = gear.bootWidth / 2 + size.sealGap
  const height = SKATE_BODY / 2 + leg.footDown * (onSide - SKATE_BODY / 2)
  const foot = along(leg.ankle, toe, longest / 2 - heel)
  put(sheet, `${name} skate`, {
    centre: [foot[0], foot[1], height],
    axis: toe,
    face: between(UP, leg.face, leg.footDown),
    size: [longest, gear.bootWidth, SKATE_BODY],
    rounding: 0.03,
  })
  const thighRadius = Math.min(body.thighRadius + gear.bodyPadding, gear.thighGuardWidth / 2)
  put(sheet, `${name} thigh`, {
    centre: between(hipJoint, leg.knee, 0.5),
    axis: unit(subtract(leg.knee, hipJoint)),
    face: FORWARD,
    size: [body.thigh + thighRadius, 2 * thighRadius, 2 * thighRadius],
    rounding: thighRadius,
  })
}

/** Pants about the hips, chest protector along the trunk, shoulders across it, mask above. */
function writeTrunk(sheet: PartSheet, skeleton: Skeleton, person: Person, catching: Side): void {
  const { body, gear } = person
  const pad = gear.bodyPadding
  put(sheet, "pants", {
    centre: along(skeleton.hips, skeleton.spine, 0.04 * body.scale),
    axis: skeleton.spine,
    face: FORWARD,
    size: [0.3 * body.scale, 2 * (body.halfHips + pad), 2 * (body.halfChestDepth + pad)],
    rounding: 0.1 * body.scale,
  })
  put(sheet, "torso", {
    centre: along(skeleton.hips, skeleton.spine, 0.56 * body.trunk),
    axis: skeleton.spine,
    face: FORWARD,
    size: [0.92 * body.trunk, 2 * (body.halfChest + pad), 2 * (body.halfChestDepth + pad)],
    rounding: 0.1 * body.scale,
  })
  const shoulder = body.deltoidRadius + gear.armPadding
  put(sheet, "shoulders", {
    centre: along(skeleton.chestTop, skeleton.spine, -0.03 * body.scale),
    // toward the catching hand, so that a mirrored goalie has the mirrored axis
    axis: scale(skeleton.across, catching),
    face: FORWARD,
    size: [2 * (body.halfShoulders + shoulder), 2 * shoulder, 2 * shoulder],
    rounding: shoulder,
  })
  // the head is held up more than the trunk: half of its lean
  const headUp = unit(add(skeleton.spine, UP))
  const wide = body.headBreadth + 2 * gear.armPadding
  put(sheet, "mask", {
    centre: add(along(skeleton.chestTop, headUp, body.neck), [0.03 * body.scale, 0, 0]),
    axis: headUp,
    face: FORWARD,
    size: [body.head + gear.armPadding, wide, wide + 0.04 * body.scale],
    rounding: 0.11 * body.scale,
  })
}

/** Upper arm and forearm with their padding. */
function writeArm(sheet: PartSheet, arm: PlacedArm, side: Side, person: Person): void {
  const { body, gear } = person
  const name = side === 1 ? "left" : "right"
  const upper = body.deltoidRadius + gear.armPadding
  const lower = 0.8 * upper
  put(sheet, `${name} upper arm`, {
    centre: between(arm.shoulder, arm.elbow, 0.5),
    axis: unit(subtract(arm.elbow, arm.shoulder)),
    face: FORWARD,
    size: [body.upperArm + upper, 2 * upper, 2 * upper],
    rounding: upper,
  })
  put(sheet, `${name} forearm`, {
    centre: between(arm.elbow, arm.hand, 0.5),
    axis: unit(subtract(arm.hand, arm.elbow)),
    face: UP,
    size: [body.forearm, 2 * lower, 2 * lower],
    rounding: lower,
  })
}

/** Share of an open glove's breadth that a closed one keeps (an assumption). */
const CLOSED_GLOVE = 0.45

/** Catching glove: a rounded plate as far around as its perimeter; closing it takes breadth and leaves height. */
function writeGlove(sheet: PartSheet, arm: PlacedArm, opening: number, side: Side, person: Person): void {
  const { gear } = person
  const rounding = gear.gloveDepth / 2
  // perimeter of a rounded square: 4 (side - 2 r) + 2 pi r
  const across4 = Math.max(0, gear.glovePerimeter - 2 * Math.PI * rounding)
  const open = across4 / 4 + 2 * rounding
  const breadth = open * (CLOSED_GLOVE + (1 - CLOSED_GLOVE) * opening)
  put(sheet, "catching glove", {
    centre: arm.hand,
    axis: unit([0.1, side * 0.25, 1]),
    face: FORWARD,
    size: [open, breadth, gear.gloveDepth],
    rounding,
  })
}

/** Blocker board on the back of the stick hand, its face to the puck, its top turned a little out. */
function writeBlocker(sheet: PartSheet, arm: PlacedArm, side: Side, person: Person): void {
  const { gear } = person
  put(sheet, "blocker", {
    centre: add(arm.hand, [gear.blockerDepth / 2, 0, 0]),
    axis: unit([-0.2, side * 0.2, 1]),
    face: FORWARD,
    size: [gear.blockerLength, gear.blockerWidth, gear.blockerDepth],
    rounding: 0.025,
  })
}

/** Blade flat on the ice, or off it, ahead of the five-hole, heel toward the stick hand; paddle from the heel up to that hand. */
function writeStick(sheet: PartSheet, skeleton: Skeleton, arm: PlacedArm, side: Side, person: Person): void {
  const { gear } = person
  const { blade } = skeleton
  const middle = skeleton.bladeLift + gear.bladeHeight / 2
  put(sheet, "stick blade", {
    centre: [blade, 0, middle],
    axis: [0, -side, 0],
    face: FORWARD,
    size: [gear.bladeLength, gear.bladeHeight, gear.stickThickness],
    rounding: gear.stickThickness / 2,
  })
  const heel: Vector = [blade, (side * gear.bladeLength) / 2, middle]
  const up = subtract(arm.hand, heel)
  const axis = length(up) === 0 ? UP : unit(up)
  put(sheet, "paddle", {
    centre: add(heel, scale(axis, gear.paddleLength / 2)),
    axis,
    face: FORWARD,
    size: [gear.paddleLength, gear.paddleWidth, gear.stickThickness],
    rounding: gear.stickThickness / 2,
  })
}
