import { readFileSync } from "node:fs"
import { describe, expect, test } from "vitest"
import { philox4x32, philox4x32Pair } from "../../src/sim/random/philox.ts"

// source: Random123 known-answer vectors, DEShawResearch/random123 at 9545ff6, tests/kat_vectors (BSD 3-clause)
const lines = readFileSync(new URL("./data/random123/kat_vectors", import.meta.url), "utf8")
  .split("\n")
  .filter((line) => /^philox4x32\s+10\s/.test(line))
  .map((line) => line.trim().split(/\s+/).slice(2))

describe("Philox4x32-10 against the published known answers", () => {
  test("the file holds the three vectors: zeros, ones and pi", () => {
    expect(lines.map((words) => words.length)).toEqual([10, 10, 10])
  })

  // seen red: KEY_STEP_1 0xbb67ae85 -> 0xbb67ae86
  test.each(lines)("philox4x32() gives the published words for counter %s %s %s %s key %s %s", (...hex) => {
    const [c0, c1, c2, c3, k0, k1] = hex.slice(0, 6).map((word) => Number.parseInt(word, 16))
    const out = new Uint32Array(6)
    philox4x32(c0!, c1!, c2!, c3!, k0!, k1!, out, 1)
    expect([...out].map((word) => word.toString(16).padStart(8, "0"))).toEqual([
      "00000000",
      ...hex.slice(6),
      "00000000",
    ])
  })

  // seen red: high3 and high2 exchanged
  test.each(lines)("philox4x32Pair() gives the published words on both sides for counter %s %s %s %s", (...hex) => {
    const [c0, c1, c2, c3, k0, k1] = hex.slice(0, 6).map((word) => Number.parseInt(word, 16))
    const out = new Uint32Array(8)
    philox4x32Pair(c0!, c1!, c0!, c1!, c2!, c3!, k0!, k1!, out)
    expect([...out].map((word) => word.toString(16).padStart(8, "0"))).toEqual([...hex.slice(6), ...hex.slice(6)])
  })
})
