import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { cumulativeNormal, invertNormal } from "../../../src/sim/random/normal.ts"
import { cumulativeStudentT, invertStudentT } from "../../../src/sim/statistics/student-t.ts"
import { jstat } from "../../published/jstat.ts"

/** [t, freedom, probability below], made with 40-digit arithmetic from the incomplete beta function. */
const CUMULATIVE: readonly (readonly [number, number, number])[] = [
  [-3, 1, 0.10241638234956672],
  [0.3, 1, 0.5927735790777423],
  [1, 2, 0.7886751345948129],
  [-0.7, 3, 0.2671634991523818],
  [2.5, 4, 0.966616727594006],
  [2.1, 31, 0.9780186870048675],
  [-1.2, 15, 0.12437489369401136],
  [4, 63, 0.9999154737394572],
  [0.01, 255, 0.5039854468471251],
  [1.96, 1001, 0.9748635461335508],
]
/** [probability below, freedom, t], the root of the same function. */
const INVERSE: readonly (readonly [number, number, number])[] = [
  [0.6, 1, 0.32491969623290623],
  [0.975, 1, 12.706204736174694],
  [0.9995, 1, 636.6192487687897],
  [0.975, 2, 4.302652729749462],
  [0.75, 3, 0.7648923284043453],
  [0.975, 4, 2.7764451051977934],
  [0.995, 7, 3.4994832973504932],
  [0.975, 15, 2.131449545559775],
  [0.975, 31, 2.039513446396408],
  [0.95, 31, 1.695518782545865],
  [0.9999, 31, 4.215502580843758],
  [0.975, 63, 1.9983405425207412],
  [0.975, 255, 1.9693105698498747],
  [0.975, 4000, 1.9605572287937334],
]

describe("Student's t", () => {
  // seen red: sum run to freedom; the odd case without the angle
  test.each(CUMULATIVE)("below %f with %i degrees of freedom lies %f", (t, freedom, p) => {
    expect(Math.abs(cumulativeStudentT(t, freedom) - p)).toBeLessThan(1e-14)
  })

  // seen red: Newton's steps ended after three
  test.each(INVERSE)("a share %f with %i degrees of freedom lies below %f", (p, freedom, t) => {
    expect(Math.abs(invertStudentT(p, freedom) / t - 1)).toBeLessThan(1e-11)
  })

  test("agrees with an independent library", () => {
    for (const freedom of [1, 2, 5, 7, 15, 31, 63]) {
      for (let t = -5; t <= 5; t += 0.37) {
        // the library itself is good to a few 1e-9
        expect(Math.abs(cumulativeStudentT(t, freedom) - jstat.studentt.cdf(t, freedom))).toBeLessThan(1e-7)
      }
      for (const p of [0.9, 0.95, 0.975, 0.995]) {
        expect(Math.abs(invertStudentT(p, freedom) / jstat.studentt.inv(p, freedom) - 1)).toBeLessThan(1e-7)
      }
    }
  })

  test("quantile and probability undo each other, and both are odd about the middle", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-4, max: 1 - 1e-4, noNaN: true }),
        fc.integer({ min: 1, max: 400 }),
        (p, freedom) => {
          const t = invertStudentT(p, freedom)
          expect(Math.abs(cumulativeStudentT(t, freedom) - p)).toBeLessThan(1e-14)
          expect(Math.abs(cumulativeStudentT(-t, freedom) - (1 - p))).toBeLessThan(1e-14)
        },
      ),
      { seed: 7, numRuns: 500 },
    )
  })

  test("goes over into the normal, from above", () => {
    expect(Math.abs(cumulativeStudentT(1.5, 1_000_000) - cumulativeNormal(1.5))).toBeLessThan(1e-6)
    let before = Infinity
    for (const freedom of [1, 2, 3, 7, 31, 1000]) {
      const t = invertStudentT(0.975, freedom)
      expect(t).toBeLessThan(before)
      expect(t).toBeGreaterThan(invertNormal(0.975))
      before = t
    }
  })

  test("has the ends and the middle in place and refuses what is no probability or no freedom", () => {
    expect([0, 0.5, 1].map((p) => invertStudentT(p, 5))).toEqual([-Infinity, 0, Infinity])
    expect(() => invertStudentT(1.1, 5)).toThrow(
      new RangeError("Cannot invert Student's t as p must be between 0 and 1: current value is 1.1"),
    )
    expect(() => cumulativeStudentT(1, 0)).toThrow(
      new RangeError("Cannot evaluate Student's t as freedom must be a whole number from 1: current value is 0"),
    )
    expect(() => invertStudentT(0.9, 2.5)).toThrow(RangeError)
  })
})
