import { LIMBS, type Limb, NO_LIMB, REGIONS, type Region } from "../../sim/parts.ts"

/** The parts of the goalie's body, in the order of the rows of a posture. */
export const PARTS = [
  "catching glove",
  "blocker",
  "stick blade",
  "paddle",
  "left pad",
  "right pad",
  "left skate",
  "right skate",
  "left thigh",
  "right thigh",
  "pants",
  "torso",
  "shoulders",
  "mask",
  "left upper arm",
  "right upper arm",
  "left forearm",
  "right forearm",
] as const
export type Part = (typeof PARTS)[number]

/** What a report calls the part, and the limb that carries it. */
const BELONGS: Readonly<Record<Part, readonly [Region, Limb | undefined]>> = {
  "catching glove": ["catching glove", "glove hand"],
  blocker: ["blocker", "blocker hand"],
  "stick blade": ["stick", "stick"],
  paddle: ["stick", "stick"],
  "left pad": ["left pad", "left leg"],
  "right pad": ["right pad", "right leg"],
  "left skate": ["skates", "left leg"],
  "right skate": ["skates", "right leg"],
  "left thigh": ["body", undefined],
  "right thigh": ["body", undefined],
  pants: ["body", undefined],
  torso: ["body", "trunk"],
  shoulders: ["body", "trunk"],
  mask: ["mask", "trunk"],
  "left upper arm": ["arms", undefined],
  "right upper arm": ["arms", undefined],
  "left forearm": ["arms", undefined],
  "right forearm": ["arms", undefined],
}

/** [parts] index of each part's region in REGIONS. */
export function partRegions(): Uint8Array {
  return Uint8Array.from(PARTS, (part) => REGIONS.indexOf(BELONGS[part][0]))
}

/** [parts] index in LIMBS of the limb that carries each part, or NO_LIMB. */
export function partCarriers(): Uint8Array {
  return Uint8Array.from(PARTS, (part) => {
    const limb = BELONGS[part][1]
    return limb === undefined ? NO_LIMB : LIMBS.indexOf(limb)
  })
}
