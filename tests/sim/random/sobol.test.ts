import seedrandom from "seedrandom"
import { describe, expect, test } from "vitest"
import { nestedScramble } from "../../../src/sim/random/nested-scramble.ts"
import { scrambledSobol, sobolWord } from "../../../src/sim/random/sobol.ts"

/** Exact nested scrambling: a drawn coin for every place of the tree that is met, kept for the next number. */
function exactScramble(chance: () => number): (word: number) => number {
  const coins = new Map<string, number>()
  return (word) => {
    const digits = word.toString(2).padStart(32, "0")
    let scrambled = ""
    for (let i = 0; i < 32; i++) {
      const place = digits.slice(0, i)
      if (!coins.has(place)) coins.set(place, chance() < 0.5 ? 1 : 0)
      scrambled += Number(digits[i]) ^ coins.get(place)!
    }
    return Number.parseInt(scrambled, 2)
  }
}

/** Mean of exp(x) y over the first points of two dimensions, each scrambled. */
function integral(scrambles: readonly ((word: number) => number)[], points: number): number {
  let sum = 0
  for (let i = 0; i < points; i++) {
    const [x, y] = scrambles.map((scramble, d) => (scramble(sobolWord(i, d + 1)) + 0.5) / 2 ** 32)
    sum += Math.exp(x!) * y!
  }
  return sum / points
}

describe("nestedScramble()", () => {
  test("keeps numbers with the same leading digits together at every scale, and others apart", () => {
    const chance = seedrandom("nested")
    for (let trial = 0; trial < 200; trial++) {
      const word = chance.int32() >>> 0
      const other = (word ^ (1 << Math.floor(32 * chance()))) >>> 0
      const changed = nestedScramble(word, trial, 7) ^ nestedScramble(other, trial, 7)
      expect(Math.clz32(changed)).toBe(Math.clz32(word ^ other))
    }
  })

  // seen red: the coin taken from the key and the digit alone (a digital shift): pairs of coins agree always
  test("throws fair coins that agree with each other half of the time, over keys", () => {
    // the coins of the 63 places of the first 6 digits; 4096 keys, |z| < 5 over 63 coins and 1953 pairs
    const keys = 4096
    const places = 63
    const coins = Array.from({ length: keys }, (_, key) =>
      Array.from({ length: places }, (_, i) => {
        const digit = Math.floor(Math.log2(i + 1))
        const word = digit === 0 ? 0 : ((i + 1 - 2 ** digit) << (32 - digit)) >>> 0
        return ((nestedScramble(word, key, 99) ^ word) >>> (31 - digit)) & 1
      }),
    )
    const z = (ones: number) => Math.abs(2 * ones - keys) / Math.sqrt(keys)
    let worst = 0
    for (let a = 0; a < places; a++) {
      worst = Math.max(worst, z(coins.reduce((sum, row) => sum + row[a]!, 0)))
      for (let b = 0; b < a; b++) worst = Math.max(worst, z(coins.reduce((sum, row) => sum + (row[a]! ^ row[b]!), 0)))
    }
    expect(worst).toBeLessThan(5)
  })

  // seen red: a digital shift in place of nested coins
  test("spreads an integral over its keys as exact nested scrambling does", () => {
    // seed "referee", 400 scramblings each of 32 points; F(400, 400) lies within 1.5 for all but 1 in 10,000
    const chance = seedrandom("referee")
    const scramblings = 400
    const truth = (Math.E - 1) / 2
    const [ours, exact] = [0, 1].map((kind) => {
      let squares = 0
      let sum = 0
      for (let s = 0; s < scramblings; s++) {
        const word = () => chance.int32() >>> 0
        const keys = [word(), word(), word(), word()] as const
        const hashed = [0, 2].map((at) => (w: number) => nestedScramble(w, keys[at]!, keys[at + 1]!))
        const error = integral(kind === 0 ? hashed : [exactScramble(chance), exactScramble(chance)], 32) - truth
        squares += error * error
        sum += error
      }
      // unbiased: |z| < 4
      expect(Math.abs(sum) / Math.sqrt(squares)).toBeLessThan(4)
      return squares / scramblings
    })
    expect(ours! / exact!).toBeGreaterThan(1 / 1.5)
    expect(ours! / exact!).toBeLessThan(1.5)
  })
})

describe("scrambledSobol()", () => {
  const [count, dimensions] = [256, 70]
  const points = scrambledSobol([11, 12], 3, count, dimensions)
  const cell = (i: number, d: number, cells: number) => Math.floor(points[i * dimensions + d]! * cells)

  // seen red: the scrambled word multiplied by an odd number
  test("leaves one point in each of as many equal parts of every dimension, those beyond the 32nd too", () => {
    for (let d = 0; d < dimensions; d++) {
      expect(new Set(Array.from({ length: count }, (_, i) => cell(i, d, count))).size).toBe(count)
    }
  })

  test("keeps the net of the first two dimensions: every box of 1/256 holds one point, whatever its shape", () => {
    for (let across = 1; across <= count; across *= 2) {
      const boxes = Array.from({ length: count }, (_, i) => `${cell(i, 0, across)},${cell(i, 1, count / across)}`)
      expect(new Set(boxes).size).toBe(count)
    }
  })

  // seen red: later groups left in the order of the first
  test("gives dimensions 32 apart, which come from the same numbers, an order of their own", () => {
    // correlation over 256 points, standard error 1/16: |z| < 4
    for (let d = 0; d + 32 < dimensions; d++) {
      let sum = 0
      for (let i = 0; i < count; i++)
        sum += (points[i * dimensions + d]! - 0.5) * (points[i * dimensions + d + 32]! - 0.5)
      expect(Math.abs((12 * sum) / Math.sqrt(count))).toBeLessThan(4)
    }
  })

  test("is the same for the same key and replicate, and another set for another", () => {
    expect(scrambledSobol([11, 12], 3, count, dimensions)).toEqual(points)
    expect(scrambledSobol([11, 12], 4, count, 1)[0]).not.toBe(points[0])
    expect(scrambledSobol([11, 13], 3, count, 1)[0]).not.toBe(points[0])
  })

  test("refuses a number of points that is no power of two, and a dimension it does not have", () => {
    expect(() => scrambledSobol([1, 1], 0, 100, 2)).toThrow(
      "Cannot spread points as count must be a power of two up to 2^31: current value is 100",
    )
    expect(() => sobolWord(0, 32)).toThrow(RangeError)
  })
})
