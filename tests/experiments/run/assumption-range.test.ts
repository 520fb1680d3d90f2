import { expect, test } from "vitest"
import { withAssumptions } from "../../../src/experiments/run/assumptions.ts"
import { depthAlone } from "../fixture-results.ts"

// seen to fail with the departures put onto the rate as they are: a save rate of less than none
test("the assumption range of a rate stays between none and all, and that of a difference may be negative", () => {
  const { points } = depthAlone()
  const base = Float64Array.from(points, () => 0.5)
  // under one half of the sets nothing is saved that was, under the other everything
  const sets = Array.from({ length: 64 }, (_, i) =>
    Float64Array.from(points, (_, at) => (at === 0 ? 0.5 : i % 2 === 0 ? -0.5 : 1.5)),
  )
  const rates = [base, ...sets]
  const [first, second] = withAssumptions(points, { rates, goals: rates }, () => 0, "save_rate")
  expect(second!.assumptions.save_rate).toEqual({ low: 0, high: 1, sets: 64 })
  expect(second!.assumptions.save_rate_vs_baseline!.low).toBeLessThan(-0.5)
  expect(first!.assumptions.save_rate!.low).toBeCloseTo(points[0]!.estimates.save_rate!.mean, 12)
})
