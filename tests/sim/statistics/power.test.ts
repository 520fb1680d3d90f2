import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { cumulativeNormal } from "../../../src/sim/random/normal.ts"
import {
  halfWidthFromShots,
  shotsForContrast,
  shotsForHalfWidth,
  shotsToSee,
} from "../../../src/sim/statistics/power.ts"

const share = fc.double({ min: 0.01, max: 0.99, noNaN: true })

describe("shotsToSee()", () => {
  // seen red: power left out of the deviates
  test("gives the number at which a normal test has the power asked for", () => {
    fc.assert(
      fc.property(share, share, fc.double({ min: 0.1, max: 0.99, noNaN: true }), (before, after, power) => {
        fc.pre(Math.abs(before - after) > 1e-3)
        const n = shotsToSee(before, after, power, 0.05)
        const standardError = Math.sqrt((before * (1 - before) + after * (1 - after)) / n)
        const reached = cumulativeNormal(Math.abs(before - after) / standardError - 1.959963984540054)
        expect(reached).toBeCloseTo(power, 9)
      }),
      { seed: 8, numRuns: 200 },
    )
  })

  test("is the same in either direction and infinite for no change", () => {
    expect(shotsToSee(0.9, 0.92)).toBe(shotsToSee(0.92, 0.9))
    expect(shotsToSee(0.9, 0.9)).toBe(Infinity)
  })

  test("refuses a power or level that is no probability", () => {
    expect(() => shotsToSee(0.9, 0.92, 80)).toThrow(
      new RangeError("Cannot plan shots as power must be above 0 and below 1: current value is 80"),
    )
    expect(() => shotsToSee(0.9, 0.92, 0.8, 0)).toThrow(/level/)
  })
})

describe("shotsForContrast()", () => {
  // seen red: the spread of two arms taken for that of four
  test("gives the number at which a normal test of a difference of differences has the power asked for", () => {
    fc.assert(
      fc.property(fc.array(share, { minLength: 4, maxLength: 4 }), (rates) => {
        const contrast = rates[0]! - rates[1]! - rates[2]! + rates[3]!
        fc.pre(Math.abs(contrast) > 1e-3)
        const n = shotsForContrast(rates, contrast)
        const standardError = Math.sqrt(rates.reduce((sum, p) => sum + (p * (1 - p)) / n, 0))
        expect(cumulativeNormal(Math.abs(contrast) / standardError - 1.959963984540054)).toBeCloseTo(0.8, 9)
      }),
      { seed: 10, numRuns: 200 },
    )
    expect(shotsForContrast([0.9, 0.8, 0.7, 0.6], 0)).toBe(Infinity)
  })
})

test("shotsForHalfWidth() undoes halfWidthFromShots()", () => {
  fc.assert(
    fc.property(share, fc.integer({ min: 10, max: 1_000_000 }), (p, n) => {
      expect(shotsForHalfWidth(p, halfWidthFromShots(p, n))).toBeCloseTo(n, 4)
    }),
    { seed: 9, numRuns: 100 },
  )
})
