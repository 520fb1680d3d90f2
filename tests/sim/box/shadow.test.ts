import { expect, test } from "vitest"
import { betweenPosts, IRON_COUNT, ironParts, withIron } from "../../../src/sim/box/iron-parts.ts"
import { coverRow, joinInterval, shadowOnRow } from "../../../src/sim/box/shadow.ts"
import { lightFrom, puckFrom, type Sight } from "../../../src/sim/box/sight.ts"
import { BOX_RECORD, CLEARANCE, clearancePath } from "../../../src/sim/rounded-box.ts"
import { partAt, rotation, seeded } from "../bodies.ts"

const HALF = 0.9144
const out = new Float64Array(2)
const record = new Float64Array(BOX_RECORD)

/** A box, plate, capsule or ball somewhere before the mouth. */
function anyPart(random: () => number, smallest = 0): Float64Array {
  const size = () => (random() < 0.25 ? 0 : random() * 0.3)
  const centre = [random() * 1.6 - 0.1, random() * 2 - 1, random() * 1.2]
  return partAt(centre, rotation(random), [size(), size(), size()], smallest + random() * 0.1)
}

function clearance(sight: Sight, part: Float64Array, y: number, z: number): number {
  const { px, py, pz, discRadius, discHalf } = sight
  clearancePath(part, 0, px, py, pz, -px, y - py, z - pz, 0, 1, discRadius, discHalf, record)
  return record[CLEARANCE]!
}

/** Ray against a box without rounding, by slabs: does the line from the puck to (0, y, z) meet it? */
function slabsMeet(sight: Sight, part: Float64Array, y: number, z: number): boolean {
  const d = [sight.px - part[0]!, sight.py - part[1]!, sight.pz - part[2]!]
  const w = [-sight.px, y - sight.py, z - sight.pz]
  let from = 0
  let to = 1
  for (let i = 0; i < 3; i++) {
    const axis = [0, 1, 2].map((k) => part[3 + 3 * i + k]!)
    const q = d[0]! * axis[0]! + d[1]! * axis[1]! + d[2]! * axis[2]!
    const v = w[0]! * axis[0]! + w[1]! * axis[1]! + w[2]! * axis[2]!
    const a = (-part[12 + i]! - q) / v
    const b = (part[12 + i]! - q) / v
    from = Math.max(from, Math.min(a, b))
    to = Math.min(to, Math.max(a, b))
  }
  return from <= to
}

// Seen to fail with the sign of the sideways step turned, and with the line carried on behind the goal line.
test("shadowOnRow() covers a place of the row exactly where the clearance of the straight line says so, in light", () => {
  const random = seeded("shadows in light")
  const wrong: string[] = []
  let shadows = 0
  for (let n = 0; n < 400; n++) {
    const part = anyPart(random, 0.001)
    const sight = lightFrom(1.2 + random() * 8, random() * 8 - 4, random() * 0.5)
    const z = random() * 1.2
    const found = shadowOnRow(sight, part, 0, z, -HALF, HALF, out)
    if (found) shadows++
    for (let y = -HALF; y <= HALF; y += 0.0199) {
      const c = clearance(sight, part, y, z)
      const covered = found && y >= out[0]! && y <= out[1]!
      if (Math.abs(c) > 1e-9 && covered !== c <= 0) wrong.push(`part ${n}, y ${y}, clearance ${c}`)
    }
  }
  expect(wrong).toEqual([])
  expect(shadows).toBeGreaterThan(80)
})

// Seen to fail with the ends found to 1e-6 only.
test("the ends of a shadow are where the clearance is zero, to 1e-11", () => {
  const random = seeded("shadow ends")
  let ends = 0
  for (let n = 0; n < 400; n++) {
    const part = anyPart(random, 0.02)
    const sight = lightFrom(2 + random() * 8, random() * 4 - 2, 0.02)
    const z = random() * 1.2
    if (!shadowOnRow(sight, part, 0, z, -HALF, HALF, out)) continue
    for (const y of out) {
      if (Math.abs(y) === HALF) continue
      ends++
      expect(Math.abs(clearance(sight, part, y, z))).toBeLessThan(1e-11)
    }
  }
  expect(ends).toBeGreaterThan(80)
})

// Seen to fail with the last micrometre of the core left out.
test("a box without rounding hides what a slab test of the ray hides, to 1e-11 of its ends", () => {
  const random = seeded("slabs")
  let ends = 0
  for (let n = 0; n < 300; n++) {
    const half = [0.02 + 0.3 * random(), 0.02 + 0.3 * random(), 0.02 + 0.3 * random()]
    const part = partAt([0.7 + random(), random() - 0.5, 0.6 * random()], rotation(random), half, 0)
    const sight = lightFrom(3 + random() * 8, random() * 4 - 2, 0.02)
    const z = random() * 1.2
    const found = shadowOnRow(sight, part, 0, z, -HALF, HALF, out)
    for (let y = -HALF; y <= HALF; y += 0.05) {
      expect(found && y >= out[0]! && y <= out[1]!).toBe(slabsMeet(sight, part, y, z))
    }
    if (!found || out[1]! - out[0]! < 0.01) continue
    for (const [y, side] of [
      [out[0]!, -1],
      [out[1]!, 1],
    ] as const) {
      if (Math.abs(y) === HALF) continue
      ends++
      expect(slabsMeet(sight, part, y - side * 1e-11, z)).toBe(true)
      expect(slabsMeet(sight, part, y + side * 1e-11, z)).toBe(false)
    }
  }
  expect(ends).toBeGreaterThan(80)
})

