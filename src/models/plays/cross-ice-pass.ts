import type { Leg } from "../../sim/play/course.ts"
import type { Settings } from "../settings.ts"
import { type PlayBranch, passTo, polar } from "./branch.ts"

/** A pass to where the shot is taken, and a shot a moment after it arrives. */
export function crossIcePass(settings: Settings): PlayBranch[] {
  const q = settings.quantities
  const start = polar(q["play.pass_from_distance"], q["play.pass_from_angle"])
  return [{ name: "spot", share: 1, start, legs: [passAcross(settings)], lost: q["play.pass_lost"], settings }]
}

/** The pass of the settings to where their shot is taken. */
export function passAcross({ quantities: q }: Settings): Leg {
  return passTo(
    polar(q["play.distance"], q["play.angle"]),
    q["play.pass_speed"],
    q["play.pass_speed_spread"] * q["play.pass_speed"],
    q["play.pass_carry"],
    q["play.receive_time"],
    q["play.receive_spread"],
  )
}
