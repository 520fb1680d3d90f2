import { expect, test } from "vitest"
import { measureBox } from "../../../src/sim/box/box.ts"
import { openShare } from "../../../src/sim/box/open-share.ts"
import { emptyBody } from "../../../src/sim/box/placed.ts"
import { puckFrom } from "../../../src/sim/box/sight.ts"
import { seeded } from "../bodies.ts"
import { bodyOf, crowd, MOUTH, plateOf } from "./crowd.ts"

test("openShare() is 1 past nobody, and 0 from on or behind the goal line, where no puck sees the mouth", () => {
  expect(openShare(emptyBody(), 5, 1, 0.02, MOUTH)).toBe(1)
  for (const x of [0, -0.5]) expect(openShare(emptyBody(), x, 2, 0.02, MOUTH)).toBe(0)
})

// similar triangles: a plate half way hides twice its size; seen to fail with the rows' width taken once too often
test("openShare() past a plate half way to the mouth is what twice the plate leaves", () => {
  const body = bodyOf(plateOf(2.5, -0.2, 0.2, 0, 5))
  expect(openShare(body, 5, 0, 0.02, MOUTH)).toBeCloseTo(1 - 0.8 / MOUTH.width, 4)
})

// the same upright, seen from 2 cm, to half a row of 32; seen to fail with rows from the lower edge of each strip
test("openShare() over a low wall half way to the mouth is what twice the wall leaves", () => {
  const wall = bodyOf(plateOf(2.5, -3, 3, 0, 0.3))
  const shadow = 0.02 + 2 * (0.3 - 0.02)
  expect(Math.abs(openShare(wall, 5, 0, 0.02, MOUTH) - (1 - shadow / MOUTH.height))).toBeLessThan(1 / 64)
})

// seed in the text, 12 crowds; seen to fail with the rows' width taken once too often
test("openShare() is within 0.01 of the box's own share past any crowd, and 0.003 on average", () => {
  const random = seeded("open share beside the box")
  let worst = 0
  let sum = 0
  for (let n = 0; n < 12; n++) {
    const body = crowd(random, 18)
    const [x, y] = [2 + 8 * random(), 6 * random() - 3]
    const box = measureBox(body, puckFrom(x, y, 0.0127, 0.0381, 0.0127), MOUTH, 1, 0)
    const off = Math.abs(openShare(body, x, y, 0.0127, MOUTH) - (1 - box.netCovered))
    worst = Math.max(worst, off)
    sum += off
  }
  expect(worst).toBeLessThan(0.01)
  expect(sum / 12).toBeLessThan(0.003)
})
