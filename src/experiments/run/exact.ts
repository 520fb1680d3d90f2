import { boxOfPlay } from "../../models/positioning/box-of.ts"
import type { Settings } from "../../models/settings.ts"

/** Measures of geometry at one design point, by key: no sampling, no interval. */
export function exactMeasures(settings: Settings): Record<string, number> {
  return { ...boxOfPlay(settings) }
}
