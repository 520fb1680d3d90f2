import type { Metres } from "../../sim/units.ts"
import { branchesOf } from "../plays/branches.ts"
import type { ChoiceName, Settings } from "../settings.ts"

/** How the depth goes while a play builds up, as far as no single shot is in it. */
export interface DepthPath {
  readonly start: Metres
  /** The puck's distance at which the start depth is left. */
  readonly leavesAt: Metres
  /** The puck's distance at which the depth of the pose is had by a goalie who goes with the puck; 0: one push. */
  readonly inPlaceAt: Metres
}

/**
 * The depth path of the settings to `depth`: what `goalie.depth_path` stands for, where `goalie.start_depth` and
 * `goalie.in_place_at` do not say otherwise.
 */
export function depthPath(settings: Settings, depth: Metres): DepthPath {
  const { "goalie.start_depth": start, "goalie.leaves_start_at": leavesAt } = settings.quantities
  const usual = { hold: depth, "inside out": 0, "outside in": settings.quantities["reference.back_in_from"] }
  const path = settings.choices["goalie.depth_path"] as ChoiceName<"goalie.depth_path">
  const from = Number.isNaN(start) ? usual[path] : start
  return { start: from, leavesAt, inPlaceAt: path === "outside in" ? inPlaceAt(settings) : 0 }
}

/** Where the puck is when the goalie has backed all the way: where the first carry ends unless given. */
function inPlaceAt(settings: Settings): Metres {
  const { "goalie.in_place_at": given, "goalie.leaves_start_at": leavesAt } = settings.quantities
  const carries = branchesOf(settings).map(({ legs }) => legs.find(({ kind }) => kind === "carry"))
  const end = carries.find((leg) => leg !== undefined)
  const at = Number.isNaN(given) ? (end === undefined ? 0 : Math.hypot(end.x, end.y)) : given
  return at < leavesAt ? at : 0
}
