import { describe, expect, test } from "vitest"
import { cumulativeNormal } from "../../../src/sim/random/normal.ts"
import { fillUniforms, SHOOTER } from "../../../src/sim/random/streams.ts"
import {
  CUT,
  cumulativeTruncatedNormal,
  densityTruncatedNormal,
  SD_AFTER_CUT,
  sampleTruncatedNormal,
} from "../../../src/sim/random/truncated-normal.ts"

describe("truncated normal", () => {
  // seen red: BETWEEN replaced by 1; BELOW by 0
  test("samples run from cut to cut and no further", () => {
    expect(Math.abs(sampleTruncatedNormal(2 ** -33, 20, 2) - (20 - 2 * CUT))).toBeLessThan(1e-6)
    expect(Math.abs(sampleTruncatedNormal(1 - 2 ** -33, 20, 2) - (20 + 2 * CUT))).toBeLessThan(1e-6)
    expect(sampleTruncatedNormal(2 ** -33, 0, 1)).toBeGreaterThanOrEqual(-CUT)
    expect(sampleTruncatedNormal(1 - 2 ** -33, 0, 1)).toBeLessThanOrEqual(CUT)
    expect(sampleTruncatedNormal(0.5, 20, 2)).toBe(20)
    expect(sampleTruncatedNormal(0.123, 20, 0)).toBe(20)
  })

  test("cumulativeTruncatedNormal() undoes sampleTruncatedNormal()", () => {
    for (let u = 0.001; u < 1; u += 0.007) {
      const x = sampleTruncatedNormal(u, -1, 0.3)
      expect(Math.abs(cumulativeTruncatedNormal(x, -1, 0.3) - u)).toBeLessThan(1e-14)
    }
    expect([-10, -CUT, CUT, 10].map((z) => cumulativeTruncatedNormal(z, 0, 1))).toEqual([0, 0, 1, 1])
  })

  test("density is the slope of the cumulative inside the cuts and 0 outside", () => {
    for (let x = -2.9; x < 3; x += 0.1) {
      const rise = cumulativeTruncatedNormal(x + 1e-5, 0, 1) - cumulativeTruncatedNormal(x - 1e-5, 0, 1)
      expect(Math.abs(rise / 2e-5 - densityTruncatedNormal(x, 0, 1))).toBeLessThan(1e-9)
    }
    expect([-3.01, 3.01].map((x) => densityTruncatedNormal(x, 0, 1))).toEqual([0, 0])
  })

  test("takes its two probabilities from the normal", () => {
    expect(cumulativeTruncatedNormal(1, 0, 1)).toBe(
      (cumulativeNormal(1) - cumulativeNormal(-CUT)) / (1 - 2 * cumulativeNormal(-CUT)),
    )
  })

  // key fixed, n = 100,000, |z| < 4: false alarm 1 in 16,000 for each
  test("samples have the stated mean and spread", () => {
    const n = 100_000
    const u = new Float64Array(n)
    fillUniforms([7, 8], 0, SHOOTER, 0, n, 1, u)
    let sum = 0
    let square = 0
    for (const value of u) {
      const z = sampleTruncatedNormal(value, 0, 1)
      sum += z
      square += z * z
    }
    const variance = SD_AFTER_CUT ** 2
    expect(Math.abs(sum / n) / (SD_AFTER_CUT / Math.sqrt(n))).toBeLessThan(4)
    // the variance of a square is below 2 for the cut normal
    expect(Math.abs(square / n - variance) / Math.sqrt(2 / n)).toBeLessThan(4)
  })
})
