import { describe, expect, test } from "vitest"
import type { Experiment } from "../../../src/experiments/experiment.ts"
import { crossingFindings, rivalFindings } from "../../../src/experiments/run/curve-pairs.ts"
import { curveFindings, curveSets } from "../../../src/experiments/run/curves.ts"
import { defaultSettings, withSettings } from "../../../src/models/settings.ts"
import * as T from "../../../src/sim/tally.ts"

const KEY = [3, 9] as const
const SHARES = [0, 0.5, 1]
const ALL = 1000

/** Two cases over the pass share, or along the depth, that rate by goals over plays unless told otherwise. */
function experimentOf(goals: readonly (readonly number[])[], key = "play.pass_share"): Experiment {
  const swept = { kind: "quantity", key, dimension: "share", unit: "%", unitFactor: 0.01, unitZero: 0, values: SHARES }
  const points = goals.flatMap((row, c) =>
    row.map((_, i) => ({
      index: c * row.length + i,
      case: ["holding", "cheating"][c]!,
      swept: [SHARES[i]!],
      settings: withSettings(defaultSettings(), { quantities: { [key]: SHARES[i]! } }),
    })),
  )
  return { cases: ["holding", "cheating"], sweep: [swept], points, measures: ["goal_rate"], baseline: 0 } as never
}

/** Goals of each point in a thousand plays, all shots on goal, the same in 32 replicates. */
function tallied(goals: readonly (readonly number[])[]) {
  return goals.flat().map((scored) => ({
    pose: 0,
    shots: 32_000,
    earlier: [],
    tallies: Array.from({ length: 32 }, () => {
      const tally = T.emptyTally(1, 1)
      tally.sums[T.SHOTS_COUNTED] = ALL
      tally.sums[T.ON_GOAL_SUM] = ALL
      tally.sums[T.SAVED] = ALL - scored
      return tally
    }),
  }))
}

function crossing(goals: readonly (readonly number[])[], sets: readonly (readonly number[])[] | null) {
  const experiment = experimentOf(goals)
  const rates = sets?.map((row) => Float64Array.from(row, (scored) => scored / ALL)) ?? null
  return crossingFindings({
    experiment,
    sets: curveSets(experiment),
    sums: tallied(goals),
    key: KEY,
    rates,
  })
}

const HOLD_OR_CHEAT = [
  [20, 110, 200],
  [60, 100, 140],
]

describe("crossingFindings()", () => {
  // seen red: more goals taken for better
  test("finds the share at which cheating begins to let in less, and who is ahead on either side", () => {
    const [found] = crossing(HOLD_OR_CHEAT, null)
    // 20 + 180 s = 60 + 80 s
    expect(found!.at!.mean).toBeCloseTo(0.4, 12)
    expect(found!.cases[found!.ahead![0]]).toBe("holding")
    expect(found).not.toHaveProperty("plays")
  })

  // seen red: the main crossing alone handed on
  test("hands on every place where the estimates cross more than once", () => {
    const [found] = crossing(
      [
        [20, 110, 200],
        [60, 100, 240],
      ],
      null,
    )
    // 40, -10 and 40 goals apart
    expect(found!.places).toEqual([expect.closeTo(0.4, 12), expect.closeTo(0.6, 12)])
    expect(crossing(HOLD_OR_CHEAT, null)[0]).not.toHaveProperty("places")
  })

  // seen red: sets that do not cross left out
  test("puts a set that crosses beyond the sweep at its end, and counts it", () => {
    const usual = HOLD_OR_CHEAT.flat()
    const never = [20, 60, 100, 160, 200, 240]
    const always = [100, 190, 280, 60, 100, 140]
    const later = [20, 110, 200, 110, 150, 190]
    const [found] = crossing(HOLD_OR_CHEAT, [usual, never, always, later, later])
    expect(found!.beyond).toEqual({ below: 1, above: 1 })
    expect(found!.assumptions!.low).toBeGreaterThanOrEqual(0)
    expect(found!.assumptions!.high).toBeLessThanOrEqual(1)
    expect(found!.assumptions!.sets).toBe(4)
  })

  test("leaves two mixes of the same shots alone, unless both are pure", () => {
    const mixes = (shares: readonly [number, number]) => {
      const experiment = experimentOf(HOLD_OR_CHEAT, "goalie.depth")
      const points = experiment.points.map((point) => {
        const share = shares[point.case === "holding" ? 0 : 1]!
        return { ...point, settings: withSettings(point.settings, { quantities: { "play.pass_share": share } }) }
      })
      const mixed = { ...experiment, points }
      const sums = tallied(HOLD_OR_CHEAT)
      return crossingFindings({ experiment: mixed, sets: curveSets(mixed), sums, key: KEY, rates: null })
    }
    expect(mixes([0.1, 0.3])).toEqual([])
    expect(mixes([0, 1])).toHaveLength(1)
  })
})

describe("rivalFindings()", () => {
  const found = (goals: readonly (readonly number[])[], baselineOf?: number[]) => {
    const experiment = { ...experimentOf(goals, "goalie.depth"), ...(baselineOf === undefined ? {} : { baselineOf }) }
    const sets = curveSets(experiment)
    const rates = [goals.flat(), goals.flat().map((scored, i) => (i < 3 ? scored : scored - 5))].map((row) =>
      Float64Array.from(row, (scored) => scored / ALL),
    )
    return rivalFindings({ experiment, sets, sums: tallied(goals), key: KEY, rates })
  }
  const GOALS = [
    [90, 60, 90],
    [40, 60, 80],
  ]

  // seen red: both taken where the first is best
  test("compares two ways of the goalie each at its own best depth, under the assumed sets too", () => {
    const [one] = found(GOALS, [0, 1, 2, 0, 1, 2])
    expect(one).toMatchObject({ case: "cheating", against: "holding", along: "goalie.depth", others: [] })
    // 60 goals in the middle against 40 at the near end, of a thousand
    expect(one!.rate.mean).toBeGreaterThan(0.018)
    expect(one!.rate.mean).toBeLessThan(0.022)
    expect(one!.rateAssumptions!.high - one!.rate.mean).toBeCloseTo(0.005, 3)
  })

  test("says nothing of cases that each have a baseline of their own", () => {
    expect(found(GOALS, [1, 1, 1, 4, 4, 4])).toEqual([])
  })
})

// seen red: the curve of goals taken as it is
test("curveFindings() of goals put the best depth where fewest go in", () => {
  const goals = [[90, 40, 80]]
  const experiment = experimentOf(goals, "goalie.depth")
  const [found] = curveFindings(curveSets(experiment), tallied(goals), KEY, "goal_rate")
  expect(found!.best.mean).toBeGreaterThan(0.3)
  expect(found!.best.mean).toBeLessThan(0.7)
})
