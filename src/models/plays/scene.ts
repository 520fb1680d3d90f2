import type { Openness } from "../../sim/mouth-grid.ts"
import type { Posture } from "../../sim/parts.ts"
import { playTable } from "../../sim/play/course.ts"
import type { Pose, Scene } from "../../sim/pose.ts"
import type { Seconds } from "../../sim/units.ts"
import { MOUTH_HALF_WIDTH } from "../../sim/world.ts"
import { withEyes } from "../goalie/eyes.ts"
import { buildPosture } from "../goalie/posture.ts"
import { movementNumbers } from "../movement/movement-numbers.ts"
import { opennessSeen, type SeenGoalie } from "../positioning/openness.ts"
import { poseNumbers } from "../positioning/pose-numbers.ts"
import type { Settings } from "../settings.ts"
import { branchPromises } from "./branch-promises.ts"
import { branchShares } from "./branch-shares.ts"
import { branchesOf, movesBefore } from "./branches.ts"
import { planNumbers } from "./plan-numbers.ts"
import { controlNumbers, reboundOf } from "./rebound.ts"
import { trafficOf } from "./screened-shot.ts"
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
  const branches = branchesOf(first)
  const moving = settingsOfPoses.some((settings) => movesBefore(branches, settings))
  const play = playTable(
    branches.map(({ start, legs, lost }) => ({ ...start, legs, lost })),
    moving,
  )
  const postures: Posture[] = []
  const known = new Map<string, number>()
  const poses: Pose[] = settingsOfPoses.map((settings) => {
    const key = bodyKey(settings)
    let posture = known.get(key)
    if (posture === undefined) {
      posture = postures.push(buildPosture(settings)) - 1
      known.set(key, posture)
    }
    return {
      posture,
      numbers: withEyes(poseNumbers(settings), postures[posture]!),
      movement: movementNumbers(settings),
      plan: planNumbers(settings, branches),
      control: controlNumbers(settings),
    }
  })
  const lookAhead = first.quantities["shooter.look_ahead"]
  const seen =
    (branch: number, before: Seconds): Openness =>
    (pose, x, y, z, grid, puckX, puckY) => {
      const { posture, numbers } = poses[pose]!
      const goalie: SeenGoalie = {
        posture: postures[posture]!,
        numbers,
        mouthHalfWidth: world[MOUTH_HALF_WIDTH]!,
        butterflyBelief: first.quantities["shooter.butterfly_belief"],
      }
      const station = stationSeen(goalie, poses[pose]!, world, play, branch, puckX, puckY, before)
      return opennessSeen({ ...goalie, station }, puckX, puckY, x, y, z, grid)
    }
  // a carrier sees what an own shot would meet, and reckons how far across a pass would find the goalie
  const passed = (branch: number) => branches[branch]!.legs.at(-1)?.kind === "pass"
  const reckoned = (branch: number) => seen(branch, passed(branch) ? 0 : lookAhead)
  const shares = branchShares(settingsOfPoses, () => branchPromises(settingsOfPoses, branches, reckoned))
  const openness = (branch: number) => seen(branch, lookAhead)
  const { strata, spots } = buildStrata(settingsOfPoses, branches, shares, openness)
  return { world, play, traffic: trafficOf(first), rebound: reboundOf(first), strata, spots, postures, poses }
}

/** Keys that place or time the goalie and leave the body as it is. */
const BODILESS =
  /^goalie\.(depth|depth_.*|start_depth|leaves_start_at|in_place_at|cheat|off_line_error|angle_.*|turn_error|post_turn|stand_off|reaction_.*|drop_.*|high_.*|peek|look_needed|lead_kept|holds_.*|gear_friction|rebound_scatter|covers_.*|recovery_time|block_(never|always|lead)|answer|unset_penalty)$/

/** Equal for settings with equal bodies. */
function bodyKey(settings: Settings): string {
  const parts: string[] = []
  for (const [key, value] of Object.entries(settings.quantities))
    if (key.startsWith("goalie.") && !BODILESS.test(key)) parts.push(`${key}=${value}`)
  for (const [key, name] of Object.entries(settings.choices))
    if (key.startsWith("goalie.") && !BODILESS.test(key)) parts.push(`${key}=${name}`)
  return parts.join(";")
}
