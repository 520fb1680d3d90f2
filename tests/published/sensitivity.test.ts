import { describe, expect, test } from "vitest"
import { type SensitivityBootstrap, sensitivityIndices } from "../../src/sim/statistics/sensitivity.ts"
import { sensitivityDesign } from "../../src/sim/statistics/sensitivity-design.ts"

/** 95 % intervals from 400 resamples; n is only carried along. */
const BOOTSTRAP: SensitivityBootstrap = { key: [21, 22], resamples: 400, confidence: 0.95, n: 0 }

/** Indices of a function on the unit box from `sets` x (k + 2) evaluations. */
function indicesOf(f: (x: Float64Array) => number, quantities: number, sets: number) {
  const design = sensitivityDesign([31, 32], 0, sets, quantities)
  const values = Float64Array.from({ length: design.rows }, (_, row) =>
    f(design.points.subarray(row * quantities, (row + 1) * quantities)),
  )
  return sensitivityIndices(design, values, BOOTSTRAP)
}

/** Published value inside the interval, estimate near it. */
function expectNear(
  found: readonly { readonly mean: number; readonly low: number; readonly high: number }[],
  published: readonly number[],
  within: number,
): void {
  found.forEach(({ mean, low, high }, q) => {
    expect(low).toBeLessThanOrEqual(published[q]! + 5e-5)
    expect(high).toBeGreaterThanOrEqual(published[q]! - 5e-5)
    expect(Math.abs(mean - published[q]!)).toBeLessThan(within)
  })
}

describe("sensitivityIndices() on functions with known indices", () => {
  // seen red: Jansen's 2 left out; f(A) in place of f(B) in the first-order product
  test("finds Ishigami's first-order and total indices", () => {
    // source: Ishigami and Homma (1990), a = 7, b = 0.1, indices in closed form (Saltelli et al., Global Sensitivity
    // Analysis, 2008, and most texts since): first .3139 .4424 0, total .5576 .4424 .2437
    const angle = (u: number) => Math.PI * (2 * u - 1)
    const f = (x: Float64Array) =>
      Math.sin(angle(x[0]!)) + 7 * Math.sin(angle(x[1]!)) ** 2 + 0.1 * angle(x[2]!) ** 4 * Math.sin(angle(x[0]!))
    const { first, total, variance, mean } = indicesOf(f, 3, 4096)
    expectNear(first, [0.3139, 0.4424, 0], 0.01)
    expectNear(total, [0.5576, 0.4424, 0.2437], 0.01)
    // mean a / 2, variance a²/8 + b pi⁴/5 + b² pi⁸/18 + 1/2
    expect(mean).toBeCloseTo(3.5, 2)
    expect(variance).toBeCloseTo(49 / 8 + (0.1 * Math.PI ** 4) / 5 + (0.01 * Math.PI ** 8) / 18 + 0.5, 0)
  })

  // seen red: each block after B given the quantity of its neighbour from B
  test("finds the indices of Sobol's g with eight quantities, from the important to the idle", () => {
    // source: Sobol' (1993) g = product (|4x - 2| + a) / (1 + a), Saltelli and Sobol' (1995) a = 0 1 4.5 9 99 99 99 99:
    // V_i = 1/3 / (1 + a_i)², V = product (1 + V_i) - 1, S_i = V_i / V, T_i = V_i product of others (1 + V_j) / V
    const a = [0, 1, 4.5, 9, 99, 99, 99, 99]
    const parts = a.map((one) => 1 / 3 / (1 + one) ** 2)
    const product = parts.reduce((all, part) => all * (1 + part), 1)
    const f = (x: Float64Array) => a.reduce((all, one, q) => (all * (Math.abs(4 * x[q]! - 2) + one)) / (1 + one), 1)
    const { first, total, variance } = indicesOf(f, 8, 2048)
    expectNear(
      first,
      parts.map((part) => part / (product - 1)),
      0.015,
    )
    expectNear(
      total,
      parts.map((part) => (part * product) / (1 + part) / (product - 1)),
      0.015,
    )
    expect(variance).toBeCloseTo(product - 1, 1)
    // the published values of the first two, to three digits
    expect(parts[0]! / (product - 1)).toBeCloseTo(0.716, 3)
    expect(parts[1]! / (product - 1)).toBeCloseTo(0.179, 3)
  })

  test("finds a sum's indices, first and total alike, with more quantities than the sequence has dimensions for", () => {
    // source: variance of a weighted sum of independent uniforms, c² / 12 each: S = T = c² / sum of c²
    const weights = Array.from({ length: 40 }, (_, q) => (q < 4 ? 4 - q : 0.1))
    const squares = weights.reduce((sum, weight) => sum + weight * weight, 0)
    const f = (x: Float64Array) => weights.reduce((sum, weight, q) => sum + weight * x[q]!, 0)
    const { first, total } = indicesOf(f, 40, 512)
    const known = weights.map((weight) => (weight * weight) / squares)
    expectNear(first.slice(0, 4), known, 0.04)
    expectNear(total.slice(0, 4), known, 0.04)
    for (const { mean } of total.slice(4)) expect(mean).toBeLessThan(0.001)
  })
})
