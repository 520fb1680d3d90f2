import { expect, test } from "vitest"
import { halfWidthFromShots, shotsToSee } from "../../src/sim/statistics/power.ts"

// seen red: spread of the first arm taken twice; level not halved
test.each([
  [0.91, 13_492],
  [0.92, 3_210],
  [0.93, 1_353],
  [0.95, 432],
])("to see a save rate of .900 become %f takes %i shots in each arm", (after, shots) => {
  // source: two-sample normal formula, (1.959964 + 0.841621)² (p1 q1 + p2 q2) / d², worked by hand
  expect(Math.round(shotsToSee(0.9, after))).toBe(shots)
})

test("thirty practice shots at .900 leave 10.7 points to luck either way", () => {
  // source: 1.959964 * sqrt(.9 * .1 / 30), worked by hand
  expect(100 * halfWidthFromShots(0.9, 30)).toBeCloseTo(10.7, 1)
})
