import { describe, expect, test } from "vitest"
import {
  cumulativeLognormal,
  densityLognormal,
  fastCumulativeLognormal,
  sampleLognormal,
} from "../../../src/sim/random/lognormal.ts"
import { fillUniforms, GOALIE } from "../../../src/sim/random/streams.ts"
import { jstat } from "../../published/jstat.ts"

const MEDIAN = 0.185
const SD = 0.22

describe("lognormal", () => {
  // seen red: median used as mean; density without 1 / x
  test("cumulative and density agree with an independent library", () => {
    for (let x = 0.05; x < 0.6; x += 0.01) {
      const reference = jstat.lognormal.cdf(x, Math.log(MEDIAN), SD)
      expect(Math.abs(cumulativeLognormal(x, MEDIAN, SD) - reference)).toBeLessThan(1e-14)
      expect(Math.abs(fastCumulativeLognormal(x, MEDIAN, SD) - reference)).toBeLessThan(1e-11)
      const density = jstat.lognormal.pdf(x, Math.log(MEDIAN), SD)
      expect(Math.abs(densityLognormal(x, MEDIAN, SD) / density - 1)).toBeLessThan(1e-12)
    }
  })

  test("cumulativeLognormal() undoes sampleLognormal()", () => {
    for (let u = 0.001; u < 1; u += 0.007) {
      expect(Math.abs(cumulativeLognormal(sampleLognormal(u, MEDIAN, SD), MEDIAN, SD) - u)).toBeLessThan(1e-14)
    }
    expect(sampleLognormal(0.5, MEDIAN, SD)).toBe(MEDIAN)
  })

  test("nothing lies at or below zero, everything below infinity", () => {
    for (const x of [-1, 0]) {
      expect(cumulativeLognormal(x, MEDIAN, SD)).toBe(0)
      expect(fastCumulativeLognormal(x, MEDIAN, SD)).toBe(0)
      expect(densityLognormal(x, MEDIAN, SD)).toBe(0)
    }
    expect(cumulativeLognormal(Infinity, MEDIAN, SD)).toBe(1)
    expect(fastCumulativeLognormal(Infinity, MEDIAN, SD)).toBe(1)
  })

  // key fixed, n = 100,000, |z| < 4: false alarm 1 in 16,000
  test("samples have the mean median * exp(sd² / 2)", () => {
    const n = 100_000
    const u = new Float64Array(n)
    fillUniforms([5, 6], 0, GOALIE, 0, n, 1, u)
    let sum = 0
    for (const value of u) sum += sampleLognormal(value, MEDIAN, SD)
    const mean = MEDIAN * Math.exp((SD * SD) / 2)
    const sd = mean * Math.sqrt(Math.expm1(SD * SD))
    expect(Math.abs(sum / n - mean) / (sd / Math.sqrt(n))).toBeLessThan(4)
  })
})
