import { describe, expect, test } from "vitest"
import { fireShot, openReplay } from "../../../src/experiments/replay/replay.ts"
import { isInPlan, nextShot, planOf, planText, readShotName } from "../../../src/experiments/replay/shot-name.ts"
import { groupPoints } from "../../../src/experiments/run/groups.ts"
import { runExperiment } from "../../../src/experiments/run/run-experiment.ts"
import { seedKey } from "../../../src/experiments/seed.ts"
import { compileScene } from "../../../src/models/plays/scene.ts"
import { type Decide, decideConditional } from "../../../src/sim/conditional.ts"
import { isOnGoal } from "../../../src/sim/fate.ts"
import { SAMPLERS } from "../../../src/sim/sampler.ts"
import { engine, fireBatches } from "../../../src/sim/sampling.ts"
import { quantise } from "../../../src/sim/statistics/exact-sum.ts"
import { experimentOf } from "./runs.ts"

const SWEEP = ["sweep: { goalie.depth: [0.8 m, 1.4 m] }", "shooter.aim: reads", "shots: 4096"]

describe("a replayed shot", () => {
  // mutations seen red: batches of half the size; the scene compiled from the point alone
  test.each(SAMPLERS)("has to the bit the outcome that the batches of a run of %s compute for it", (sampling) => {
    const experiment = experimentOf(...SWEEP, `sampling: ${sampling}`)
    const [group] = groupPoints(experiment.points)
    const plan = planOf(experiment)
    const seen: number[][] = [[], []]
    const scene = compileScene(group!.settings)
    const note: Decide = (g, pose, batch, i, path, outcome) => {
      decideConditional(g, pose, batch, i, path, outcome)
      seen[scene.poses.indexOf(pose)]![batch.first + i] = outcome.saved
    }
    fireBatches(engine(scene, plan.batch, sampling), seedKey(experiment.seed), 3, 0, plan.batches, plan.batch, note)
    for (const pose of [0, 1]) {
      const replay = openReplay(experiment, group!.points[pose]!)
      let onGoal = 0
      for (let index = plan.batches * plan.batch - 1; index >= 0; index -= 1) {
        const { i, saved, weight } = fireShot(replay, { replicate: 3, index })
        if (!isOnGoal(replay.engine.batch.fate[i]!) || weight === 0) continue
        onGoal++
        expect(saved).toBe(seen[pose]![index])
      }
      expect(onGoal).toBe(seen[pose]!.filter((saved) => saved !== undefined).length)
      expect(onGoal).toBeGreaterThan(64)
    }
  })

  test.each([
    ["a number of shots", ["shots: 700"], 700],
    ["a wanted half-width", ["until: { half-width: 20 %, most: 12000 }"], 2048],
  ])("of a run with %s adds up with the others to the run's save rate", async (_name, lines, least) => {
    const experiment = experimentOf("play.distance: 9 m", ...lines)
    const options = { version: "0", workers: 1, assumptions: false, pictures: false }
    const results = await runExperiment(experiment, options)
    expect(results.shots).toBeGreaterThanOrEqual(least)
    const replay = openReplay(experiment, 0)
    let saved = 0
    let onGoal = 0
    for (let replicate = 0; replicate < results.replicates; replicate++)
      for (let index = 0; index < results.shots / results.replicates; index++) {
        const fired = fireShot(replay, { replicate, index })
        if (!isOnGoal(replay.engine.batch.fate[fired.i]!)) continue
        onGoal += quantise(fired.weight)
        saved += quantise(fired.weight * fired.saved)
      }
    expect(saved / onGoal).toBeCloseTo(results.points[0]!.estimates.save_rate!.mean, 12)
  })
})

describe("the name of a shot", () => {
  test("is replicate:index and nothing else", () => {
    expect(readShotName("3:17")).toEqual({ replicate: 3, index: 17 })
    for (const text of ["", "3", "3:", ":17", "3:17:1", "-1:0", "3.5:1", "a:b", "9999999999:0"])
      expect(readShotName(text)).toBeNull()
  })

  test("counts within the replicate, and the last shot is followed by the next replicate's first", () => {
    const plan = planOf(experimentOf("shots: 20000"))
    const each = plan.batches * plan.batch
    expect(planText(plan)).toBe(`replicate:index from 0:0 to 31:${each - 1}`)
    expect(isInPlan({ replicate: 31, index: each - 1 }, plan)).toBe(true)
    expect(isInPlan({ replicate: 32, index: 0 }, plan)).toBe(false)
    expect(isInPlan({ replicate: 0, index: each }, plan)).toBe(false)
    expect(nextShot({ replicate: 4, index: each - 1 }, plan)).toEqual({ replicate: 5, index: 0 })
    expect(nextShot({ replicate: 31, index: each - 1 }, plan)).toBeNull()
  })
})
