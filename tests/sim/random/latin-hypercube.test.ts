import { expect, test } from "vitest"
import { latinHypercube } from "../../../src/sim/random/latin-hypercube.ts"

// seen red: the order of the parts left as it is
test("latinHypercube() holds one point in each of as many parts of every dimension, in orders of their own", () => {
  const [count, dimensions] = [100, 6]
  const points = latinHypercube([3, 4], 0, count, dimensions)
  const column = (d: number) => Array.from({ length: count }, (_, i) => points[i * dimensions + d]!)
  for (let d = 0; d < dimensions; d++) {
    expect(new Set(column(d).map((u) => Math.floor(u * count))).size).toBe(count)
    // correlation with the next dimension over 100 points: standard error 0.1, |z| < 4
    const next = column((d + 1) % dimensions)
    const sum = column(d).reduce((all, u, i) => all + (u - 0.5) * (next[i]! - 0.5), 0)
    expect(Math.abs((12 * sum) / count)).toBeLessThan(0.4)
  }
  expect(latinHypercube([3, 4], 0, count, dimensions)).toEqual(points)
  expect(latinHypercube([3, 5], 0, count, dimensions)).not.toEqual(points)
})
