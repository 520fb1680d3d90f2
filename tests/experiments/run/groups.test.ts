import { expect, test } from "vitest"
import type { DesignPoint } from "../../../src/experiments/experiment.ts"
import { groupPoints } from "../../../src/experiments/run/groups.ts"
import { defaultSettings, type QuantityKey, withSettings } from "../../../src/models/settings.ts"

function points(changes: readonly Partial<Record<QuantityKey, number>>[]): DesignPoint[] {
  return changes.map((quantities, index) => ({
    index,
    case: "",
    swept: [],
    settings: withSettings(defaultSettings(), { quantities }),
  }))
}

// seen to fail with the pass share among the keys that change the shots
test("points that differ in the goalie, in how often the pass comes or in who chooses share their shots", () => {
  const alike = points([
    {},
    { "goalie.depth": 0.6 },
    { "movement.t_push_speed": 4 },
    { "play.pass_share": 0.1 },
    { "shooter.choice_skill": 1, "shooter.choice_temperature": 0.1 },
  ])
  expect(groupPoints(alike)).toHaveLength(1)
  expect(groupPoints(points([{}, { "play.pass_speed": 20 }, { "shooter.reading": 0 }]))).toHaveLength(3)
})
