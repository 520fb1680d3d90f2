import type { Settings } from "../settings.ts"
import { RINK_PRESETS, type RinkName } from "./presets.ts"
import type { Rink } from "./rink.ts"

/** Measures of a rink that a person may take and write instead of the preset's. */
export interface RinkMeasures {
  readonly width: number
  readonly goalLineToBoards: number
  readonly blueLine: number
  readonly endSpotOut: number
  readonly endSpotSide: number
  readonly neutralSpotOut: number
  readonly neutralSpotSide: number
  readonly circleRadius: number
  readonly creaseRadius: number
  readonly creaseHalfWidth: number
  readonly creaseMarkOut: number
}

/** A preset with some marks moved to where they were measured; NaN leaves a mark where the preset has it. */
export function measuredRink(preset: Rink, measures: Partial<RinkMeasures>): Rink {
  const pick = (measured: number | undefined, printed: number) =>
    measured === undefined || Number.isNaN(measured) ? printed : measured
  const radius = pick(measures.creaseRadius, preset.crease.radius)
  const round = preset.crease.shape === "half circle"
  return {
    ...preset,
    width: pick(measures.width, preset.width),
    goalLineToBoards: pick(measures.goalLineToBoards, preset.goalLineToBoards),
    blueLine: pick(measures.blueLine, preset.blueLine),
    endSpot: {
      x: pick(measures.endSpotOut, preset.endSpot.x),
      y: pick(measures.endSpotSide, preset.endSpot.y),
    },
    neutralSpot: {
      x: pick(measures.neutralSpotOut, preset.neutralSpot.x),
      y: pick(measures.neutralSpotSide, preset.neutralSpot.y),
    },
    circleRadius: pick(measures.circleRadius, preset.circleRadius),
    crease: {
      ...preset.crease,
      radius,
      halfWidth: round ? radius : pick(measures.creaseHalfWidth, preset.crease.halfWidth),
      markOut: pick(measures.creaseMarkOut, preset.crease.markOut),
    },
  }
}

/** The rink of the settings: `rink.preset` with the `rink.*` measures that were given. */
export function chosenRink(settings: Settings): Rink {
  const q = settings.quantities
  return measuredRink(RINK_PRESETS[settings.choices["rink.preset"] as RinkName], {
    width: q["rink.width"],
    goalLineToBoards: q["rink.goal_line_to_boards"],
    blueLine: q["rink.blue_line"],
    endSpotOut: q["rink.end_spot_out"],
    endSpotSide: q["rink.end_spot_side"],
    neutralSpotOut: q["rink.neutral_spot_out"],
    neutralSpotSide: q["rink.neutral_spot_side"],
    circleRadius: q["rink.circle_radius"],
    creaseRadius: q["rink.crease_radius"],
    creaseHalfWidth: q["rink.crease_half_width"],
    creaseMarkOut: q["rink.crease_mark_out"],
  })
}
