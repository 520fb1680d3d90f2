import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { seedKey } from "../../src/experiments/seed.ts"

describe("seedKey()", () => {
  // seen red: the two words exchanged
  test("turns a text into the same two words for ever", () => {
    expect([seedKey("1"), seedKey("winter camp"), seedKey("")]).toEqual([
      [1157273989, 671118191],
      [831186460, 1961817890],
      [994027583, 3545621062],
    ])
  })

  test("gives unsigned 32-bit words, the same each time, for any text", () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const key = seedKey(text)
        expect(seedKey(text)).toEqual(key)
        for (const word of key) expect(word).toBe(word >>> 0)
      }),
      { seed: 4, numRuns: 100 },
    )
  })

  test("gives neighbouring seeds unrelated keys", () => {
    const keys = Array.from({ length: 2000 }, (_, i) => seedKey(String(i)))
    expect(new Set(keys.map(([high]) => high)).size).toBe(2000)
    expect(new Set(keys.map(([, low]) => low)).size).toBe(2000)
  })
})
