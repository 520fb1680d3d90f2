import { describe, expect, test } from "vitest"
import { curveChart } from "../../../src/experiments/charts/curve.ts"
import { svgOf } from "../../../src/experiments/charts/render.ts"
import { answerOf } from "../../../src/experiments/report/answer.ts"
import { LONGEST } from "../../../src/experiments/report/finding.ts"
import type { Crossing, PointResult, RunResults } from "../../../src/experiments/results.ts"
import { depthByDistance, estimate, handsByDistance } from "../fixture-results.ts"

const HANDS: Crossing = {
  cases: ["hands beside", "hands tucked"],
  key: "play.distance",
  at: estimate(8.2, 0.5),
  ahead: [0, 1],
  assumptions: { low: 6, high: 12, sets: 64 },
}

function handsCrossing(change: Partial<Crossing> = {}, measures?: readonly string[]): RunResults {
  const results = handsByDistance((distance) => (distance - 8.2) / 100, measures)
  const points = results.points.map((point): PointResult => {
    const difference = point.differences.save_rate!
    return { ...point, differences: { save_rate: difference, goal_rate: estimate(-0.7 * difference.mean, 0.001) } }
  })
  return { ...results, points, crossings: [{ ...HANDS, ...change }] }
}

describe("an answer about curves that cross", () => {
  // seen red: better and worse exchanged, and the crossing left to the notes
  test("says which way of the goalie is the better on which side, with both spreads", () => {
    expect(answerOf(handsCrossing()).headline).toBe(
      "More is saved with hands beside below distance 8.2 m [7.7, 8.7; assumptions 6.0 to 12.0], with hands tucked above it",
    )
    expect(answerOf(handsCrossing({ ahead: [1, 0] })).headline).toMatch(/^More is saved with hands tucked below/)
  })

  test("counts goals where the file lists the goal rate first", () => {
    expect(answerOf(handsCrossing({}, ["goal_rate"])).headline).toMatch(/^Fewer goals go in with hands beside below/)
  })

  // seen red: told whatever the ends say
  test("is not the answer where one end of the circumstance does not tell the two apart", () => {
    const crossed = handsCrossing()
    const points = crossed.points.map((point) =>
      point.swept[0] === 5 ? { ...point, differences: { save_rate: estimate(-0.002, 0.004) } } : point,
    )
    expect(answerOf({ ...crossed, points }).headline).toMatch(/^Hands tucked against hands beside/)
  })

  // seen red: the end of the sweep printed as if it were the range's own
  test("calls an end of the range open where more than one set in twenty crosses beyond the sweep", () => {
    const { headline } = answerOf(handsCrossing({ beyond: { below: 3, above: 9 } }))
    expect(headline).toContain("; assumptions 6.0 to beyond 12.0]")
  })

  // seen red: the one place told in the headline, the note or the chart
  test("claims no one place where the estimates cross more than once, and says how often and first where", () => {
    const results = handsCrossing({ places: [6.3, 8.2, 10.9] })
    const { headline, notes } = answerOf(results)
    expect(headline).toMatch(/^Hands tucked against hands beside/)
    expect(notes[0]).toBe(
      "Hands beside and hands tucked cross more than once, first at distance 6.3 m, last at 10.9 m, 3 times in all, so that no one place parts them",
    )
    expect(JSON.stringify(curveChart(results)!.spec)).not.toContain("Where the lines cross")
    expect(answerOf(handsCrossing({ places: [8.2, 8.25] })).notes[0]).toContain(
      "first at distance 8.20 m, last at 8.25 m, twice in all",
    )
  })

  test("says past which depth one play is worse than the other, and still where each is best", () => {
    const results = depthByDistance()
    const [near, far] = results.experiment.cases as [string, string]
    const crossing: Crossing = {
      ...HANDS,
      cases: [near, far],
      key: "goalie.depth",
      at: estimate(1.1, 0.04),
      plays: true,
    }
    const answer = answerOf({
      ...results,
      crossings: [{ ...crossing, assumptions: { low: 0.8, high: 1.5, sets: 64 } }],
    })
    expect(answer.headline).toBe(
      `Past depth 1.10 m [1.06, 1.14; assumptions 0.80 to 1.50] less is saved of ${near} than of ${far}`,
    )
    expect(answer.headline.length).toBeLessThanOrEqual(LONGEST)
    expect(answer.findings[0]!.sentence).toContain("best depth")
  })
})

describe("a comparison by goals", () => {
  // seen red: the sign of the save rate kept
  test("gives the better one fewer goals, and signs goals where the better one changes", () => {
    const goals = (gain: (distance: number) => number): RunResults => {
      const results = handsByDistance(gain, ["goal_rate"])
      const points = results.points.map((point): PointResult => {
        const { mean } = point.differences.save_rate!
        return { ...point, differences: { goal_rate: estimate(-0.7 * mean, 0.001) }, assumptions: {} }
      })
      return { ...results, points }
    }
    expect(answerOf(goals((distance) => (distance - 15) / 100)).headline).toMatch(
      /^Fewer goals go in with hands beside than with hands tucked: 7\.0 points \[6\.9, 7\.1\] from 5 m/,
    )
    expect(answerOf(goals((distance) => (distance - 8) / 100)).headline).toMatch(
      /^Goals with hands tucked against hands beside: \+2\.1 points .* from 5 m, \u22122\.8 points .* from 12 m$/,
    )
  })
})

// seen red: the strip without its rows
test("curveChart() marks the crossing by a rule, both bands and a row of its own", async () => {
  const crossed = curveChart(handsCrossing())!
  const svg = await svgOf(crossed)
  expect(svg).toContain("Where the lines cross: thick sampling, thin assumptions")
  expect(svg).toContain("8.2 m [7.7, 8.7]")
  const plain = JSON.stringify(curveChart(handsByDistance())!.spec)
  const drawn = JSON.stringify(crossed.spec)
  for (const mark of ['"from":6,"to":12', '"from":7.7,"to":8.7', '"strokeDash":[6,4]']) {
    expect(drawn).toContain(mark)
    expect(plain).not.toContain(mark)
  }
})
