import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { fastCumulativeNormal } from "../../../src/sim/random/fast-normal.ts"
import { cumulativeNormal, densityNormal, invertNormal } from "../../../src/sim/random/normal.ts"
import { jstat } from "../../published/jstat.ts"

/** Made with 40-digit arithmetic: erfc(-x / sqrt 2) / 2. */
const CUMULATIVE: readonly (readonly [number, number])[] = [
  [-37.5, 4.605353009581955e-308],
  [-20, 2.7536241186062337e-89],
  [-8, 6.220960574271784e-16],
  [-5.7, 5.990371401063528e-9],
  [-5.6, 1.071759025831093e-8],
  [-3, 0.0013498980316300946],
  [-1, 0.15865525393145705],
  [-0.68, 0.2482522304535705],
  [-0.67, 0.2514288950953101],
  [-0.1, 0.460172162722971],
  [0, 0.5],
  [0.5, 0.6914624612740131],
  [1.96, 0.9750021048517795],
  [4, 0.9999683287581669],
]
/** Made with 40-digit arithmetic: the root of the same function. */
const INVERSE: readonly (readonly [number, number])[] = [
  [1e-300, -37.0470962993612],
  [1e-100, -21.273453560965326],
  [1e-20, -9.262340089798407],
  [1e-12, -7.034483825301132],
  [1e-9, -5.9978070150076865],
  [1e-6, -4.753424308822899],
  [0.001, -3.0902323061678136],
  [0.025, -1.9599639845400543],
  [0.075, -1.439531470938456],
  [0.0750001, -1.4395307645017297],
  [0.25, -0.6744897501960817],
  [0.4, -0.2533471031357997],
  [0.5, 0],
  [0.6, 0.2533471031357997],
  [0.9, 1.2815515655446006],
  [0.975, 1.9599639845400538],
  [0.995, 2.5758293035489004],
]

describe("cumulativeNormal()", () => {
  // seen red: last digit group of one coefficient changed in each of the three ranges
  test.each(CUMULATIVE)("at %f is %f within 2e-15 of itself", (x, p) => {
    expect(Math.abs(cumulativeNormal(x) / p - 1)).toBeLessThan(x < -37 ? 1e-13 : 2e-15)
  })

  test("agrees with an independent library within 2e-15 from -8 to 8", () => {
    let worst = 0
    for (let x = -8; x <= 8; x += 0.01)
      worst = Math.max(worst, Math.abs(cumulativeNormal(x) - jstat.normal.cdf(x, 0, 1)))
    expect(worst).toBeLessThan(2e-15)
  })

  test("never falls and ends at 0 and 1", () => {
    for (let x = -8; x < 8; x += 0.003) expect(cumulativeNormal(x + 0.003)).toBeGreaterThanOrEqual(cumulativeNormal(x))
    expect([cumulativeNormal(-40), cumulativeNormal(40)]).toEqual([0, 1])
    expect([cumulativeNormal(-Infinity), cumulativeNormal(Infinity)]).toEqual([0, 1])
  })

  test("has densityNormal() as its slope", () => {
    for (let x = -5; x <= 5; x += 0.25) {
      const slope = (cumulativeNormal(x + 1e-5) - cumulativeNormal(x - 1e-5)) / 2e-5
      expect(Math.abs(slope - densityNormal(x))).toBeLessThan(1e-9)
    }
  })
})

describe("invertNormal()", () => {
  // seen red: last digit group of one coefficient changed in each of the three ranges
  test.each(INVERSE)("of %f is %f within 2e-15 of itself", (p, x) => {
    expect(Math.abs(invertNormal(p) - x)).toBeLessThanOrEqual(2e-15 * Math.abs(x))
  })

  test("undoes cumulativeNormal() to the last digits the probability holds", () => {
    fc.assert(
      fc.property(fc.double({ min: -37, max: 5, noNaN: true }), (x) => {
        const slack = (1e-15 * cumulativeNormal(x)) / densityNormal(x) + 2e-15 * Math.abs(x)
        expect(Math.abs(invertNormal(cumulativeNormal(x)) - x)).toBeLessThan(slack + 1e-15)
      }),
      { seed: 3, numRuns: 1000 },
    )
  })

  test("is odd about one half, and infinite or not a number at the ends and beyond", () => {
    for (const p of [0.0625, 0.125, 0.25, 0.375]) expect(invertNormal(1 - p)).toBe(-invertNormal(p))
    expect([0, 1, -0.1, 1.1, Number.NaN].map(invertNormal)).toEqual([
      -Infinity,
      Infinity,
      Number.NaN,
      Number.NaN,
      Number.NaN,
    ])
  })
})

describe("fastCumulativeNormal()", () => {
  // seen red: third-order term's sign; a table of 16 points per unit
  test("stays within 1e-11 of cumulativeNormal() everywhere", () => {
    let worst = 0
    for (let x = -9; x <= 9; x += 0.000371)
      worst = Math.max(worst, Math.abs(fastCumulativeNormal(x) - cumulativeNormal(x)))
    expect(worst).toBeLessThan(1e-11)
  })

  test("is a probability at and beyond the ends of its table", () => {
    expect([-Infinity, -100, -8, 8, 100, Infinity].map(fastCumulativeNormal)).toEqual([0, 0, 0, 1, 1, 1])
    expect(fastCumulativeNormal(7.9999999)).toBeLessThanOrEqual(1)
    expect(fastCumulativeNormal(-7.9999999)).toBeGreaterThanOrEqual(0)
    expect(fastCumulativeNormal(Number.NaN)).toBeNaN()
  })
})
