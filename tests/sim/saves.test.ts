import { describe, expect, test } from "vitest"
import { addStretch, coveredShare, noSaves, placeInOpen, REGION_COUNT, spanOfSaves } from "../../src/sim/saves.ts"
import { seeded } from "./bodies.ts"

/** Length 1 cut into slivers, each asked which stretches hold it. */
function slowly(stretches: readonly [number, number, number, number][], length: number) {
  const slivers = 20_000
  const byRegion = new Float64Array(REGION_COUNT)
  let covered = 0
  for (let i = 0; i < slivers; i++) {
    const x = -length + ((i + 0.5) / slivers) * length
    let first: readonly number[] | null = null
    for (const s of stretches) if (x > s[0] && x <= s[1] && (first === null || s[2] < first[2]!)) first = s
    if (first === null) continue
    covered += 1 / slivers
    byRegion[first[3]!]! += 1 / slivers
  }
  return { covered, byRegion }
}

describe("cover of a block's leads", () => {
  // seen to fail with the last stretch's end left out and with overlaps counted twice
  test("coveredShare() equals a slow count over slivers, and gives overlaps to the part met first", () => {
    const random = seeded("covers")
    for (let n = 0; n < 40; n++) {
      const stretches = Array.from({ length: 1 + Math.floor(random() * 4) }, () => {
        const a = -random() * 0.3
        return [a, a * random(), random(), Math.floor(random() * REGION_COUNT)] as [number, number, number, number]
      })
      const cover = noSaves()
      for (const [lo, hi, when, region] of stretches) addStretch(cover, lo, hi, when, region, 255)
      const byRegion = new Float64Array(REGION_COUNT)
      const slow = slowly(stretches, 0.3)
      expect(coveredShare(cover, 0.3, 1, byRegion)).toBeCloseTo(slow.covered, 3)
      byRegion.forEach((share, region) => {
        expect(share).toBeCloseTo(slow.byRegion[region]!, 3)
      })
    }
  })

  test("placeInOpen() spreads a uniform evenly over what is left open", () => {
    const cover = noSaves()
    addStretch(cover, -0.25, -0.15, 0, 0, 255)
    addStretch(cover, -0.05, 0, 0, 1, 255)
    // open: [-0.3, -0.25] and [-0.15, -0.05], a third and two thirds of 0.15
    expect(placeInOpen(cover, 0.3, 0.1)).toBeCloseTo(-0.285, 12)
    expect(placeInOpen(cover, 0.3, 1 / 3 + 1e-9)).toBeCloseTo(-0.15, 6)
    expect(placeInOpen(cover, 0.3, 0.5)).toBeCloseTo(-0.125, 12)
    expect(placeInOpen(cover, 0.3, 0.999999)).toBeCloseTo(-0.05, 5)
    expect(placeInOpen(noSaves(), 0.3, 0.25)).toBeCloseTo(-0.225, 12)
  })
})

describe("span of the starts that save", () => {
  // seen to fail: with touching stretches taken as two, and with equal beginnings counted twice
  test("spanOfSaves() counts what a walk over whole places finds apart, and gives the ends of it", () => {
    const random = seeded("spans")
    for (let n = 0; n < 300; n++) {
      // ends on whole places, so that many begin or touch together; -5 is the earliest there is
      const stretches = Array.from({ length: Math.floor(random() * 6) }, () => {
        const lo = Math.floor(random() * 24) - 9
        return [random() < 0.1 ? -Infinity : lo, random() < 0.1 ? Infinity : lo + 1 + Math.floor(random() * 5)] as const
      })
      const saves = noSaves()
      for (const [lo, hi] of stretches) addStretch(saves, lo, hi, random(), 0, 255)
      const holds = (x: number): boolean => stretches.some(([lo, hi]) => lo < x && x <= hi)
      const places = Array.from({ length: 40 }, (_, i) => i - 4).filter(holds)
      const begins = places.filter((x) => x === -4 || !holds(x - 1))
      const ends = new Float64Array(2).fill(99)
      expect(spanOfSaves(saves, -5, ends)).toBe(begins.length)
      if (begins.length === 0) continue
      expect(ends[0]).toBe(begins[0] === -4 ? -Infinity : begins[0]! - 1)
      expect(ends[1]).toBe(places.at(-1) === 35 ? Infinity : places.at(-1))
    }
  })
})
