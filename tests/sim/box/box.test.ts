import { expect, test } from "vitest"
import { measureBox } from "../../../src/sim/box/box.ts"
import { openGrid } from "../../../src/sim/box/open-grid.ts"
import { emptyBody } from "../../../src/sim/box/placed.ts"
import { boxRows } from "../../../src/sim/box/rows.ts"
import { lightFrom, puckFrom } from "../../../src/sim/box/sight.ts"
import { PART_STRIDE } from "../../../src/sim/parts.ts"
import { BOX_RECORD, CLEARANCE, clearancePath } from "../../../src/sim/rounded-box.ts"
import { partAt, seeded } from "../bodies.ts"
import { AREA, bodyOf, crowd, MOUTH } from "./crowd.ts"

// Seen to fail with the weights of Fejer's rule taken from one term less.
test("the rows of a strip integrate a polynomial exactly and their weights sum to the height", () => {
  const rows = boxRows(lightFrom(5, 0, 0.02), new Float64Array(0), 0, 0, 1.2192)
  const integral = (f: (z: number) => number) => rows.z.reduce((sum, z, i) => sum + rows.weight[i]! * f(z), 0)
  expect(integral(() => 1)).toBeCloseTo(1.2192, 13)
  expect(integral((z) => z ** 7)).toBeCloseTo(1.2192 ** 8 / 8, 12)
  const five = boxRows(lightFrom(5, 0, 0.02), new Float64Array(0), 0, 0, 1.2192, 0.5)
  expect(five.z.length).toBe(5)
  expect(five.z.reduce((sum, z, i) => sum + five.weight[i]! * z ** 4, 0)).toBeCloseTo(1.2192 ** 5 / 5, 13)
})

// Seen to fail with the strips not cut where shadows begin and end.
test("at the default rows the open area is within 1e-4 of the mouth of the area on rows five times as dense", () => {
  const random = seeded("convergence of the box")
  let worst = 0
  let worstPuck = 0
  for (let n = 0; n < 6; n++) {
    const body = crowd(random, 18, n < 3 ? 0 : 0.01)
    const puck = puckFrom(2 + 8 * random(), 6 * random() - 3, 0.0127, 0.0381, 0.0127)
    const coarse = measureBox(body, puck, MOUTH, 1, 0)
    const fine = measureBox(body, puck, MOUTH, 1, 0, 0.0015)
    worst = Math.max(worst, Math.abs(coarse.openArea - fine.openArea) / AREA)
    worstPuck = Math.max(worstPuck, Math.abs(coarse.puckArea - fine.puckArea) / AREA)
  }
  expect(worst).toBeLessThan(1e-4)
  // the clearance of a disc is a little short over the tips of corners, so its shadows have steps
  expect(worstPuck).toBeLessThan(4e-4)
})

// Seen to fail with the row's height left out of the distance to it.
test("areas and solid angle equal a fine count of places that the clearance leaves open", () => {
  const random = seeded("counting the box")
  for (let n = 0; n < 2; n++) {
    const body = crowd(random, 14)
    const puck = puckFrom(4, 3 * random() - 1.5, 0.0127, 0.0381, 0.0127)
    const light = lightFrom(puck.px, puck.py, puck.pz)
    const box = measureBox(body, puck, MOUTH, 1, 0)
    const columns = 360
    const rows = 240
    const y = Array.from({ length: columns }, (_, i) => ((i + 0.5) / columns - 0.5) * MOUTH.width)
    const z = Array.from({ length: rows }, (_, i) => ((i + 0.5) / rows) * MOUTH.height)
    const grid = openGrid(light, body.parts, body.count, y, z)
    const cell = AREA / grid.length
    let area = 0
    let angle = 0
    for (const [i, clearance] of grid.entries()) {
      if (clearance <= 0) continue
      const distance = Math.hypot(puck.px, y[i % columns]! - puck.py, z[Math.floor(i / columns)]! - puck.pz)
      area += cell
      angle += (cell * puck.px) / distance ** 3
    }
    expect(Math.abs(box.openArea - area) / AREA).toBeLessThan(1.5e-3)
    expect(Math.abs(box.openSolidAngle - angle) / (AREA / 16)).toBeLessThan(1.5e-3)
    expect(box.netCovered).toBeCloseTo(1 - box.openArea / AREA, 12)
    expect(box.puckArea).toBeLessThan(box.openArea)
  }
})

// Seen to fail with the disc's half thickness left off the ice.
test("an empty net from afar lets the middle of the puck through a mouth smaller by the disc's own extents", () => {
  const box = measureBox(emptyBody(), puckFrom(1e5, 0, 0.0127, 0.0381, 0.0127), MOUTH, 1, 0)
  expect(box.openArea).toBeCloseTo(AREA, 9)
  expect(box.puckArea).toBeCloseTo((1.8288 - 2 * 0.0381) * (1.2192 - 2 * 0.0127), 5)
  expect(box.netCovered).toBeCloseTo(0, 12)
  expect(box.puckCovered).toBeCloseTo(0, 12)
})

