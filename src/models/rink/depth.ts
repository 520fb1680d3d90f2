import type { Metres, Radians } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { chosenRink } from "./chosen-rink.ts"
import { creaseOutline, type Rink } from "./rink.ts"

/** The trade's depth levels, from the goal line out. */
export const DEPTH_LEVELS = ["defensive", "conservative", "base", "aggressive"] as const
export type DepthLevel = (typeof DEPTH_LEVELS)[number]

/** Base depth: the skate blades on the crease outline straight ahead of the goal [GoaltendingUSAH]. */
export function baseDepth(rink: Rink): Metres {
  return creaseOutline(rink.crease, 0)
}

/**
 * Depth of a level along the line to a puck at `bearing`: a share of the way to the crease outline there. Base is the
 * outline itself; the shares of the other levels are assumptions (`rink.depth_*`).
 */
export function depthOfLevel(settings: Settings, level: DepthLevel, bearing: Radians = 0): Metres {
  const outline = creaseOutline(chosenRink(settings).crease, bearing)
  return level === "base" ? outline : outline * settings.quantities[`rink.depth_${level}`]
}

/** Depth of the settings' own level, `goalie.depth_level`, straight ahead of the goal. */
export function creaseDepth(settings: Settings): Metres {
  return depthOfLevel(settings, settings.choices["goalie.depth_level"] as DepthLevel)
}
