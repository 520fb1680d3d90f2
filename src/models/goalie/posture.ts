import { LIMBS, PART_STRIDE, type Posture, REGIONS, type Region } from "../../sim/parts.ts"
import type { Metres, Probability } from "../../sim/units.ts"
import type { Origin } from "../plays/origin.ts"
import type { Settings } from "../settings.ts"
import { type BodySize, bodySize } from "./body-size.ts"
import { chosenStances } from "./chosen-stance.ts"
import { type GearSize, gearSize } from "./gear-size.ts"
import { fallingPose, keyPose, type Person } from "./key-pose.ts"
import type { LegSize, Side } from "./leg.ts"
import { limbTable } from "./limb-table.ts"
import { mirrorPosture } from "./mirror.ts"
import { type Opening, openStance } from "./opening.ts"
import { writeParts } from "./part-boxes.ts"
import { extentOf } from "./part-extent.ts"
import { PARTS, partCarriers, partRegions } from "./part-names.ts"
import { placeSkeleton, type Skeleton } from "./skeleton.ts"
import type { Stance } from "./stance.ts"

/** Key phases of the drop, equally spaced: midway between two of them pads are within 5 mm and skates within 10 mm. */
export const PHASES = 9

/**
 * The goalie's body as the engine sees it: parts at every key phase of the drop, limbs and where they are rooted, from
 * stature and mass, gear and stance. Catching on the right gives the mirror image of catching on the left, and a post
 * technique at the right post that of one at the left. `opening`: as a movement leaves it.
 */
export function buildPosture(settings: Settings, opening: Opening | null = null): Posture {
  const catching: Side = settings.choices["goalie.catches"] === "left" ? 1 : -1
  if (nearPost(settings) === "left") return buildAtLeftPost(settings, catching, opening)
  return mirrorPosture(buildAtLeftPost(settings, catching === 1 ? -1 : 1, opening))
}

/** The post a technique seals: as chosen, or on the side most shots come from (the left when they come straight). */
export function nearPost(settings: Settings): "left" | "right" {
  const chosen = settings.choices["goalie.near_post"]
  if (chosen === "left" || chosen === "right") return chosen
  if (settings.origins.length === 0) return settings.quantities["play.angle"] < 0 ? "right" : "left"
  let side = 0
  for (const origin of settings.origins) side += origin.weight * sideOf(origin)
  return side < 0 ? "right" : "left"
}

/** Positive where an origin lies on the goalie's left. */
function sideOf(origin: Origin): number {
  if (origin.kind === "spot") return Math.sign(origin.y)
  if (origin.kind === "wedge") return Math.sign(origin.from + origin.to)
  return Math.sign(origin.corners.reduce((sum, corner) => sum + corner[1], 0))
}

function buildAtLeftPost(settings: Settings, catching: Side, opening: Opening | null): Posture {
  const person = personOf(settings)
  const { stance, down } = chosenStances(settings, person.body)
  const opened = (closed: Stance, share: Probability): Stance =>
    opening === null ? closed : openStance(closed, opening, share, person.body)
  const start = keyPose(opened(stance, 1), person)
  // the fall ends where one from the set stance does
  const end = keyPose(opened(down, opening?.leftWhenDown ?? 0), person, -keyPose(stance, person).hips[0])

  // the same body at each key phase of the fall
  const parts = new Float64Array(PHASES * PARTS.length * PART_STRIDE)
  const roots = new Float64Array(PHASES * LIMBS.length * 3)
  for (let k = 0; k < PHASES; k++) {
    const skeleton = placeSkeleton(fallingPose(start, end, k / (PHASES - 1)), person)
    writeParts({ parts, offset: k * PARTS.length * PART_STRIDE }, skeleton, person, catching)
    writeRoots(roots, k * LIMBS.length * 3, skeleton, catching)
  }

  const region = partRegions()
  return {
    phases: PHASES,
    count: PARTS.length,
    parts,
    region,
    carrier: partCarriers(),
    restitution: Float64Array.from(region, (index) => restitutionOf(REGIONS[index]!, settings)),
    limbs: limbTable(settings, person.body, catching),
    roots,
    halfStance: halfStanceOf(parts, stance, person),
    foremost: foremostOf(parts),
    leak: settings.quantities["goalie.leak"],
  }
}

/** Body, gear and the lengths of a leg in its pad. */
function personOf(settings: Settings): Person {
  const body = bodySize(settings)
  const gear = gearSize(settings)
  return { body, gear, leg: legSize(body, gear, settings.quantities["goalie.seal_gap"]) }
}

function legSize(body: BodySize, gear: GearSize, sealGap: Metres): LegSize {
  return {
    thigh: body.thigh,
    shank: body.shank,
    ankleToTop: gear.padLength - gear.boot,
    padWidth: gear.padWidth,
    padDepth: gear.padDepth,
    ankleHeight: gear.ankleHeight,
    sealGap,
  }
}

/** Shoulders hold the hands and the stick, hips the legs, the pelvis the trunk. */
function writeRoots(roots: Float64Array, offset: number, skeleton: Skeleton, catching: Side): void {
  const glove = catching === 1 ? skeleton.leftArm.shoulder : skeleton.rightArm.shoulder
  const blocker = catching === 1 ? skeleton.rightArm.shoulder : skeleton.leftArm.shoulder
  const points = [glove, blocker, blocker, skeleton.leftHip, skeleton.rightHip, skeleton.hips]
  points.forEach((point, limb) => {
    roots.set(point, offset + 3 * limb)
  })
}

function restitutionOf(region: Region, settings: Settings): number {
  const q = settings.quantities
  switch (region) {
    case "catching glove":
      return q["goalie.glove_restitution"]
    case "blocker":
      return q["goalie.blocker_restitution"]
    case "stick":
    case "skates":
      return q["goalie.stick_restitution"]
    case "left pad":
    case "right pad":
      return q["goalie.pad_restitution"]
    case "mask":
      return q["goalie.mask_restitution"]
    case "body":
    case "arms":
      return q["goalie.body_restitution"]
  }
}

/**
 * From the middle to the outer edge of the near skate. On both knees a toe may lie in front of the post, so that what must
 * stay inside is the stance the goalie came from.
 */
function halfStanceOf(parts: Float64Array, stance: Stance, person: Person): Metres {
  if (stance.nearDown === 1 && stance.farDown === 1) {
    return (stance.feetWidth + person.gear.bootWidth) / 2
  }
  return extentOf(parts, PARTS.indexOf("left skate") * PART_STRIDE, 1).most
}

/** Foremost point of all parts over the whole drop. */
function foremostOf(parts: Float64Array): Metres {
  let foremost = 0
  for (let at = 0; at < parts.length; at += PART_STRIDE) foremost = Math.max(foremost, extentOf(parts, at, 0).most)
  return foremost
}
