import type { Settings } from "../settings.ts"
import { carryTo, type PlayBranch, shotFrom } from "./branch.ts"
import { fromSide } from "./side.ts"

/** The puck carried across in front of the crease, in sight, and shot past the middle. */
export function crossCreaseWalk(settings: Settings): PlayBranch[] {
  const q = settings.quantities
  const side = fromSide(settings)
  const x = q["play.walk_out"]
  const start = { x, y: side * q["play.walk_from"] }
  const end = { x, y: -side * q["play.walk_past"] }
  const across = carryTo(end, q["play.walk_speed"], q["play.carry_speed_spread"] * q["play.walk_speed"])
  return [{ name: "spot", share: 1, start, legs: [across], lost: 0, settings: shotFrom(settings, end) }]
}
