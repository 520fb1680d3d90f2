import { expect, test } from "vitest"
import { planPoints } from "../../../src/experiments/run/plan-points.ts"
import { depthAlone, depthByDistance, stanceByCase } from "../fixture-results.ts"

// seen to fail: the first, the last and the baseline, which are two stances of one case and one of the other
test("planPoints() shows every case and every choice before a second place of either", () => {
  const { experiment } = stanceByCase()
  const shown = planPoints(experiment).map((index) => experiment.points[index]!)
  expect(shown).toHaveLength(4)
  expect(new Set(shown.map((point) => point.swept[0])).size).toBe(4)
  expect(new Set(shown.map((point) => point.case)).size).toBe(2)
  expect(shown.map(({ index }) => index)).toContain(experiment.baseline)
})

test("planPoints() shows each of four cases once, at the depth of the baseline", () => {
  const { experiment } = depthByDistance()
  const shown = planPoints(experiment).map((index) => experiment.points[index]!)
  expect(new Set(shown.map((point) => point.case)).size).toBe(4)
  expect(new Set(shown.map((point) => point.swept[0])).size).toBe(1)
})

test("planPoints() shows three depths where nothing else differs", () => {
  const { experiment } = depthAlone()
  const depths = planPoints(experiment).map((index) => Number(experiment.points[index]!.swept[0]))
  expect(depths).toHaveLength(3)
  expect([depths[0], depths.at(-1)]).toEqual([0, 2.4])
})
