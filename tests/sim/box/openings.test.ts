import { expect, test } from "vitest"
import { measureBox } from "../../../src/sim/box/box.ts"
import { withIron } from "../../../src/sim/box/iron-parts.ts"
import { openGrid } from "../../../src/sim/box/open-grid.ts"
import { clearOpenings, zoneOf } from "../../../src/sim/box/openings.ts"
import { emptyBody } from "../../../src/sim/box/placed.ts"
import { puckFrom } from "../../../src/sim/box/sight.ts"
import { PART_STRIDE } from "../../../src/sim/parts.ts"
import { seeded } from "../bodies.ts"
import { bodyOf, crowd, DISC, MOUTH, plateOf } from "./crowd.ts"

const CUTS = { lowHeight: 0.4, middleWidth: 0.6, gloveSide: 1 } as const
const PUCK = puckFrom(8, 0, 0.0127, ...DISC)

// Seen to fail with the glove side turned round.
test("zones are named by the catching hand: the goalie's left is the glove side when catching left", () => {
  expect(zoneOf(0.8, 0.1, CUTS)).toBe("low glove")
  expect(zoneOf(-0.8, 0.1, CUTS)).toBe("low blocker")
  expect(zoneOf(0.8, 1, { ...CUTS, gloveSide: -1 })).toBe("high blocker")
  expect(zoneOf(0, 0.1, CUTS)).toBe("five-hole")
  expect(zoneOf(0.1, 0.9, CUTS)).toBe("high middle")
})

// Seen to fail with openings joined across zones.
test("the empty net is one opening in each zone, of the zone's own area less the disc's extents", () => {
  const openings = clearOpenings(emptyBody(), puckFrom(1e4, 0, 0.0127, ...DISC), MOUTH, CUTS)
  expect(openings.map((opening) => opening.zone).sort()).toEqual([
    "five-hole",
    "high blocker",
    "high glove",
    "high middle",
    "low blocker",
    "low glove",
  ])
  const area = (zone: string) => openings.find((opening) => opening.zone === zone)!.area
  expect(area("five-hole")).toBeCloseTo(0.6 * (0.4 - 0.0127), 1.7)
  expect(area("high glove")).toBeCloseTo((0.9144 - 0.3 - 0.0381) * (1.2192 - 0.4 - 0.0127), 1.7)
})

// Seen to fail with the place nearest the edge as the middle.
test("two plates leave a slot between them, found with its middle and its width less the puck", () => {
  const body = bodyOf(plateOf(0.01, -0.9, -0.1, 0, 1.3), plateOf(0.01, 0.15, 0.9, 0, 1.3))
  const openings = clearOpenings(body, PUCK, MOUTH, { ...CUTS, lowHeight: 0 })
  expect(openings.length).toBe(1)
  expect(openings[0]!.zone).toBe("high middle")
  expect(openings[0]!.y).toBeCloseTo(0.025, 1.9)
  expect(openings[0]!.area / (1.2192 - 2 * 0.0127)).toBeCloseTo(0.25 - 2 * 0.0381, 1.9)
  // a slot narrower than the puck is none
  const narrow = bodyOf(plateOf(0.01, -0.9, -0.03, 0, 1.3), plateOf(0.01, 0.04, 0.9, 0, 1.3))
  expect(clearOpenings(narrow, PUCK, MOUTH, CUTS)).toEqual([])
})

// Seen to fail with the middle of the raster as the middle, and with the mouth 20 cm too wide.
test("the middle of an opening is open, and openings add up to the area the puck's middle can cross", () => {
  const random = seeded("openings")
  for (let n = 0; n < 4; n++) {
    const body = crowd(random, 10)
    const puck = puckFrom(5, 3 * random() - 1.5, 0.0127, ...DISC)
    const openings = clearOpenings(body, puck, MOUTH, CUTS)
    const parts = withIron(body.parts, MOUTH)
    for (const { y, z } of openings)
      expect(openGrid(puck, parts, parts.length / PART_STRIDE, [y], [z])[0]).toBeGreaterThan(0)
    const sum = openings.reduce((total, opening) => total + opening.area, 0)
    const box = measureBox(body, puck, MOUTH, 1, 0)
    expect(Math.abs(sum - box.puckArea)).toBeLessThan(0.01)
  }
})

// Seen to fail with the middle of the raster as the middle.
test("a ring-shaped opening has its middle in the ring, not in the hole of it", () => {
  const body = bodyOf(plateOf(0.01, -0.2, 0.2, 0.45, 0.75))
  const [opening] = clearOpenings(body, PUCK, MOUTH, { lowHeight: 0, middleWidth: 3, gloveSide: 1 })
  expect(Math.abs(opening!.y) > 0.24 || Math.abs(opening!.z - 0.6) > 0.16).toBe(true)
  expect(opening!.area).toBeGreaterThan(1.5)
})
