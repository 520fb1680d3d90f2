import { trafficTable, type UprightBox } from "../../sim/traffic/traffic.ts"
import type { Metres } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import type { PlayBranch } from "./branch.ts"
import { straightShot } from "./straight-shot.ts"

/** A shot, as a rule from the point, with someone between puck and goalie who hides it, stops it or tips it. */
export function screenedShot(settings: Settings): PlayBranch[] {
  return straightShot(settings)
}

/** Who stands between puck and goalie in the play of these settings; empty in every other play. */
export function trafficOf(settings: Settings): Float64Array {
  if (settings.choices["play.kind"] !== "screened shot") return new Float64Array(0)
  const q = settings.quantities
  const boxes = [
    ...bodyAt(settings, 0, q["play.screen_distance"], q["play.screen_offset"], q["play.screen_width"]),
    ...bodyAt(
      settings,
      1,
      q["play.second_screen_distance"],
      q["play.second_screen_offset"],
      q["play.second_screen_width"],
    ),
  ]
  return trafficTable(boxes, q["play.screen_stops"], q["play.screen_strays"], {
    share: q["play.tip_share"],
    distance: q["play.tip_distance"],
    reach: q["play.tip_reach"],
    height: q["play.tip_height"],
    across: q["play.tip_across"],
    up: q["play.tip_up"],
    keeps: q["play.tip_keeps"],
    keepsSpread: q["play.tip_keeps_spread"],
  })
}

/** One body: two legs with a gap between, and a trunk with arms and head over them. None without a width. */
function bodyAt(settings: Settings, body: 0 | 1, distance: Metres, offset: Metres, width: Metres): UprightBox[] {
  if (width === 0) return []
  const q = settings.quantities
  const height = q["play.screen_height"]
  const legs = Math.min(height, q["play.screen_legs"])
  const gap = Math.min(width, q["play.screen_gap"])
  const half = 0.5 * width
  const a = [distance - 0.5 * q["play.screen_thickness"], distance + 0.5 * q["play.screen_thickness"]] as const
  return [
    { body, a, b: [offset - half, offset - 0.5 * gap], z: [0, legs] },
    { body, a, b: [offset + 0.5 * gap, offset + half], z: [0, legs] },
    { body, a, b: [offset - half, offset + half], z: [legs, height] },
  ]
}
