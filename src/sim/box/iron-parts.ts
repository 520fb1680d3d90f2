import { PART_STRIDE, ROUNDING } from "../parts.ts"
import { BOX_RECORD, CLEARANCE, clearancePath } from "../rounded-box.ts"
import type { Metres } from "../units.ts"
import type { Mouth, Sight } from "./sight.ts"

/** Posts and bar of the goal as a table of three capsules: left post, right post, bar. */
export const IRON_COUNT = 3

/** Left post, right post and bar, [IRON_COUNT x PART_STRIDE], rink frame. */
export function ironParts(mouth: Mouth): Float64Array {
  const parts = new Float64Array(IRON_COUNT * PART_STRIDE)
  const side = 0.5 * mouth.width + mouth.postRadius
  const top = mouth.height + mouth.barRadius
  const upright = 0.5 * top
  setIron(parts, 0, [0, side, upright], [0, 0, upright], mouth.postRadius)
  setIron(parts, 1, [0, -side, upright], [0, 0, upright], mouth.postRadius)
  setIron(parts, 2, [0, 0, top], [0, side, 0], mouth.barRadius)
  return parts
}

function setIron(parts: Float64Array, part: number, centre: number[], half: number[], radius: Metres): void {
  const at = part * PART_STRIDE
  parts.set([...centre, 1, 0, 0, 0, 1, 0, 0, 0, 1, ...half], at)
  parts[at + ROUNDING] = radius
}

/** A body's parts followed by the iron: everything a puck can touch on its way in. */
export function withIron(parts: Float64Array, mouth: Mouth): Float64Array {
  const iron = ironParts(mouth)
  const all = new Float64Array(parts.length + iron.length)
  all.set(parts)
  all.set(iron, parts.length)
  return all
}

/**
 * Stretch of the goal line on which the centre of what travels crosses between the posts, at any height under the bar: the
 * posts are upright and the disc is level, so seen from above a post is a circle larger by the disc's radius. Beside the
 * puck the path comes nearest to it at its end, else where it touches the circle. Null where the puck starts above the
 * posts, or too near the goal line for that. Without length where it is nowhere.
 */
export function betweenPosts({ px, py, pz, discRadius }: Sight, mouth: Mouth): [Metres, Metres] | null {
  const circle = mouth.postRadius + discRadius
  if (pz > mouth.height + mouth.barRadius || px <= circle) return null
  const side = 0.5 * mouth.width + mouth.postRadius
  const inward = (beside: Metres): Metres => {
    if (beside >= circle) return circle
    const touching = Math.sqrt(px * px + beside * beside - circle * circle)
    return (circle * (px * touching - circle * beside)) / (px * px - circle * circle)
  }
  const right = inward(side + py) - side
  const left = side - inward(side - py)
  // from far round one post hides what the other leaves
  return right < left ? [right, left] : [0.5 * mouth.width, 0.5 * mouth.width]
}

/** Height at which the centre of what travels just clears the bar, m; for light the lower edge of the bar as seen. */
export function clearTop(sight: Sight, mouth: Mouth): Metres {
  const { px, py, pz, discRadius, discHalf } = sight
  const bar = ironParts(mouth).subarray(2 * PART_STRIDE)
  const out = new Float64Array(BOX_RECORD)
  let low = 0
  let high = mouth.height
  for (let step = 0; step < 60; step++) {
    const z = 0.5 * (low + high)
    clearancePath(bar, 0, px, py, pz, -px, -py, z - pz, 0, 1, discRadius, discHalf, out)
    if (out[CLEARANCE]! > 0) low = z
    else high = z
  }
  return 0.5 * (low + high)
}
