import { expect, test } from "vitest"
import { engine, fireBatches } from "../../src/sim/sampling.ts"
import * as T from "../../src/sim/tally.ts"
import { compileScene, KEY, playing } from "./scenes.ts"

const REPLICATES = 256
const SHOTS = 128

function variance(values: readonly number[]): number {
  const mean = values.reduce((a, b) => a + b, 0) / values.length
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1)
}

// seed KEY, n = 256 replicates of 128 shots: the factor is known to about 9 % and was measured as 26 on 512 replicates of
// 256; a true factor of 26 falls under 20 by luck for about one seed in 200, and this seed is fixed. Seen to fail with
// block or reaction drawn instead of weighed.
test("the difference of 1.0 and 1.2 m at 6 m needs at least 20 times fewer shots than plain independent runs", () => {
  const depths = [1, 1.2]
  const settings = depths.map((depth) => playing({ "play.distance": 6, "goalie.depth": depth, "shooter.reading": 0 }))
  const e = engine(compileScene(settings), SHOTS)
  const tallies = Array.from({ length: REPLICATES }, (_, r) => fireBatches(e, KEY, r, 0, 1, SHOTS))
  const arms = depths.map((_, pose) => {
    const saved = tallies.map((tally) => tally.sums[pose * T.TALLY_STRIDE + T.SAVED]!)
    const onGoal = tallies.map((tally) => tally.sums[pose * T.TALLY_STRIDE + T.ON_GOAL_SUM]!)
    const all = onGoal.reduce((a, b) => a + b, 0)
    const rate = saved.reduce((a, b) => a + b, 0) / all
    const mean = all / REPLICATES
    return { plain: (rate * (1 - rate)) / mean, residuals: saved.map((value, r) => (value - rate * onGoal[r]!) / mean) }
  })
  const paired = variance(arms[0]!.residuals.map((value, r) => value - arms[1]!.residuals[r]!))
  expect((arms[0]!.plain + arms[1]!.plain) / paired).toBeGreaterThan(20)
})
