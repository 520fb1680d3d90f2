import type { Metres } from "../../sim/units.ts"
import { MOUTH_HALF_WIDTH } from "../../sim/world.ts"
import { buildPosture, nearPost } from "../goalie/posture.ts"
import { originCells } from "../plays/origin-cells.ts"
import { worldOf } from "../plays/world.ts"
import type { Settings } from "../settings.ts"
import { standFor } from "./stand-for.ts"

/** Stances that seal a post. */
const POST_TECHNIQUES: readonly string[] = ["overlap", "lean", "VH", "RVH"]

/**
 * How far the outer edge of the near skate is from the inside of the post that the stance seals, m, on the goal line: the mean
 * over the play's places, for a goalie in place without errors. Null for a stance that seals no post.
 */
export function wayToPost(settings: Settings): Metres | null {
  if (!POST_TECHNIQUES.includes(settings.choices["goalie.stance"])) return null
  const world = worldOf(settings)
  const posture = buildPosture(settings)
  const side = nearPost(settings) === "left" ? 1 : -1
  let mean = 0
  for (const { weight, x, y } of originCells(settings).cells) {
    const { gx, gy, heading } = standFor(settings, posture, world, x, y)
    const out = gx - side * posture.halfStance * Math.sin(heading)
    const across = gy + side * posture.halfStance * Math.cos(heading)
    mean += weight * Math.hypot(out, across - side * world[MOUTH_HALF_WIDTH]!)
  }
  return mean
}
