import { GRAVITY, WORLD_LENGTH } from "../../sim/world.ts"
import { fillGoal } from "../goal/fill-goal.ts"
import { fillPuck } from "../puck/fill-puck.ts"
import type { Settings } from "../settings.ts"

/** The world of the settings: air, ice, puck and iron as the kernels read them. */
export function worldOf(settings: Settings): Float64Array {
  const world = new Float64Array(WORLD_LENGTH)
  world[GRAVITY] = settings.quantities["rink.gravity"]
  fillPuck(world, settings)
  fillGoal(world, settings)
  return world
}
