import type { Settings } from "../settings.ts"
import { carryTo, cutTo, type PlayBranch, polar, shotFrom } from "./branch.ts"
import { fromSide } from "./side.ts"

/** The puck carried wide and in to the near post: shot there, or cut across the crease and shot past the middle. */
export function netDrive(settings: Settings): PlayBranch[] {
  const q = settings.quantities
  const side = fromSide(settings)
  const spread = q["play.carry_speed_spread"]
  const turn = polar(q["play.drive_from_distance"], side * q["play.drive_from_angle"])
  const post = { x: q["play.drive_out"], y: side * q["play.drive_beside"] }
  const far = { x: q["play.drive_out"], y: -side * q["play.drive_across"] }
  // down the wing, level with where the carrier turns in
  const start = { x: Math.max(q["play.carry_from_distance"], turn.x), y: turn.y }
  const wide = carryTo(turn, q["play.carry_speed"], spread * q["play.carry_speed"])
  const drive = carryTo(post, q["play.drive_speed"], spread * q["play.drive_speed"])
  const cut = cutTo(far, q["play.drive_cut_speed"], spread * q["play.drive_cut_speed"])
  const across = q["play.drive_across_share"]
  const common = { start, lost: 0 }
  return [
    { ...common, name: "near post", share: 1 - across, legs: [wide, drive], settings: shotFrom(settings, post) },
    { ...common, name: "cut across", share: across, legs: [wide, drive, cut], settings: shotFrom(settings, far) },
  ].filter(({ share }) => share > 0)
}
