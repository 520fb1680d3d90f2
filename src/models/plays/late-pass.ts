import type { Settings } from "../settings.ts"
import { type PlayBranch, polar } from "./branch.ts"
import { passAcross } from "./cross-ice-pass.ts"
import { carryIn, carryStart } from "./rush.ts"

/** The puck carried in, passed late to where the shot is taken, and shot a moment after it arrives. */
export function latePass(settings: Settings): PlayBranch[] {
  const q = settings.quantities
  const passer = polar(q["play.pass_from_distance"], q["play.pass_from_angle"])
  const legs = [carryIn(settings, passer), passAcross(settings)]
  return [{ name: "spot", share: 1, start: carryStart(settings, passer), legs, lost: q["play.pass_lost"], settings }]
}
