import {
  BAR_RADIUS,
  IRON_FRICTION,
  IRON_RESTITUTION,
  MOUTH_HALF_WIDTH,
  MOUTH_HEIGHT,
  POST_RADIUS,
} from "../../sim/world.ts"
import type { Settings } from "../settings.ts"
import { chosenFrame } from "./chosen-frame.ts"

/** Writes the goal's columns of a world. */
export function fillGoal(world: Float64Array, settings: Settings): void {
  const frame = chosenFrame(settings)
  world[MOUTH_HALF_WIDTH] = 0.5 * frame.width
  world[MOUTH_HEIGHT] = frame.height
  world[POST_RADIUS] = 0.5 * frame.postDiameter
  world[BAR_RADIUS] = 0.5 * frame.barDiameter
  world[IRON_RESTITUTION] = settings.quantities["goal.iron_restitution"]
  world[IRON_FRICTION] = settings.quantities["goal.iron_friction"]
}
