import { describe, expect, test } from "vitest"
import type { Experiment } from "../../../src/experiments/experiment.ts"
import { readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import { worstSummary } from "../../../src/experiments/report/answer-worst.ts"
import type { PointResult, RunResults } from "../../../src/experiments/results.ts"
import { curveSets } from "../../../src/experiments/run/curves.ts"
import { worstFindings } from "../../../src/experiments/run/worst-of.ts"
import { defaultSettings } from "../../../src/models/settings.ts"
import * as T from "../../../src/sim/tally.ts"
import { estimate } from "../fixture-results.ts"

const KEY = [3, 9] as const
const STARTS = [1, 2, 3, 4, 5]
const ALL = 1000
/** Saves of a thousand shots at each start: the shot is best far out, the deke deep. */
const SAVES = [
  [700, 780, 840, 860, 820],
  [800, 790, 730, 560, 400],
  [900, 900, 900, 900, 900],
]
const CASES = ["shot", "deke", "pass"]

function experimentOf(worstOf: readonly string[]): Experiment {
  const length = { dimension: "length", unit: "m", unitFactor: 1, unitZero: 0 }
  const swept = { kind: "quantity", key: "goalie.start_depth", ...length, values: STARTS }
  const points = SAVES.flatMap((row, c) =>
    row.map((_, i) => ({
      index: c * row.length + i,
      case: CASES[c]!,
      swept: [STARTS[i]!],
      settings: defaultSettings(),
    })),
  )
  return { cases: CASES, sweep: [swept], points, measures: ["save_rate"], baseline: 0, worstOf } as never
}

const SUMS = SAVES.flat().map((saved) => ({
  pose: 0,
  shots: 32_000,
  earlier: [],
  tallies: Array.from({ length: 32 }, () => {
    const tally = T.emptyTally(1, 1)
    tally.sums[T.SHOTS_COUNTED] = ALL
    tally.sums[T.ON_GOAL_SUM] = ALL
    tally.sums[T.SAVED] = saved
    return tally
  }),
}))

function worst(worstOf: readonly string[], rates: readonly Float64Array[] | null = null) {
  const experiment = experimentOf(worstOf)
  return worstFindings({ experiment, sets: curveSets(experiment), sums: SUMS, key: KEY, rates }).worst!
}

describe("worstFindings()", () => {
  // seen to fail: the highest of the cases taken, and the mean
  test("takes the lowest of the named cases at every place, and says whose it is", () => {
    const [found, ...others] = worst(["shot", "deke"])
    expect(others).toEqual([])
    expect(found!.worst).toEqual(["shot", "shot", "deke", "deke", "deke"])
    expect(found!.rate.mean).toBeCloseTo(0.78, 12)
    expect(found!.best.mean).toBeGreaterThan(1.5)
    expect(found!.best.mean).toBeLessThan(2.6)
    expect(found!.case).toBe("the worst of shot and deke")
  })

  test("puts the range over the sets of assumptions about it: the worst under each set", () => {
    const usual = Float64Array.from(SAVES.flat(), (saved) => saved / ALL)
    // a set under which the deke holds up farther out
    const far = usual.map((rate, i) => (i >= 5 && i < 10 ? rate + 0.3 : rate))
    const [found] = worst(["shot", "deke"], [usual, far])
    expect(found!.bestAssumptions!.low).toBeGreaterThan(2.9)
  })

  test("says nothing where the file does not ask", () => {
    const { worstOf: _, ...silent } = experimentOf(["shot", "deke"])
    const source = { sets: curveSets(silent), sums: SUMS, key: KEY, rates: null }
    expect(worstFindings({ experiment: silent, ...source })).toEqual({})
  })
})

describe("an answer about the worst of some cases", () => {
  test("says where it is best, how wide that is and which case decides", () => {
    const experiment = experimentOf(["shot", "deke"])
    const points = experiment.points.map(
      ({ index, case: name, swept }): PointResult =>
        ({
          ...{ index, case: name, spot: "all", swept, shots: 32_000, exact: {}, differences: {}, assumptions: {} },
          ...{ remarks: [], estimates: { save_rate: estimate(SAVES.flat()[index]! / ALL, 0.002) } },
        }) as PointResult,
    )
    const results = { experiment, points, curves: [], worst: worst(["shot", "deke"]) } as unknown as RunResults
    const summary = worstSummary(results, { headline: "", findings: [] })!
    expect(summary.headline).toMatch(/^Best start depth against the worst of shot and deke: 2\.\d+ m/)
    expect(summary.findings[0]!.sentence).toContain("decided by shot from 1 m to 2 m, deke from 3 m to 5 m")
    expect(summary.findings[0]!.sentence).toMatch(/anywhere from .* within half a point/)
    expect(worstSummary({ ...results, worst: [] }, { headline: "", findings: [] })).toBeNull()
  })
})

describe("worst-of:", () => {
  const text = (worst: string) =>
    `question: Where?\nsweep: { goalie.depth: [1 m, 2 m] }\ncompare: [{ name: a, play.angle: 0 deg }, { name: b, play.angle: 9 deg }]\nbaseline: { goalie.depth: 1 m }\nworst-of: ${worst}\n`

  test("reads names of cases, and refuses others and fewer than two", () => {
    const read = readExperimentText("x.yaml", text("[a, b]"))
    expect("experiment" in read && read.experiment.worstOf).toEqual(["a", "b"])
    for (const wrong of ["[a, c]", "[a]", "a"])
      expect("problems" in readExperimentText("x.yaml", text(wrong))).toBe(true)
  })
})
