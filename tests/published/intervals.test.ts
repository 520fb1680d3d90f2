import { describe, expect, test } from "vitest"
import { newcombeDifference } from "../../src/sim/statistics/newcombe.ts"
import { invertStudentT } from "../../src/sim/statistics/student-t.ts"
import { scoreInterval, wilson } from "../../src/sim/statistics/wilson.ts"

describe("intervals against published examples", () => {
  // seen red: square / (2 * n) replaced by square / n
  test.each([
    [430, 474, 0.8776750858, 0.930123984],
    [392, 436, 0.8672311847, 0.9239627361],
    [10, 14, 0.4535045883, 0.8827881209],
  ])(
    "Wilson's interval of %i in %i with 1.96 standard errors is as printed to ten digits",
    (successes, n, low, high) => {
      // source: msn0/wilson-score-interval, README, worked examples (z = 1.96)
      const interval = scoreInterval(successes / n, n, 1.96)
      expect(Math.abs(interval[0] - low)).toBeLessThan(6e-11)
      expect(Math.abs(interval[1] - high)).toBeLessThan(6e-11)
    },
  )

  test("Wilson's interval of 430 in 474 with the exact normal quantile is .8776756906 to .9301236179", () => {
    // source: formula of E. B. Wilson 1927 recomputed with z = 1.959964
    const { low, high } = wilson(430, 474, 0.95)
    expect(low).toBeCloseTo(0.8776756906, 8)
    expect(high).toBeCloseTo(0.9301236179, 8)
  })

  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])("the score interval of %i in %i is %f to %f", (successes, n, low, high) => {
    // source: R. G. Newcombe, Statistics in Medicine 17 (1998), 857-872, method 3; limits recomputed
    const interval = wilson(successes, n, 0.95)
    expect(interval.low).toBeCloseTo(low, 4)
    expect(interval.high).toBeCloseTo(high, 4)
  })

  // seen red: a.low and a.high exchanged; the two reaches added straight
  test.each([
    [56, 70, 48, 80, 0.0524, 0.3339],
    [9, 10, 3, 10, 0.1705, 0.809],
    [6, 7, 2, 7, 0.0582, 0.8062],
    [5, 56, 0, 29, -0.0381, 0.1926],
    [0, 10, 0, 20, -0.1611, 0.2775],
    [0, 10, 0, 10, -0.2775, 0.2775],
    [10, 10, 0, 20, 0.6791, 1],
    [10, 10, 0, 10, 0.6075, 1],
  ])("the hybrid score interval of %i/%i less %i/%i is %f to %f", (a, trialsA, b, trialsB, low, high) => {
    // source: R. G. Newcombe, Statistics in Medicine 17 (1998), 873-890, table II, method 10 (as quoted by later users)
    const interval = newcombeDifference(a, trialsA, b, trialsB, 0.95)
    expect(Math.abs(interval.low - low)).toBeLessThan(6e-5)
    expect(Math.abs(interval.high - high)).toBeLessThan(6e-5)
  })

  test.each([
    [1, 0.95, 6.314],
    [1, 0.975, 12.706],
    [5, 0.975, 2.571],
    [10, 0.95, 1.812],
    [10, 0.975, 2.228],
    [10, 0.995, 3.169],
    [30, 0.975, 2.042],
    [30, 0.995, 2.75],
    [60, 0.975, 2],
    [100, 0.975, 1.984],
  ])("Student's t with %i degrees of freedom at %f is %f", (freedom, p, t) => {
    // source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, critical values of Student's t
    expect(Math.abs(invertStudentT(p, freedom) - t)).toBeLessThan(5.1e-4)
  })
})
