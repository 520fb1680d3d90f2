import type { Openness } from "../../sim/mouth-grid.ts"
import type { Posture } from "../../sim/parts.ts"
import type { Pose, Scene } from "../../sim/pose.ts"
import { MOUTH_HALF_WIDTH } from "../../sim/world.ts"
import { buildPosture } from "../goalie/posture.ts"
import { movementNumbers } from "../movement/movement-numbers.ts"
import { opennessSeen, type SeenGoalie } from "../positioning/openness.ts"
import { poseNumbers } from "../positioning/pose-numbers.ts"
import type { Settings } from "../settings.ts"
import { playNumbers } from "./play-numbers.ts"
import { stationSeen } from "./station-seen.ts"
import { buildStrata } from "./strata.ts"
import { worldOf } from "./world.ts"

/**
 * Compiles design points that differ in the goalie alone into one scene: pose p is settings p. Points whose bodies are
 * equal share a posture. Throws a RangeError when there are no settings.
 */
export function compileScene(settingsOfPoses: readonly Settings[]): Scene {
  const first = settingsOfPoses[0]
  if (first === undefined)
    throw new RangeError("Cannot compile a scene as the number of poses must be > 0: current value is 0")
  const world = worldOf(first)
  const play = playNumbers(first)
  const postures: Posture[] = []
  const known = new Map<string, number>()
  const poses: Pose[] = settingsOfPoses.map((settings) => {
    const key = bodyKey(settings)
    let posture = known.get(key)
    if (posture === undefined) {
      posture = postures.push(buildPosture(settings)) - 1
      known.set(key, posture)
    }
    return { posture, numbers: poseNumbers(settings), movement: movementNumbers(settings) }
  })
  const openness: Openness = (pose, x, y, z, grid, puckX, puckY) => {
    const { posture, numbers, movement } = poses[pose]!
    const goalie: SeenGoalie = {
      posture: postures[posture]!,
      numbers,
      mouthHalfWidth: world[MOUTH_HALF_WIDTH]!,
      butterflyBelief: first.quantities["shooter.butterfly_belief"],
    }
    const station = stationSeen(goalie, movement, world, play, puckX, puckY, first.quantities["shooter.look_ahead"])
    return opennessSeen({ ...goalie, station }, puckX, puckY, x, y, z, grid)
  }
  const { strata, spots } = buildStrata(settingsOfPoses, openness)
  return { world, play, strata, spots, postures, poses }
}

/** Keys that place or time the goalie and leave the body as it is. */
const BODILESS =
  /^goalie\.(depth|depth_.*|off_line_error|angle_.*|turn_error|stand_off|reaction_.*|drop_.*|high_.*|block_(never|always|lead)|answer|unset_penalty)$/

/** Equal for settings with equal bodies. */
function bodyKey(settings: Settings): string {
  const parts: string[] = []
  for (const [key, value] of Object.entries(settings.quantities))
    if (key.startsWith("goalie.") && !BODILESS.test(key)) parts.push(`${key}=${value}`)
  for (const [key, name] of Object.entries(settings.choices))
    if (key.startsWith("goalie.") && !BODILESS.test(key)) parts.push(`${key}=${name}`)
  return parts.join(";")
}