// Seen to fail with the area counted from 0.01.
test("a wall across the mouth leaves nothing", () => {
  const wall = bodyOf(partAt([1, 0, 1], undefined, [0.01, 2, 2], 0.01))
  const box = measureBox(wall, puckFrom(5, 1, 0.0127, 0.0381, 0.0127), MOUTH, 1, 0)
  expect(box).toMatchObject({ netCovered: 1, openArea: 0, openSolidAngle: 0, openAreaAtGoalie: 0, puckArea: 0 })
  expect(box.puckCovered).toBe(1)
})

// Seen to fail with the plane at the goalie kept parallel to the goal line.
test("the box at the goalie off centre is the mouth's outline carried to the square plane through the goalie", () => {
  const puck = puckFrom(4, 3, 0.0127, 0.0381, 0.0127)
  const [gx, gy] = [0.8, 0.6]
  const box = measureBox(emptyBody(), puck, MOUTH, gx, gy)
  // corners of the mouth carried along the lines to the puck, area of their outline by the shoelace rule
  const length = Math.hypot(puck.px, puck.py)
  const a = [-puck.px / length, -puck.py / length]
  const distance = (gx - puck.px) * a[0]! + (gy - puck.py) * a[1]!
  const corners = [
    [-0.9144, 0],
    [0.9144, 0],
    [0.9144, 1.2192],
    [-0.9144, 1.2192],
  ].map(([y, z]) => {
    const w = [-puck.px, y! - puck.py, z! - puck.pz]
    const t = distance / (w[0]! * a[0]! + w[1]! * a[1]!)
    return [t * (-w[0]! * a[1]! + w[1]! * a[0]!), t * w[2]!]
  })
  const shoelace = corners.reduce((sum, [u, z], i) => {
    const [u1, z1] = corners[(i + 1) % 4]!
    return sum + 0.5 * (u! * z1! - u1! * z!)
  }, 0)
  expect(box.openAreaAtGoalie).toBeCloseTo(Math.abs(shoelace), 9)
})

// Seen to fail with rows begun 2 cm inside the right post.
test("mirror the body and the puck, and the box is the same", () => {
  const random = seeded("mirror box")
  const body = crowd(random, 12)
  const mirrored = body.parts.slice()
  for (let at = 0; at < mirrored.length; at += PART_STRIDE) for (const k of [1, 4, 7, 10]) mirrored[at + k]! *= -1
  const left = measureBox(body, puckFrom(4, 2, 0.0127, 0.0381, 0.0127), MOUTH, 1, 0.5)
  const right = measureBox({ ...body, parts: mirrored }, puckFrom(4, -2, 0.0127, 0.0381, 0.0127), MOUTH, 1, -0.5)
  expect(right.openArea).toBeCloseTo(left.openArea, 11)
  expect(right.openSolidAngle).toBeCloseTo(left.openSolidAngle, 11)
  expect(right.openAreaAtGoalie).toBeCloseTo(left.openAreaAtGoalie, 11)
  expect(right.puckArea).toBeCloseTo(left.puckArea, 11)
})

// Seen to fail with the ball about a part taken too small.
test("openGrid() is the least clearance over the parts for each place", () => {
  const random = seeded("open grid")
  const body = crowd(random, 10)
  const sight = puckFrom(3, 1, 0.0127, 0.0381, 0.0127)
  const y = Array.from({ length: 15 }, (_, i) => -0.9 + 0.12 * i)
  const z = Array.from({ length: 9 }, (_, i) => 0.02 + 0.14 * i)
  const grid = openGrid(sight, body.parts, body.count, y, z)
  const record = new Float64Array(BOX_RECORD)
  for (const [i, clearance] of grid.entries()) {
    let least = Number.POSITIVE_INFINITY
    for (let part = 0; part < body.count; part++) {
      const [wy, wz] = [y[i % 15]! - sight.py, z[Math.floor(i / 15)]! - sight.pz]
      const at = part * PART_STRIDE
      clearancePath(body.parts, at, sight.px, sight.py, sight.pz, -sight.px, wy, wz, 0, 1, 0.0381, 0.0127, record)
      least = Math.min(least, record[CLEARANCE]!)
    }
    expect(clearance).toBe(least)
  }
})

// seen to fail: parts passed over that come nearer than the far end of the range
test("openGrid() told a range of clearances gives those inside it, and its nearer end beyond", () => {
  const random = seeded("open grid in a range")
  const y = Array.from({ length: 23 }, (_, i) => -0.9 + 0.08 * i)
  const z = Array.from({ length: 13 }, (_, i) => 0.02 + 0.09 * i)
  let inside = 0
  for (let body = 0; body < 8; body++) {
    const { parts, count } = crowd(random, 6)
    const whole = openGrid(lightFrom(4, 1, 0.3), parts, count, y, z)
    const ranged = openGrid(lightFrom(4, 1, 0.3), parts, count, y, z, [0, 0.04])
    expect(ranged).toEqual(whole.map((clearance) => Math.min(0.04, Math.max(0, clearance))))
    inside += whole.filter((clearance) => clearance > 0 && clearance < 0.04).length
  }
  expect(inside).toBeGreaterThan(50)
})

// Seen to fail with the goal line itself allowed.
test("a puck on or behind the goal line is refused", () => {
  expect(() => lightFrom(0, 1, 0.02)).toThrow(
    "Cannot look at the mouth as the puck's distance from the goal line must be more than 0 m: current value is 0 m",
  )
})
