import { AXIS_0, CENTRE, HALF_SIZE, PART_STRIDE, type Posture, REGIONS, ROUNDING } from "../../sim/parts.ts"
import { EYE_U } from "../../sim/pose.ts"

/** Fills in where a body has its eyes, the front of the mask in the stance, and returns the pose's numbers. */
export function withEyes(numbers: Float64Array, { parts, region }: Posture): Float64Array {
  const at = region.indexOf(REGIONS.indexOf("mask")) * PART_STRIDE
  let ahead = parts[at + ROUNDING]!
  for (let i = 0; i < 3; i++) ahead += parts[at + HALF_SIZE + i]! * Math.abs(parts[at + AXIS_0 + 3 * i]!)
  numbers.set([parts[at + CENTRE]! + ahead, parts[at + CENTRE + 1]!, parts[at + CENTRE + 2]!], EYE_U)
  return numbers
}
