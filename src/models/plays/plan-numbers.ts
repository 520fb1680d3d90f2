import * as G from "../../sim/play/goalie-plan.ts"
import { chosenDepth } from "../positioning/pose-numbers.ts"
import type { Settings } from "../settings.ts"
import { type PlayBranch, polar } from "./branch.ts"

/** What the goalie of these settings does before the shot. [PLAN_LENGTH] */
export function planNumbers(settings: Settings, branches: readonly PlayBranch[]): Float64Array {
  const q = settings.quantities
  const plan = new Float64Array(G.PLAN_LENGTH)
  const start = q["goalie.start_depth"]
  plan[G.PLAN_START_DEPTH] = Number.isNaN(start) ? chosenDepth(settings) : start
  plan[G.PLAN_LEAVES_AT] = q["goalie.leaves_start_at"]
  plan[G.PLAN_CHEAT] = q["goalie.cheat"]
  const threat = threatOf(branches)
  plan[G.PLAN_THREAT_X] = threat.x
  plan[G.PLAN_THREAT_Y] = threat.y
  plan[G.PLAN_LAG] = q["movement.follow_lag"]
  plan[G.PLAN_SET_SPEED] = q["movement.set_speed"]
  return plan
}

/** Whom a pass would reach: where the shot of the first branch with a pass is taken, or the place of the shot. */
function threatOf(branches: readonly PlayBranch[]): { readonly x: number; readonly y: number } {
  const branch = branches.find(({ legs }) => legs.some(({ kind }) => kind === "pass")) ?? branches[0]!
  return polar(branch.settings.quantities["play.distance"], branch.settings.quantities["play.angle"])
}
