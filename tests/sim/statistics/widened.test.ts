import { describe, expect, test } from "vitest"
import { invertNormal } from "../../../src/sim/random/normal.ts"
import { fillUniforms, GOALIE } from "../../../src/sim/random/streams.ts"
import { meanOverReplicates } from "../../../src/sim/statistics/mean.ts"
import { invertStudentT } from "../../../src/sim/statistics/student-t.ts"
import { WIDENING, widened } from "../../../src/sim/statistics/widened.ts"

const REPLICATES = 32
const RUNS = 40_000
const LOOKS = 4

/**
 * Share of runs whose interval holds the true 0 where each stops at the first count, of one, two, four and eight times
 * the shots, at which it is no wider than `wanted` first true half-widths.
 */
function coverage(wanted: number, widening: number): number {
  const reach = (invertStudentT(0.975, REPLICATES - 1) * widening) / Math.sqrt(REPLICATES)
  const enough = (wanted * invertNormal(0.975)) / Math.sqrt(REPLICATES)
  const uniforms = new Float64Array(REPLICATES * LOOKS)
  let held = 0
  for (let run = 0; run < RUNS; run++) {
    fillUniforms([run, 31], 0, GOALIE, 0, 1, uniforms.length, uniforms)
    const sums = new Float64Array(REPLICATES)
    for (let look = 0, n = 0; look < LOOKS; look++) {
      // as many shots again as there are
      const more = Math.max(1, n)
      let [sum, squares] = [0, 0]
      for (let r = 0; r < REPLICATES; r++) {
        sums[r] = sums[r]! + Math.sqrt(more) * invertNormal(uniforms[look * REPLICATES + r]!)
        sum += sums[r]! / (n + more)
        squares += (sums[r]! / (n + more)) ** 2
      }
      n += more
      const mean = sum / REPLICATES
      const half = reach * Math.sqrt((squares - REPLICATES * mean ** 2) / (REPLICATES - 1))
      if (half > enough && look < LOOKS - 1) continue
      if (Math.abs(mean) <= half) held++
      break
    }
  }
  return held / RUNS
}

describe("an interval that was waited for", () => {
  // 40,000 runs each, standard error 0.11 %: 95 % within 4 standard errors; the theory is 95.0 to 95.2 %
  test.each([1, 0.9, 0.5])("holds the truth in 95 %% of runs where %s of the first half-width is wanted", (wanted) => {
    expect(Math.abs(coverage(wanted, WIDENING) - 0.95) / Math.sqrt((0.95 * 0.05) / RUNS)).toBeLessThan(4)
  })

  test("would hold it less often were it not widened", () => {
    expect((coverage(0.95, 1) - 0.95) / Math.sqrt((0.95 * 0.05) / RUNS)).toBeLessThan(-4)
  })

  // seen to fail: both ends moved by the same length
  test("has each end moved out from the mean by three hundredths, inside what is possible", () => {
    const share = { n: 100, mean: 0.9, standardError: 0.03, low: 0.8, high: 0.95, confidence: 0.95, method: "Wilson" }
    const wide = widened(share, 0, 1)
    expect(wide.low).toBeCloseTo(0.797, 12)
    expect(wide.high).toBeCloseTo(0.9515, 12)
    expect(wide).toMatchObject({ mean: 0.9, standardError: 0.03, method: "Wilson, 3 % wider as it was waited for" })
    expect(widened({ ...share, mean: 1, high: 1 }, 0, 1).high).toBe(1)
    expect(widened({ ...share, mean: 0.002, low: 0 }, 0, 1).low).toBe(0)
  })

  test("is left as it is where it has no width or no mean", () => {
    const same = meanOverReplicates([2, 2, 2], 30, 0.95)
    expect(widened(same, -1, 1)).toBe(same)
    const unknown = { ...same, mean: Number.NaN, low: 0, high: 1 }
    expect(widened(unknown, 0, 1)).toBe(unknown)
  })
})
