import { readFileSync } from "node:fs"
import { describe, expect, test } from "vitest"
import { scrambledSobol, sobolWord } from "../../src/sim/random/sobol.ts"

function pointsOf(file: string): readonly (readonly number[])[] {
  return JSON.parse(readFileSync(new URL(`./data/sobol/${file}`, import.meta.url), "utf8")).points
}

/** Coordinates of the sequence as the printed ones: exact, as 32 digits fit a double. */
function coordinates(points: number, dimensions: number): number[][] {
  return Array.from({ length: points }, (_, i) =>
    Array.from({ length: dimensions }, (_, d) => sobolWord(i, d) / 0x100000000),
  )
}

describe("the Sobol' sequence against published points", () => {
  // seen red: the recurrence's own shifted term left out; a polynomial's bits read from the other end
  test("sobolWord() gives the first 64 points in 32 dimensions digit for digit", () => {
    // source: SciPy 1.10.1 qmc.Sobol(d=32, scramble=False) on Joe and Kuo's new-joe-kuo-6
    expect(coordinates(64, 32)).toEqual(pointsOf("joe_kuo_32d_64_points.json"))
  })

  test("sobolWord() gives the 10 points another implementation expects of itself in 3 dimensions", () => {
    // source: Apache Commons Math, test of its Sobol' sequence generator
    expect(coordinates(10, 3)).toEqual(pointsOf("commons_math_3d_points.json"))
  })

  // seen red: a digital shift in place of nested coins
  test("scrambledSobol() errs on a smooth integral a hundredth of what independent points do", () => {
    // source: Owen, Ann. Statist. 25 (1997) 1541-1562: error O(n^-3/2) for smooth integrands, against n^-1/2 by chance
    // product of (1 + 0.5 (x - 1/2)) over 4 dimensions, integral 1, one point's variance (1 + 1/48)^4 - 1
    const [count, replicates] = [1024, 16]
    let squares = 0
    for (let r = 0; r < replicates; r++) {
      const points = scrambledSobol([1, 2], r, count, 4)
      let sum = 0
      for (let i = 0; i < count; i++) {
        let product = 1
        for (let d = 0; d < 4; d++) product *= 1 + 0.5 * (points[4 * i + d]! - 0.5)
        sum += product
      }
      squares += (sum / count - 1) ** 2
    }
    const byChance = Math.sqrt(((1 + 1 / 48) ** 4 - 1) / count)
    expect(Math.sqrt(squares / replicates)).toBeLessThan(byChance / 100)
  })
})
