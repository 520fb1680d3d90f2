import fc from "fast-check"
import { quantileSorted as reference } from "simple-statistics"
import { describe, expect, test } from "vitest"
import { quantileSorted, sortedCopy } from "../../../src/sim/statistics/quantile.ts"

/** Type 7 by its definition: the value at place (n - 1) p, from the whole list. */
function slowQuantile(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b)
  const place = (sorted.length - 1) * p
  const low = sorted[Math.floor(place)]!
  return low + (place % 1) * (sorted[Math.ceil(place)]! - low)
}

const numbers = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 50 })

describe("quantileSorted()", () => {
  // seen red: n instead of n - 1
  test("is the value at place (n - 1) p, straight between neighbours", () => {
    fc.assert(
      fc.property(numbers, fc.double({ min: 0, max: 1, noNaN: true }), (values, p) => {
        expect(Math.abs(quantileSorted(sortedCopy(values), p) - slowQuantile(values, p))).toBeLessThan(1e-9)
      }),
      { seed: 13, numRuns: 300 },
    )
  })

  test("agrees with an independent library on least, greatest and the middle of an odd number", () => {
    fc.assert(
      fc.property(numbers, (values) => {
        const sorted = Array.from(sortedCopy(values))
        for (const p of sorted.length % 2 === 1 ? [0, 0.5, 1] : [0, 1]) {
          expect(quantileSorted(sorted, p)).toBe(reference(sorted, p))
        }
      }),
      { seed: 14, numRuns: 200 },
    )
  })

  test("quartiles of 1 to 10 are 3.25, 5.5 and 7.75, and infinite neighbours do no harm", () => {
    const values = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]
    expect([0.25, 0.5, 0.75].map((p) => quantileSorted(values, p))).toEqual([3.25, 5.5, 7.75])
    expect(quantileSorted([1, Infinity, Infinity], 0.75)).toBe(Infinity)
  })

  test("refuses an empty list and what is no probability", () => {
    expect(() => quantileSorted([], 0.5)).toThrow(RangeError)
    expect(() => quantileSorted([1], 5)).toThrow(
      new RangeError(
        "Cannot take a quantile as p must be between 0 and 1 of at least one value: current values are 5 of 1",
      ),
    )
  })

  test("sortedCopy() sorts numbers as numbers and leaves the original alone", () => {
    const values = [10, 9, -1, 100]
    expect([...sortedCopy(values)]).toEqual([-1, 9, 10, 100])
    expect(values).toEqual([10, 9, -1, 100])
  })
})