// Seen to fail with the disc left out of the plane that a row is refused by.
test("the disc is stopped wherever the clearance is under zero, and passes where it is over zero", () => {
  const random = seeded("shadows of discs")
  const wrong: string[] = []
  let shadows = 0
  for (let n = 0; n < 400; n++) {
    const part = anyPart(random)
    const sight = puckFrom(2 + random() * 8, random() * 8 - 4, random() * 0.5, 0.0381, 0.0127)
    const z = random() * 1.2
    const found = shadowOnRow(sight, part, 0, z, -HALF, HALF, out)
    if (found) shadows++
    for (let y = -HALF; y <= HALF; y += 0.0199) {
      const c = clearance(sight, part, y, z)
      const covered = found && y >= out[0]! && y <= out[1]!
      if (covered ? c > 1e-7 : c < -1e-7) wrong.push(`part ${n}, y ${y}, clearance ${c}`)
    }
  }
  expect(wrong).toEqual([])
  expect(shadows).toBeGreaterThan(80)
})

// Seen to fail with the lines carried on behind the goal line.
test("a part behind the goal line, or behind the puck, hides nothing", () => {
  const wall = (x: number) => partAt([x, 0, 0.6], undefined, [0.01, 1, 0.6], 0.005)
  const sight = lightFrom(5, 0, 0.02)
  expect(shadowOnRow(sight, wall(-0.02), 0, 0.5, -HALF, HALF, out)).toBe(false)
  expect(shadowOnRow(sight, wall(5.02), 0, 0.5, -HALF, HALF, out)).toBe(false)
  expect(shadowOnRow(sight, wall(0.02), 0, 0.5, -HALF, HALF, out)).toBe(true)
  expect([...out]).toEqual([-HALF, HALF])
})

// Seen to fail with touching intervals kept apart.
test("coverRow() joins overlapping shadows and keeps separate ones apart", () => {
  const intervals = new Float64Array(10)
  let found = joinInterval(intervals, 0, 0.3, 0.4)
  found = joinInterval(intervals, found, -0.5, -0.4)
  found = joinInterval(intervals, found, 0.0, 0.1)
  expect([...intervals.subarray(0, 2 * found)]).toEqual([-0.5, -0.4, 0.0, 0.1, 0.3, 0.4])
  found = joinInterval(intervals, found, 0.05, 0.35)
  expect([...intervals.subarray(0, 2 * found)]).toEqual([-0.5, -0.4, 0.0, 0.4])

  const two = new Float64Array(32)
  two.set(partAt([0.5, -0.4, 0.5], undefined, [0.05, 0.1, 0.3], 0.02))
  two.set(partAt([0.5, 0.4, 0.5], undefined, [0.05, 0.1, 0.3], 0.02), 16)
  expect(coverRow(lightFrom(5, 0, 0.02), two, 2, 0.4, -HALF, HALF, intervals)).toBe(2)
  expect(intervals[0]! + intervals[3]!).toBeCloseTo(0, 11)
})

// Seen to fail with the post's middle put on the edge of the mouth.
test("straight on from afar the posts take a puck's radius from each side of the mouth", () => {
  const mouth = { width: 2 * HALF, height: 1.2192, postRadius: 0.03016, barRadius: 0.03016 }
  const intervals = new Float64Array(8)
  const iron = ironParts(mouth)
  const found = coverRow(puckFrom(1e6, 0, 0.0127, 0.0381, 0.0127), iron, 3, 0.5, -HALF, HALF, intervals)
  expect(found).toBe(2)
  expect(intervals[1]).toBeCloseTo(-HALF + 0.0381, 6)
  expect(intervals[2]).toBeCloseTo(HALF - 0.0381, 6)
  expect(withIron(new Float64Array(16), mouth).length).toBe(64)
})

// Seen to fail with the puck always touching a post at the end of its path, and with the sides exchanged.
test("between the posts is where the search finds no iron, from anywhere in front and at any height under the bar", () => {
  const random = seeded("between the posts")
  const mouth = { width: 2 * HALF, height: 1.2192, postRadius: 0.03016, barRadius: 0.03016 }
  const iron = ironParts(mouth)
  const intervals = new Float64Array(8)
  for (let n = 0; n < 300; n++) {
    // some from beside the goal
    const sight = puckFrom(0.1 + random() ** 3 * 12, random() * 16 - 8, random() * 1.2, 0.0381, 0.0127)
    const between = betweenPosts(sight, mouth)
    const found = coverRow(sight, iron, IRON_COUNT, 0.0127 + random() * 1.1, -HALF, HALF, intervals)
    if (found === 1) {
      // from far round the posts leave nothing open
      expect([...intervals.subarray(0, 2), ...between!]).toEqual([-HALF, HALF, HALF, HALF])
      continue
    }
    expect(Math.abs(between![0] - intervals[1]!)).toBeLessThan(1e-8)
    expect(Math.abs(between![1] - intervals[2]!)).toBeLessThan(1e-8)
  }
  expect(betweenPosts(puckFrom(5, 0, 1.3, 0.0381, 0.0127), mouth)).toBeNull()
  expect(betweenPosts(puckFrom(0.05, 0, 0.1, 0.0381, 0.0127), mouth)).toBeNull()
})
