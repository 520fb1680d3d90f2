import type { Openness } from "../../sim/mouth-grid.ts"
import type { OpenBody, Posture } from "../../sim/parts.ts"
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
import { goalieSeen } from "./goalie-seen.ts"
import { openLanes } from "./lanes.ts"
import { openBodiesOf } from "./open-bodies.ts"
import { planNumbers } from "./plan-numbers.ts"
import { controlNumbers, reboundOf } from "./rebound.ts"
import { trafficOf } from "./screened-shot.ts"
import { buildStrata, spotsOf } from "./strata.ts"
import { worldOf } from "./world.ts"

/**
 * Compiles design points that differ in the goalie alone into one scene: pose p is settings p. Points whose bodies are
 * equal share a posture. Throws a RangeError when there are no settings.
 */
export function compileScene(settingsOfPoses: readonly Settings[]): Scene {
  const { first, branches, moving, play, traffic, rebound } = playOf(settingsOfPoses)
  const world = worldOf(first)
  const postures: Posture[] = []
  const opened: OpenBody[][] = []
  const known = new Map<string, number>()
  const poses: Pose[] = settingsOfPoses.map((settings) => {
    const onTheWay = moving || rebound.length > 0
    const key = bodyKey(settings, onTheWay)
    let posture = known.get(key)
    if (posture === undefined) {
      posture = postures.push(buildPosture(settings)) - 1
      opened.push(onTheWay ? openBodiesOf(settings) : [])
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
  const seen = lookerOf(first, { world, play, traffic, postures, opened, poses })
  // a carrier sees what an own shot would meet, and reckons how far across a pass would find the goalie
  const passed = (branch: number) => branches[branch]!.legs.at(-1)?.kind === "pass"
  const reckoned = (branch: number) => seen(branch, passed(branch) ? 0 : lookAhead)
  const shares = branchShares(settingsOfPoses, () => branchPromises(settingsOfPoses, branches, reckoned))
  const openness = (branch: number) => seen(branch, lookAhead)
  const { strata, spots } = buildStrata(settingsOfPoses, branches, shares, openness)
  return { world, play, traffic, rebound, strata, spots, postures, opened, poses }
}

/** What is known of a scene before its bodies are built and the ways to shoot are found. */
export interface SceneOutline extends Pick<Scene, "play" | "traffic" | "rebound" | "spots"> {
  /** As many as there will be. */
  readonly poses: readonly unknown[]
}

/** The outline of what {@link compileScene} would make of the same settings. */
export function outlineScene(settingsOfPoses: readonly Settings[]): SceneOutline {
  const { branches, play, traffic, rebound } = playOf(settingsOfPoses)
  return { play, traffic, rebound, spots: spotsOf(branches), poses: settingsOfPoses }
}

/** What happens before the shot and after it, alike for all poses. */
function playOf(settingsOfPoses: readonly Settings[]) {
  const first = settingsOfPoses[0]
  if (first === undefined)
    throw new RangeError("Cannot compile a scene as the number of poses must be > 0: current value is 0")
  const branches = branchesOf(first)
  const moving = settingsOfPoses.some((settings) => movesBefore(branches, settings))
  const play = playTable(
    branches.map(({ start, legs, lost }) => ({ ...start, legs, lost })),
    moving,
  )
  return { first, branches, moving, play, traffic: trafficOf(first), rebound: reboundOf(first) }
}

/** What a shooter in a branch sees open of each pose, so long before the release: past goalie and bodies in the way. */
function lookerOf(
  settings: Settings,
  { world, play, traffic, postures, opened, poses }: Omit<Scene, "rebound" | "strata" | "spots">,
): (branch: number, before: Seconds) => Openness {
  const q = settings.quantities
  return (branch, before) => (pose, x, y, z, grid, puckX, puckY) => {
    const { posture, numbers } = poses[pose]!
    const goalie: SeenGoalie = {
      posture: postures[posture]!,
      numbers,
      mouthHalfWidth: world[MOUTH_HALF_WIDTH]!,
      butterflyBelief: q["shooter.butterfly_belief"],
    }
    const asSeen = goalieSeen(goalie, poses[pose]!, opened[posture]!, world, play, branch, puckX, puckY, before)
    const beside = opennessSeen({ ...goalie, ...asSeen }, puckX, puckY, x, y, z, grid)
    if (traffic.length === 0) return beside
    const lanes = openLanes(world, traffic, puckX, puckY, q["shooter.release_height"], grid)
    return beside.map((open, cell) => open * lanes[cell]!)
  }
}

/** Keys that place or time the goalie and leave the body as it is. */
const BODILESS =
  /^goalie\.(depth|depth_.*|start_depth|leaves_start_at|in_place_at|cheat|off_line_error|angle_.*|turn_error|post_turn|stand_off|reaction_.*|drop_.*|high_.*|peek|look_needed|lead_kept|holds_.*|gear_friction|rebound_scatter|covers_.*|recovery_time|block_(never|always|lead)|answer|unset_penalty)$/

/** Keys that change the body of a goalie on the way. */
const OPENS_BODY = /^movement\.(\w+_(legs|hands|blade|lean)|left_when_down|stance)$/

/** Equal for settings with equal bodies, set and, where they move, on the way. */
function bodyKey(settings: Settings, onTheWay: boolean): string {
  const shapes = (key: string): boolean =>
    key.startsWith("goalie.") ? !BODILESS.test(key) : onTheWay && OPENS_BODY.test(key)
  return [...Object.entries(settings.quantities), ...Object.entries(settings.choices)]
    .filter(([key]) => shapes(key))
    .map(([key, value]) => `${key}=${value}`)
    .join(";")
}
