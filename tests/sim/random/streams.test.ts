import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { fillUniforms, GOALIE, PLAY, PUCK, SHOOTER, type Stream, uniformAt } from "../../../src/sim/random/streams.ts"

const KEY = [0x12345678, 0x9abcdef0] as const
const streams: readonly Stream[] = [PLAY, SHOOTER, PUCK, GOALIE]

describe("fillUniforms()", () => {
  // seen red: shot offset dropped from the second half of a pair; block counted from 1
  test("puts at [shot x draw] the draw of that address, whatever the count, the draws and the first shot", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 2 ** 31 }),
        fc.integer({ min: 0, max: 9 }),
        fc.integer({ min: 0, max: 11 }),
        fc.constantFrom(...streams),
        fc.nat(40),
        (first, count, draws, stream, replicate) => {
          const out = new Float64Array(count * draws + 2).fill(-1)
          fillUniforms(KEY, replicate, stream, first, count, draws, out)
          const expected: number[] = []
          for (let shot = first; shot < first + count; shot++) {
            for (let draw = 0; draw < draws; draw++) expected.push(uniformAt(KEY, replicate, stream, shot, draw))
          }
          expect([...out]).toEqual([...expected, -1, -1])
        },
      ),
      { seed: 2, numRuns: 200 },
    )
  })

  test("is the same in one piece and in any cut", () => {
    const whole = new Float64Array(100 * 6)
    fillUniforms(KEY, 7, SHOOTER, 50, 100, 6, whole)
    const cut = new Float64Array(100 * 6)
    for (const [from, to] of [
      [0, 1],
      [1, 38],
      [38, 100],
    ] as const) {
      fillUniforms(KEY, 7, SHOOTER, 50 + from, to - from, 6, cut.subarray(from * 6, to * 6))
    }
    expect(cut).toEqual(whole)
  })

  test("gives other numbers for another stream, replicate, shot, draw or key", () => {
    const base = uniformAt(KEY, 1, PLAY, 1, 1)
    const others = [
      uniformAt(KEY, 1, GOALIE, 1, 1),
      uniformAt(KEY, 2, PLAY, 1, 1),
      uniformAt(KEY, 1, PLAY, 2, 1),
      uniformAt(KEY, 1, PLAY, 1, 2),
      uniformAt(KEY, 1, PLAY, 1, 5),
      uniformAt([KEY[0], KEY[1] + 1], 1, PLAY, 1, 1),
      uniformAt([KEY[0] + 1, KEY[1]], 1, PLAY, 1, 1),
    ]
    expect(new Set([base, ...others]).size).toBe(8)
  })

  // seen red: + 0.5 removed
  test("stays inside (0, 1) and on the grid of odd multiples of 2^-33", () => {
    const out = new Float64Array(4000)
    fillUniforms(KEY, 0, PUCK, 0, 1000, 4, out)
    for (const u of out) {
      expect(u).toBeGreaterThan(0)
      expect(u).toBeLessThan(1)
      expect((u * 2 ** 33) % 2).toBe(1)
    }
  })

  // |z| < 4: false alarm 1 in 16,000 for each; key fixed, n = 200,000
  test("has mean 1/2, variance 1/12, and no correlation between neighbouring draws and shots", () => {
    const n = 200_000
    const draws = 4
    const out = new Float64Array(n)
    fillUniforms(KEY, 3, GOALIE, 0, n / draws, draws, out)
    let sum = 0
    let square = 0
    let nextDraw = 0
    let nextShot = 0
    for (let i = 0; i < n; i++) {
      const v = out[i]! - 0.5
      sum += v
      square += v * v
      nextDraw += v * (out[(i + 1) % n]! - 0.5)
      nextShot += v * (out[(i + draws) % n]! - 0.5)
    }
    expect(Math.abs(sum) / Math.sqrt(n / 12)).toBeLessThan(4)
    expect(Math.abs(square - n / 12) / Math.sqrt(n / 180)).toBeLessThan(4)
    expect(Math.abs(nextDraw) / (Math.sqrt(n) / 12)).toBeLessThan(4)
    expect(Math.abs(nextShot) / (Math.sqrt(n) / 12)).toBeLessThan(4)
  })

  test("refuses an array that is too short", () => {
    expect(() => fillUniforms(KEY, 0, PLAY, 0, 3, 4, new Float64Array(11))).toThrow(
      new RangeError("Cannot fill uniforms as out must be at least count x draws = 12 long: current value is 11"),
    )
  })
})
