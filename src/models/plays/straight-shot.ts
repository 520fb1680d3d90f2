import type { Settings } from "../settings.ts"
import { type PlayBranch, polar } from "./branch.ts"

/** Nothing before the release: the goalie is in place. */
export function straightShot(settings: Settings): PlayBranch[] {
  const start = polar(settings.quantities["play.distance"], settings.quantities["play.angle"])
  return [{ name: "spot", share: 1, start, legs: [], lost: 0, settings }]
}
