import type { Settings } from "../settings.ts"
import type { PlayBranch } from "./branch.ts"
import { passAcross } from "./cross-ice-pass.ts"
import { fromSide } from "./side.ts"

/** The puck passed out from below the goal line to where the shot is taken: the goalie comes off the post. */
export function lowToHighPass(settings: Settings): PlayBranch[] {
  const q = settings.quantities
  const start = { x: -q["play.low_behind"], y: fromSide(settings) * q["play.low_beside"] }
  return [{ name: "spot", share: 1, start, legs: [passAcross(settings)], lost: q["play.pass_lost"], settings }]
}
