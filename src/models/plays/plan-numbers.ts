import * as G from "../../sim/play/goalie-plan.ts"
import type { Metres } from "../../sim/units.ts"
import { depthPath } from "../positioning/depth-path.ts"
import { chosenDepth } from "../positioning/pose-numbers.ts"
import { biasAbout, referenceOfPlay } from "../positioning/reference-of-play.ts"
import { NO_CUE } from "../reference/parameters.ts"
import type { Settings } from "../settings.ts"
import { type PlayBranch, polar } from "./branch.ts"

/** What the goalie of these settings does before the shot. [PLAN_LENGTH] */
export function planNumbers(settings: Settings, branches: readonly PlayBranch[]): Float64Array {
  const q = settings.quantities
  const plan = new Float64Array(G.PLAN_LENGTH)
  const depth = chosenDepth(settings)
  const path = depthPath(settings, depth)
  plan[G.PLAN_START_DEPTH] = path.start
  plan[G.PLAN_LEAVES_AT] = path.leavesAt
  plan[G.PLAN_IN_PLACE_AT] = path.inPlaceAt
  plan[G.PLAN_CHEAT] = q["goalie.cheat"]
  const threat = threatOf(branches)
  plan[G.PLAN_THREAT_X] = threat.x
  plan[G.PLAN_THREAT_Y] = threat.y
  plan[G.PLAN_LAG] = q["movement.follow_lag"]
  plan[G.PLAN_SET_SPEED] = q["movement.set_speed"]
  if (settings.choices["reference.cue"] !== NO_CUE && path.start !== depth) {
    plan[G.PLAN_CUE_VARIES] = 1
    plan[G.PLAN_OWN_BIAS] = q["goalie.angle_bias"]
    plan[G.PLAN_OWN_ANGLE] = q["goalie.angle_error"]
    plan[G.PLAN_OWN_OFF_LINE] = q["goalie.off_line_error"]
    plan.set(cueAt(settings, path.start), G.PLAN_CUE_AT_START)
    plan.set(cueAt(settings, depth), G.PLAN_CUE_AT_DEPTH)
  }
  return plan
}

/** What the cue adds at a depth, each as a way to the side: of its bias, its angle's spread and its spread off the line. */
function cueAt(settings: Settings, depth: Metres): readonly [Metres, Metres, Metres] {
  const error = referenceOfPlay(settings, depth)
  return [depth * biasAbout(error, depth), depth * error.angleSpread, error.offLineSpread]
}

/** Whom a pass would reach: where the shot of the first branch with a pass is taken, or the place of the shot. */
function threatOf(branches: readonly PlayBranch[]): { readonly x: number; readonly y: number } {
  const branch = branches.find(({ legs }) => legs.some(({ kind }) => kind === "pass")) ?? branches[0]!
  return polar(branch.settings.quantities["play.distance"], branch.settings.quantities["play.angle"])
}
