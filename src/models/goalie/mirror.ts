import {
  AXIS_0,
  AXIS_1,
  AXIS_2,
  CENTRE,
  GREATEST_V,
  LEAST_V,
  LIMB_STRIDE,
  LIMBS,
  PART_STRIDE,
  type Posture,
} from "../../sim/parts.ts"
import { PARTS } from "./part-names.ts"

/** The same goalie in a mirror: v becomes -v, left parts and limbs change places with right ones. */
export function mirrorPosture(posture: Posture): Posture {
  const partOf = PARTS.map((name) => PARTS.indexOf(otherSide(name) as (typeof PARTS)[number]))
  const limbOf = LIMBS.map((name) => LIMBS.indexOf(otherSide(name) as (typeof LIMBS)[number]))
  return {
    ...posture,
    parts: mirrorParts(posture, partOf),
    // region, carrier and restitution are listed by part: a mirrored left pad is the right pad
    region: posture.region.slice(),
    carrier: posture.carrier.slice(),
    restitution: Float64Array.from(partOf, (from) => posture.restitution[from]!),
    limbs: mirrorLimbs(posture.limbs, limbOf),
    roots: mirrorRoots(posture, limbOf),
  }
}

function otherSide(name: string): string {
  if (name.startsWith("left ")) return name.replace("left ", "right ")
  if (name.startsWith("right ")) return name.replace("right ", "left ")
  return name
}

function mirrorParts(posture: Posture, partOf: readonly number[]): Float64Array {
  const mirrored = new Float64Array(posture.parts.length)
  for (let k = 0; k < posture.phases; k++) {
    partOf.forEach((from, to) => {
      const source = (k * posture.count + from) * PART_STRIDE
      const target = (k * posture.count + to) * PART_STRIDE
      for (let i = 0; i < PART_STRIDE; i++) mirrored[target + i] = posture.parts[source + i]!
      mirrored[target + CENTRE + 1]! *= -1
      mirrored[target + AXIS_0 + 1]! *= -1
      mirrored[target + AXIS_2 + 1]! *= -1
      // a mirrored frame is left-handed: turning its second axis round makes it right-handed again
      mirrored[target + AXIS_1]! *= -1
      mirrored[target + AXIS_1 + 2]! *= -1
    })
  }
  return mirrored
}

function mirrorLimbs(limbs: Float64Array, limbOf: readonly number[]): Float64Array {
  const mirrored = new Float64Array(limbs.length)
  limbOf.forEach((from, to) => {
    const row = limbs.subarray(from * LIMB_STRIDE, (from + 1) * LIMB_STRIDE)
    mirrored.set(row, to * LIMB_STRIDE)
    mirrored[to * LIMB_STRIDE + LEAST_V] = -row[GREATEST_V]!
    mirrored[to * LIMB_STRIDE + GREATEST_V] = -row[LEAST_V]!
  })
  return mirrored
}

function mirrorRoots(posture: Posture, limbOf: readonly number[]): Float64Array {
  const mirrored = new Float64Array(posture.roots.length)
  for (let k = 0; k < posture.phases; k++) {
    limbOf.forEach((from, to) => {
      const source = (k * LIMBS.length + from) * 3
      const target = (k * LIMBS.length + to) * 3
      for (let i = 0; i < 3; i++) mirrored[target + i] = posture.roots[source + i]! * (i === 1 ? -1 : 1)
    })
  }
  return mirrored
}
