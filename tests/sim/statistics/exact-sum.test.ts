import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { fillUniforms, PLAY } from "../../../src/sim/random/streams.ts"
import {
  addExactly,
  checkSums,
  GREATEST_SUM,
  mergeSums,
  QUANTUM,
  quantise,
} from "../../../src/sim/statistics/exact-sum.ts"

const contribution = fc.double({ min: -1000, max: 1000, noNaN: true })

/** Sum of values in one batch, in the order given. */
function sumOf(values: readonly number[]): Float64Array {
  const sums = new Float64Array(1)
  for (const value of values) addExactly(sums, 0, value)
  return sums
}

describe("exact sums", () => {
  // seen red: value added without rounding
  test("any order and any cut give the same bits", () => {
    fc.assert(
      fc.property(
        fc
          .array(contribution, { minLength: 1, maxLength: 60 })
          .chain((values) =>
            fc.tuple(
              fc.constant(values),
              fc.shuffledSubarray(values, { minLength: values.length }),
              fc.array(fc.nat(values.length), { maxLength: 5 }),
            ),
          ),
        ([values, shuffled, cuts]) => {
          const merged = new Float64Array(1)
          const ends = [...cuts, shuffled.length].sort((a, b) => a - b)
          let from = 0
          for (const to of ends) {
            mergeSums(merged, sumOf(shuffled.slice(from, to)))
            from = to
          }
          expect(Object.is(merged[0]! + 0, sumOf(values)[0]! + 0)).toBe(true)
        },
      ),
      { seed: 5, numRuns: 500 },
    )
  })

  test("plain sums of the same numbers do depend on the order, so the rounding is needed", () => {
    const values = new Float64Array(1000)
    fillUniforms([1, 2], 0, PLAY, 0, 1000, 1, values)
    const forward = values.reduce((sum, value) => sum + value / 3, 0)
    const backward = values.reduceRight((sum, value) => sum + value / 3, 0)
    expect(forward).not.toBe(backward)
    const thirds = Array.from(values, (value) => value / 3)
    expect(sumOf(thirds)).toEqual(sumOf(thirds.reverse()))
  })

  test("quantise() gives the nearest multiple of 2^-30 and leaves such multiples alone", () => {
    fc.assert(
      fc.property(fc.double({ min: -(2 ** 20), max: 2 ** 20, noNaN: true }), (value) => {
        const rounded = quantise(value)
        expect(Number.isInteger(rounded / QUANTUM)).toBe(true)
        expect(Math.abs(rounded - value)).toBeLessThanOrEqual(QUANTUM / 2)
        expect(quantise(rounded)).toBe(rounded)
      }),
      { seed: 6, numRuns: 1000 },
    )
    expect([0, 1, -1, 0.5, QUANTUM, -QUANTUM].map(quantise)).toEqual([0, 1, -1, 0.5, QUANTUM, -QUANTUM])
  })

  test("sums stay exact up to the greatest sum", () => {
    const sums = Float64Array.of(GREATEST_SUM - 1)
    addExactly(sums, 0, QUANTUM)
    expect(sums[0]! - (GREATEST_SUM - 1)).toBe(QUANTUM)
  })

  // seen red: the comparison turned round so that NaN passes
  test("a sum that reaches 2^22, or is not a number, is refused", () => {
    expect(() => checkSums(Float64Array.of(0, GREATEST_SUM))).toThrow(
      new RangeError("Cannot add exactly as sum 1 must be between -4194304 and 4194304: current value is 4194304"),
    )
    expect(() => checkSums(Float64Array.of(Number.NaN))).toThrow(/current value is NaN/)
    expect(() => mergeSums(Float64Array.of(GREATEST_SUM - 1), Float64Array.of(1))).toThrow(RangeError)
    expect(() => checkSums(Float64Array.of(GREATEST_SUM - 1, 1 - GREATEST_SUM))).not.toThrow()
  })

  test("columns of unlike length do not merge", () => {
    expect(() => mergeSums(new Float64Array(2), new Float64Array(3))).toThrow(
      new RangeError("Cannot merge sums as their lengths must be equal: current values are 2 and 3"),
    )
  })
})
