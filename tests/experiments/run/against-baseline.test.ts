import { beforeAll, describe, expect, test } from "vitest"
import type { Experiment } from "../../../src/experiments/experiment.ts"
import { GOALS_SAVED, goalsInKey, SHOTS_TO_SEE } from "../../../src/experiments/measures.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import { againstBaseline } from "../../../src/experiments/run/against-baseline.ts"
import { runExperiment } from "../../../src/experiments/run/run-experiment.ts"
import { ALL_GOALS } from "../../../src/experiments/run/shares.ts"
import { ZONES } from "../../../src/sim/box/openings.ts"
import { shotsToSee } from "../../../src/sim/statistics/power.ts"
import { pointsOnly, shipped } from "../../golden/shipped.ts"

const EXPERIMENT = { halfWidth: null } as unknown as Experiment

/** Shares of a point by replicate: 10 attempts, 8 of them on goal, so many goals in each. */
function sharesWith(goals: readonly number[]) {
  const column = (value: (goal: number) => number) => Float64Array.from(goals, value)
  return {
    save_rate: { above: column((goal) => 8 - goal), below: column(() => 8) },
    [ALL_GOALS]: { above: column((goal) => goal), below: column(() => 10) },
  }
}

describe("goals saved", () => {
  // three goals fewer in 40 attempts; replicates differ by 1, 1, 0 and 1 goals: sd 0.5, standard error 0.25 of 10 attempts
  const found = againstBaseline(EXPERIMENT, sharesWith([1, 0, 2, 1]), sharesWith([2, 1, 2, 2]), 40)

  // seen to fail: the sign left as that of the goal rate
  test("are the goals fewer in 100 attempts, with Student's t on the replicates that both meet", () => {
    const saved = found[GOALS_SAVED]!
    expect(saved.mean).toBeCloseTo(7.5, 12)
    expect(saved.standardError).toBeCloseTo(2.5, 12)
    // source: Student's t at 97.5 % on 3 degrees of freedom is 3.1824 (any table)
    expect(saved.low).toBeCloseTo(7.5 - 3.1824 * 2.5, 3)
    expect(saved.high).toBeCloseTo(7.5 + 3.1824 * 2.5, 3)
  })

  // seen to fail: low and high not changed over
  test("of A against B are those of B against A with the sign changed, ends changed over", () => {
    const other = againstBaseline(EXPERIMENT, sharesWith([2, 1, 2, 2]), sharesWith([1, 0, 2, 1]), 40)[GOALS_SAVED]!
    const saved = found[GOALS_SAVED]!
    expect([other.mean, other.low, other.high]).toEqual([-saved.mean, -saved.high, -saved.low])
  })

  test("of a point against itself are none, for certain", () => {
    const own = againstBaseline(EXPERIMENT, sharesWith([1, 0, 2, 1]), sharesWith([1, 0, 2, 1]), 40)[GOALS_SAVED]!
    expect([own.mean, own.low, own.high, own.standardError]).toEqual([0, 0, 0, 0])
  })
})

describe("shots to see a difference", () => {
  // seen to fail: the ends taken in the order of the difference's
  test("are fewest at the far end of its interval, most at the near one, and no number where it holds none", () => {
    const told = againstBaseline(
      EXPERIMENT,
      sharesWith([2, 1, 2, 2, 1, 2, 2, 2]),
      sharesWith([1, 0, 1, 1, 0, 1, 1, 0]),
      80,
    )[SHOTS_TO_SEE]!
    expect(told.mean).toBeCloseTo(shotsToSee(1 - 5 / 64, 1 - 14 / 64), 9)
    expect(told.low).toBeLessThan(told.mean)
    expect(told.high).toBeGreaterThan(told.mean)
    expect(told.high).toBeLessThan(Infinity)
    const doubtful = againstBaseline(EXPERIMENT, sharesWith([1, 0, 2, 1]), sharesWith([2, 1, 1, 2]), 40)[SHOTS_TO_SEE]!
    expect(doubtful.high).toBe(Infinity)
  })
})

// seed of the file, 1,024 shots at two points
describe("a run with rebounds", () => {
  let results: RunResults
  beforeAll(async () => {
    const rebounds = shipped().find(({ name }) => name === "rebound-control")!
    const last = rebounds.points.findIndex(({ case: name }) => name === "hands that drop it")
    const few = { ...pointsOnly(rebounds, [0, last]), shots: 1024 }
    results = await runExperiment(few, { version: "test", workers: 1, assumptions: true, pictures: false })
  })

  // seen to fail: goals on the rebound left out of the sum
  test("counts the goals on the rebound among those saved, in the estimate and in the assumption range", () => {
    const [base, point] = results.points
    const goals = ({ estimates }: typeof point & object) => estimates.goal_rate!.mean + estimates.second_goal_rate!.mean
    expect(point!.differences.goal_rate!.mean).toBe(0)
    expect(point!.estimates[GOALS_SAVED]!.mean).toBeCloseTo(100 * (goals(base!) - goals(point!)), 9)
    expect(point!.estimates[GOALS_SAVED]!.mean).toBeLessThan(0)
    const range = point!.assumptions[GOALS_SAVED]!
    expect(range.high).toBeGreaterThan(range.low)
    expect(range.low).toBeLessThan(0)
    expect(base!.assumptions[GOALS_SAVED]).toEqual({ low: 0, high: 0, sets: 64, shots: 1024, noise: 0 })
  })

  // seen to fail: over shots on goal
  test("shares its goals out among the six zones of the mouth, each with an interval", () => {
    const shares = ZONES.map((zone) => results.points[0]!.estimates[goalsInKey(zone)]!)
    expect(shares.reduce((sum, { mean }) => sum + mean, 0)).toBeCloseTo(1, 9)
    for (const { low, mean, high } of shares) expect(low < mean && mean < high).toBe(true)
  })
})

// n = 1,024 at two points of the file's own shots; seen to fail: only the rates compared
test("what a file lists is compared with the baseline on the same shots, a time and a way without the bounds of a share", async () => {
  const rush = shipped().find(({ name }) => name === "breakaway-start")!
  const few = { ...pointsOnly(rush, [0, 9]), shots: 1024 }
  const { points } = await runExperiment(few, { version: "test", workers: 1, assumptions: false, pictures: false })
  const [base, out] = points
  for (const key of ["not_set_rate", "arrival_margin_s", "lateral_travel_m"]) {
    const difference = out!.differences[key]!
    expect(difference.mean).toBeCloseTo(out!.estimates[key]!.mean - base!.estimates[key]!.mean, 9)
    expect(difference.low <= difference.mean && difference.mean <= difference.high).toBe(true)
    expect(difference.high).toBeGreaterThan(difference.low)
    expect([base!.differences[key]!.low, base!.differences[key]!.high]).toEqual([0, 0])
  }
})
