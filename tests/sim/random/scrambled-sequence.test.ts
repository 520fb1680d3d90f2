import { describe, expect, test } from "vitest"
import { nestedScramble } from "../../../src/sim/random/nested-scramble.ts"
import { fillCoordinates, openReplicate, scrambledSequence } from "../../../src/sim/random/scrambled-sequence.ts"
import { sobolWord } from "../../../src/sim/random/sobol.ts"
import { fillUniforms, PLAY } from "../../../src/sim/random/streams.ts"

const KEY = [41, 42] as const

/** [dimensions][count] coordinates of points of a replicate. */
function pointsOf(dimensions: number, replicate: number, first: number, count: number): Float64Array[] {
  const sequence = scrambledSequence(dimensions)
  openReplicate(sequence, KEY, replicate, first + count)
  return Array.from({ length: dimensions }, (_, d) => {
    const out = new Float64Array(count)
    fillCoordinates(sequence, d, first, count, out, 0, 1)
    return out
  })
}

describe("the scrambled sequence", () => {
  // seen red: a zero on the diagonal of the matrix; a step by the wrong direction number
  test("leaves one point in each of 256 equal parts of every dimension, in any batch of 256", () => {
    for (const first of [0, 256, 256 * 77])
      for (const coordinates of pointsOf(32, 3, first, 256))
        expect(new Set(Array.from(coordinates, (u) => Math.floor(256 * u))).size).toBe(256)
  })

  // seen red: the second dimension scrambled by a matrix with coins above the diagonal too
  test("keeps the net of the first two dimensions: every box of 1/1024 holds one point, whatever its shape", () => {
    const [across, up] = pointsOf(2, 5, 0, 1024) as [Float64Array, Float64Array]
    for (let columns = 1; columns <= 1024; columns *= 2) {
      const rows = 1024 / columns
      const boxes = Array.from(across, (u, i) => `${Math.floor(columns * u)},${Math.floor(rows * up[i]!)}`)
      expect(new Set(boxes).size).toBe(1024)
    }
  })

  // seen red: the points of a batch counted from its own beginning
  test("goes on from batch to batch: points do not hang on how they are cut", () => {
    const whole = pointsOf(4, 9, 0, 4096)
    const sequence = scrambledSequence(4)
    for (const [first, count] of [
      [0, 1],
      [1, 2],
      [3, 61],
      [64, 192],
      [256, 256],
      [512, 3584],
    ] as const) {
      openReplicate(sequence, KEY, 9, first + count)
      for (let d = 0; d < 4; d++) {
        const out = new Float64Array(count)
        fillCoordinates(sequence, d, first, count, out, 0, 1)
        expect(out).toEqual(whole[d]!.subarray(first, first + count))
      }
    }
  })

  // seen red: no shift, which leaves the first point of every replicate in the corner
  test("spreads each point evenly over its replicates, in every dimension", () => {
    // chi-squared over 16 parts for points 0 and 200 in 8 dimensions, 4096 replicates: z of each of the 16 below 4
    const sequence = scrambledSequence(8)
    const counts = Array.from({ length: 16 }, () => new Float64Array(16))
    const out = new Float64Array(1)
    for (let replicate = 0; replicate < 4096; replicate++) {
      openReplicate(sequence, KEY, replicate, 256)
      for (let d = 0; d < 8; d++)
        for (const [at, index] of [0, 200].entries()) {
          fillCoordinates(sequence, d, index, 1, out, 0, 1)
          counts[2 * d + at]![Math.floor(16 * out[0]!)]! += 1
        }
    }
    for (const parts of counts) {
      const squares = parts.reduce((sum, n) => sum + (n - 256) ** 2 / 256, 0)
      expect((squares - 15) / Math.sqrt(30)).toBeLessThan(4)
    }
  })

  // seen red: no coins below the diagonal, which leaves a digital shift alone; coins above it
  test("errs on an integral as nested scrambling does, and without a bias", () => {
    // mean of exp(x) y: 600 replicates each of 32 points; F(600, 600) lies within 1.4 but for 1 in 20,000
    const [replicates, count] = [600, 32]
    const truth = (Math.E - 1) / 2
    const uniforms = new Float64Array(4)
    const nestedPoints = (replicate: number) => {
      fillUniforms(KEY, replicate, PLAY, 0, 1, 4, uniforms)
      const keys = Array.from(uniforms, (u) => Math.floor(u * 2 ** 32))
      return [0, 1].map((d) =>
        Float64Array.from(
          { length: count },
          (_, i) => (nestedScramble(sobolWord(i, d), keys[2 * d]!, keys[2 * d + 1]!) + 0.5) / 2 ** 32,
        ),
      )
    }
    const errorsOf = (points: (replicate: number) => readonly Float64Array[]) =>
      Array.from({ length: replicates }, (_, r) => {
        const [x, y] = points(r)
        return x!.reduce((sum, u, i) => sum + Math.exp(u) * y![i]!, 0) / count - truth
      })
    const squares = (errors: readonly number[]) => errors.reduce((sum, error) => sum + error * error, 0)
    const ours = errorsOf((r) => pointsOf(2, r, 0, count))
    const ratio = squares(ours) / squares(errorsOf(nestedPoints))
    expect(Math.abs(ours.reduce((sum, error) => sum + error, 0)) / Math.sqrt(squares(ours))).toBeLessThan(4)
    expect(ratio).toBeGreaterThan(1 / 1.4)
    expect(ratio).toBeLessThan(1.4)
  })

  // seen red: the replicate left out of the counter
  test("is scrambled independently in each replicate and each dimension", () => {
    // correlation of an estimate with that of the next replicate and of the next dimension: 2048 of each, |z| < 4
    const errors = Array.from({ length: 2049 }, (_, r) =>
      pointsOf(4, r, 0, 8).map((coordinates) => coordinates.reduce((sum, u) => sum + u, 0) / 8 - 0.5),
    )
    const correlation = (pairs: readonly (readonly [number, number])[]) => {
      const sum = (f: (a: number, b: number) => number) => pairs.reduce((all, [a, b]) => all + f(a, b), 0)
      return sum((a, b) => a * b) / Math.sqrt(sum((a) => a * a) * sum((_, b) => b * b))
    }
    const rows = errors.slice(1)
    for (let d = 0; d < 4; d++) {
      expect(Math.abs(correlation(rows.map((row, i) => [row[d]!, errors[i]![d]!])))).toBeLessThan(4 / Math.sqrt(2048))
      if (d > 0)
        expect(Math.abs(correlation(rows.map((row) => [row[d]!, row[d - 1]!])))).toBeLessThan(4 / Math.sqrt(2048))
    }
  })

  test("refuses more dimensions than the sequence has", () => {
    expect(() => scrambledSequence(33)).toThrow(
      "Cannot scramble a sequence as its dimensions must be <= 32: current value is 33",
    )
  })
})
