import type { RinkMeasures } from "../rink/chosen-rink.ts"
import type { QuantityKey, Settings } from "../settings.ts"

/** The setting that holds each measure of a rink. */
export const MEASURE_KEYS: Readonly<Record<keyof RinkMeasures, QuantityKey>> = {
  width: "rink.width",
  goalLineToBoards: "rink.goal_line_to_boards",
  blueLine: "rink.blue_line",
  endSpotOut: "rink.end_spot_out",
  endSpotSide: "rink.end_spot_side",
  neutralSpotOut: "rink.neutral_spot_out",
  neutralSpotSide: "rink.neutral_spot_side",
  circleRadius: "rink.circle_radius",
  creaseRadius: "rink.crease_radius",
  creaseHalfWidth: "rink.crease_half_width",
  creaseMarkOut: "rink.crease_mark_out",
}

/** The measures of this rink that a person took. */
export function measuredKeys(settings: Settings): ReadonlySet<keyof RinkMeasures> {
  const measures = Object.keys(MEASURE_KEYS) as (keyof RinkMeasures)[]
  return new Set(measures.filter((measure) => !Number.isNaN(settings.quantities[MEASURE_KEYS[measure]])))
}
