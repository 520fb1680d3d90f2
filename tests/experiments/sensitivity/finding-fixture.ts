import type { QuantityEffect, SensitivityFinding } from "../../../src/experiments/sensitivity/finding.ts"
import { estimate } from "../fixture-results.ts"

function effect(
  key: QuantityEffect["key"],
  total: number,
  half: number,
  behind: number | null,
  saved: number,
): QuantityEffect {
  return {
    key,
    low: 0.1,
    high: 0.2,
    first: estimate(total * 0.8, half),
    total: estimate(total, half),
    behind: behind === null ? null : estimate(behind, half),
    gain: {
      from: 0.185,
      to: 0.1665,
      change: estimate(saved, 0.0005),
      behind: saved === 0.012 ? null : estimate(0.012 - saved, 0.0005),
    },
  }
}

/** An invented finding: reaction first, placing the hands cannot be told apart from it, the drop gains most. */
export const INVENTED: SensitivityFinding = {
  of: "save_rate",
  over: "training",
  sets: 64,
  values: 448,
  shots: 4096,
  gainShots: 20_480,
  mean: 0.931,
  deviation: 0.0112,
  effects: [
    effect("goalie.reaction_median", 0.42, 0.05, null, 0.009),
    effect("goalie.hand_error", 0.38, 0.05, 0.04, 0.004),
    effect("goalie.drop_time", 0.12, 0.02, 0.3, 0.012),
    effect("goalie.turn_error", 0.04, 0.01, 0.38, 0.0002),
    effect("goalie.kick_speed", 0.001, 0.001, 0.419, 0),
  ],
}
