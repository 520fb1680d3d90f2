import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { newcombeDifference } from "../../../src/sim/statistics/newcombe.ts"
import { scoreInterval, wilson } from "../../../src/sim/statistics/wilson.ts"

const counts = fc.integer({ min: 1, max: 5000 }).chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)))

describe("wilson()", () => {
  // seen red: + square / (4 n²) left out of the reach
  test("ends lie exactly the asked number of standard errors, computed at the end, from the share", () => {
    fc.assert(
      fc.property(counts, ([successes, n]) => {
        const share = successes / n
        for (const end of scoreInterval(share, n, 2)) {
          expect(Math.abs((share - end) ** 2 - (4 * end * (1 - end)) / n)).toBeLessThan(1e-12)
        }
      }),
      { seed: 10, numRuns: 300 },
    )
  })

  test("never has zero width, stays in [0, 1], holds its mean, and mirrors when saves become goals", () => {
    fc.assert(
      fc.property(counts, ([successes, n]) => {
        const saves = wilson(successes, n, 0.95)
        const goals = wilson(n - successes, n, 0.95)
        expect(saves.high - saves.low).toBeGreaterThan(0)
        expect(saves.low).toBeGreaterThanOrEqual(0)
        expect(saves.high).toBeLessThanOrEqual(1)
        expect(saves.low).toBeLessThanOrEqual(saves.mean)
        expect(saves.high).toBeGreaterThanOrEqual(saves.mean)
        expect(goals.low).toBeCloseTo(1 - saves.high, 12)
      }),
      { seed: 11, numRuns: 300 },
    )
  })

  test("all saved in 100 is an interval of 96.3 to 100 %, not a certainty", () => {
    const { low, high, mean, method } = wilson(100, 100, 0.95)
    expect([low, high, mean, method]).toEqual([expect.closeTo(0.96301, 5), 1, 1, "Wilson"])
  })

  test("no shots leave everything open", () => {
    expect(wilson(0, 0, 0.95)).toEqual({
      n: 0,
      mean: Number.NaN,
      standardError: Number.NaN,
      low: 0,
      high: 1,
      confidence: 0.95,
      method: "Wilson",
    })
  })

  test("refuses counts and confidences out of range", () => {
    expect(() => wilson(11, 10, 0.95)).toThrow(
      new RangeError("Cannot estimate a share as successes must be between 0 and 10: current value is 11"),
    )
    expect(() => wilson(1, Number.NaN, 0.95)).toThrow(/n must be 0 or more/)
    expect(() => wilson(1, 10, 95)).toThrow(
      new RangeError("Cannot make an interval as confidence must be above 0 and below 1: current value is 95"),
    )
  })
})

describe("newcombeDifference()", () => {
  // seen red: a.mean - b.mean turned round
  test("turns its sign when the arms change places, and holds its mean", () => {
    fc.assert(
      fc.property(counts, counts, ([a, n], [b, m]) => {
        const there = newcombeDifference(a, n, b, m, 0.9)
        const back = newcombeDifference(b, m, a, n, 0.9)
        expect(there.mean).toBe(a / n - b / m)
        expect(there.low).toBeCloseTo(-back.high, 12)
        expect(there.low).toBeLessThanOrEqual(there.mean)
        expect(there.high).toBeGreaterThanOrEqual(there.mean)
      }),
      { seed: 12, numRuns: 300 },
    )
  })

  test("an arm without shots leaves every difference open", () => {
    const { low, high, mean } = newcombeDifference(0, 0, 5, 10, 0.95)
    expect([low, high, mean]).toEqual([-1, 1, Number.NaN])
  })
})
