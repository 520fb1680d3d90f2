import { expect, test } from "vitest"
import { BOX_RECORD, CLEARANCE, clearancePath } from "../../src/sim/rounded-box.ts"
import { partAt, rotation, seeded } from "./bodies.ts"

const RADIUS = 0.0381
const HALF = 0.0127
const out = new Float64Array(BOX_RECORD)

/** Clearance of a path from a part without rounding, ends and all. */
function clearance(part: Float64Array, p: number[], w: number[], least: number, most: number): number {
  clearancePath(part, 0, p[0]!, p[1]!, p[2]!, w[0]!, w[1]!, w[2]!, least, most, RADIUS, HALF, out)
  return out[CLEARANCE]!
}

/** Least value of a function without dents between two numbers, by golden section. */
function leastOf(f: (x: number) => number, low: number, high: number): number {
  if (low === high) return f(low)
  const share = 0.6180339887498949
  let [a, b] = [low, high]
  let [x1, x2] = [b - share * (b - a), a + share * (b - a)]
  let [f1, f2] = [f(x1), f(x2)]
  for (let i = 0; i < 48; i++) {
    if (f1 <= f2) {
      b = x2
      x2 = x1
      f2 = f1
      x1 = b - share * (b - a)
      f1 = f(x1)
    } else {
      a = x1
      x1 = x2
      f1 = f2
      x2 = a + share * (b - a)
      f2 = f(x2)
    }
  }
  return Math.min(f(low), f1, f2, f(high))
}

/** Slow and obvious: the least of all points of the box, axis by axis, from the level disc about p. */
function slowDistance(part: Float64Array, p: number[]): number {
  const [cx, cy, cz] = [part[0]! - p[0]!, part[1]! - p[1]!, part[2]! - p[2]!]
  const [a, b, c] = [part.subarray(3, 6), part.subarray(6, 9), part.subarray(9, 12)]
  const fromDisc = (i: number, j: number, k: number) => {
    const x = cx + i * a[0]! + j * b[0]! + k * c[0]!
    const y = cy + i * a[1]! + j * b[1]! + k * c[1]!
    const z = cz + i * a[2]! + j * b[2]! + k * c[2]!
    const beside = Math.max(0, Math.sqrt(x * x + y * y) - RADIUS)
    const over = Math.max(0, Math.abs(z) - HALF)
    return Math.sqrt(beside * beside + over * over)
  }
  const along = (axis: number, f: (x: number) => number) => leastOf(f, -part[12 + axis]!, part[12 + axis]!)
  return along(0, (i) => along(1, (j) => along(2, (k) => fromDisc(i, j, k))))
}

/** Any turn, or one that leaves an axis of the box upright but for a trifle: faces lie flat, edges lie along the rim. */
function turned(random: () => number): number[] {
  if (random() < 0.4) return rotation(random)
  const [heading, tilt] = [6 * random(), [0, 1e-9, 1e-7, 1e-5, 1e-3][Math.floor(5 * random())]!]
  const [c, s, flat, steep] = [Math.cos(heading), Math.sin(heading), Math.cos(tilt), Math.sin(tilt)]
  const axes = [
    [c, s, 0],
    [-s * flat, c * flat, steep],
    [s * steep, -c * steep, flat],
  ]
  const first = Math.floor(3 * random())
  return [0, 1, 2].flatMap((i) => axes[(first + i) % 3]!)
}

/** A box, plate, rod or point near the origin, and where a puck may be. */
function drawn(random: () => number) {
  const size = () => (random() < 0.25 ? 0 : 0.2 * random())
  const part = partAt([0, 0, 0], turned(random), [size(), size(), size()], 0)
  return { part, p: [0, 1, 2].map(() => 0.6 * (random() - 0.5)) }
}

// seen to fail: a step that only clips what leaves the box; proof to ten micrometres; a disc without stiffness round its axis
test("a disc that stands still is as far from boxes, plates and rods as a slow search of all their points finds", () => {
  const random = seeded("standing discs")
  let worst = 0
  let touching = 0
  for (let n = 0; n < 400; n++) {
    const { part, p } = drawn(random)
    const found = clearance(part, p, [-1, random() - 0.5, random() - 0.5], 0, 0)
    worst = Math.max(worst, Math.abs(found - slowDistance(part, p)))
    if (found === 0) touching++
  }
  expect(worst).toBeLessThan(2e-9)
  expect(touching).toBeGreaterThan(10)
})

// seen to fail: places past the one sought forgotten; an edge square to the contact taken to touch at its middle; the first place
// taken for the nearest; rounding taken for what an edge along the path shows
test("a path that ends is as near as the nearest of its places, level along faces and upright ones among them", () => {
  const random = seeded("ends of paths")
  let worst = 0
  for (let n = 0; n < 4000; n++) {
    const { part, p } = drawn(random)
    const steep = [0, 1e-4, 1e-2, random(), 1e9][Math.floor(5 * random())]!
    const w = n % 4 === 0 ? [...part.subarray(3, 6)] : [-1, random() - 0.5, steep].map((v) => v / Math.hypot(1, steep))
    const [least, most] = [-0.3 * random(), 0.3 * random()]
    const placed = (s: number) => p.map((v, i) => v + s * w[i]!)
    const slow = leastOf((s) => clearance(part, placed(s), w, 0, 0), least, most)
    worst = Math.max(worst, Math.abs(clearance(part, p, w, least, most) - slow))
  }
  expect(worst).toBeLessThan(5e-9)
})

// seen to fail: with what is closer than 20 nm taken to overlap
test("a disc that lies flat on a face touches it or not, to a nanometre", () => {
  const random = seeded("flat on a face")
  let worst = 0
  for (let n = 0; n < 20_000; n++) {
    const heading = 6 * random()
    const [c, s] = [Math.cos(heading), Math.sin(heading)]
    const half = [0.2 * random(), 0.2 * random(), 0.2 * random()]
    const part = partAt([0, 0, 0], [c, s, 0, -s, c, 0, 0, 0, 1], half, 0)
    const gap = [1e-2, 1e-6, 1e-8, 0, -1e-8][n % 5]!
    const [i, j] = [half[0]! * (2 * random() - 1), half[1]! * (2 * random() - 1)]
    const p = [i * c - j * s, i * s + j * c, half[2]! + HALF + gap]
    worst = Math.max(worst, Math.abs(clearance(part, p, [-1, random() - 0.5, 0.1], 0, 0) - Math.max(0, gap)))
  }
  expect(worst).toBeLessThan(1.5e-9)
})
