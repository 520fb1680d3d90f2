import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { philox4x32, philox4x32Pair } from "../../../src/sim/random/philox.ts"

/** The slow obvious referee: whole 64-bit products. */
function refereePhilox(counter: readonly number[], key: readonly number[]): number[] {
  let [a, b, c, d] = counter.map((word) => BigInt(word >>> 0)) as [bigint, bigint, bigint, bigint]
  let [k0, k1] = key.map((word) => BigInt(word >>> 0)) as [bigint, bigint]
  const mask = 0xffffffffn
  for (let round = 0; round < 10; round++) {
    const product0 = a * 0xd2511f53n
    const product1 = c * 0xcd9e8d57n
    ;[a, b, c, d] = [(product1 >> 32n) ^ b ^ k0, product1 & mask, (product0 >> 32n) ^ d ^ k1, product0 & mask]
    k0 = (k0 + 0x9e3779b9n) & mask
    k1 = (k1 + 0xbb67ae85n) & mask
  }
  return [a, b, c, d].map(Number)
}

/** The word whose product with an odd multiplier ends in the given low half: multiplication by the inverse mod 2^32. */
function wordWithLowHalf(multiplier: number, low: number): number {
  let inverse = 1
  for (let i = 0; i < 5; i++) inverse = Math.imul(inverse, 2 - Math.imul(multiplier, inverse))
  return Math.imul(low, inverse) >>> 0
}

const word = fc.integer({ min: 0, max: 0xffffffff })

describe("philox4x32()", () => {
  test("agrees with whole 64-bit products for any counter and key", () => {
    fc.assert(
      fc.property(fc.tuple(word, word, word, word), fc.tuple(word, word), (counter, key) => {
        const out = new Uint32Array(4)
        philox4x32(...counter, ...key, out, 0)
        expect([...out]).toEqual(refereePhilox(counter, key))
      }),
      { seed: 1, numRuns: 500 },
    )
  })

  // seen red: the correction of the high half removed, and NEARLY_WRAPPED raised to 0xffffff00
  test("is exact where the low half of a product nearly wraps and the double product rounds up", () => {
    const out = new Uint32Array(4)
    const pair = new Uint32Array(8)
    let rounded = 0
    for (let below = 1; below <= 1100; below++) {
      const a = wordWithLowHalf(0xd2511f53, -below)
      const c = wordWithLowHalf(0xcd9e8d57, -below)
      if (Number.isInteger((a * 0xd2511f53) / 0x100000000)) rounded++
      const expected = refereePhilox([a, below, c, 3], [4, 5])
      philox4x32(a, below, c, 3, 4, 5, out, 0)
      expect([...out]).toEqual(expected)
      philox4x32Pair(a, below, a, below + 1, c, 3, 4, 5, pair)
      expect([...pair]).toEqual([...expected, ...refereePhilox([a, below + 1, c, 3], [4, 5])])
    }
    expect(rounded).toBeGreaterThan(200)
  })

  test("takes signed and unsigned words alike", () => {
    const out = new Uint32Array(8)
    philox4x32(-1, -2, -3, -4, -5, -6, out, 0)
    philox4x32(0xffffffff, 0xfffffffe, 0xfffffffd, 0xfffffffc, 0xfffffffb, 0xfffffffa, out, 4)
    expect([...out.subarray(0, 4)]).toEqual([...out.subarray(4)])
  })
})
