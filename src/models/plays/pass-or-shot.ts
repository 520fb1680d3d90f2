import type { Leg } from "../../sim/play/course.ts"
import type { Probability } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { type PlayBranch, polar, type Spot, shotFrom } from "./branch.ts"
import { passAcross } from "./cross-ice-pass.ts"

/** What goes before the carrier decides, and how often either way comes to nothing. */
export interface Before {
  /** Where the puck is when the play starts. */
  readonly start: Spot
  readonly legs: readonly Leg[]
  readonly shotLost: Probability
  readonly passLost: Probability
}

/** Where the carrier shoots or passes. */
export function carrierSpot({ quantities: q }: Settings): Spot {
  return polar(q["play.distance"], q["play.angle"])
}

/** The two ways of a carrier who shoots from one spot or passes to a receiver who shoots on arrival. */
export function passOrShot(settings: Settings, { start, legs, shotLost, passLost }: Before): PlayBranch[] {
  const q = settings.quantities
  const receiver = polar(q["play.receiver_distance"], q["play.receiver_angle"])
  const passed = shotFrom(settings, receiver, settings.choices["play.receiver_shot"])
  const pass = passAcross(passed)
  const share = q["play.pass_share"]
  return [
    {
      name: "shot",
      share: 1 - share,
      start,
      legs,
      lost: shotLost,
      settings: shotFrom(settings, carrierSpot(settings)),
    },
    { name: "pass", share, start, legs: [...legs, pass], lost: passLost, settings: passed },
  ]
}
