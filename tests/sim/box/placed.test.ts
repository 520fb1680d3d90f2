import { expect, test } from "vitest"
import { placeBody, supportAlong } from "../../../src/sim/box/placed.ts"
import { PART_STRIDE, type Posture } from "../../../src/sim/parts.ts"
import { partAt, rotation, seeded } from "../bodies.ts"

/** A posture of two key phases and three random parts. */
function posture(random: () => number): Posture {
  const parts = new Float64Array(6 * PART_STRIDE)
  for (let i = 0; i < 6; i++) {
    const centre = [random(), random() - 0.5, random()]
    parts.set(partAt(centre, rotation(random), [0.1 * random(), 0.1, 0.2], 0.03), i * PART_STRIDE)
  }
  return {
    phases: 2,
    count: 3,
    parts,
    region: new Uint8Array(3),
    carrier: new Uint8Array(3),
    restitution: new Float64Array(3),
    limbs: new Float64Array(0),
    roots: new Float64Array(0),
    halfStance: 0.4,
    foremost: 0.6,
    leak: 0,
  }
}

// Seen to fail with the sine's sign turned.
test("placeBody() turns the goalie's forward and left by the heading and moves them to the place", () => {
  const random = seeded("place")
  const p = posture(random)
  const [gx, gy, heading] = [1.1, -0.4, 0.7]
  const body = placeBody(p, 0, gx, gy, heading)
  for (let at = 0; at < body.parts.length; at += PART_STRIDE) {
    const [u, v, z] = [p.parts[at]!, p.parts[at + 1]!, p.parts[at + 2]!]
    expect(body.parts[at]).toBeCloseTo(gx + u * Math.cos(heading) - v * Math.sin(heading), 14)
    expect(body.parts[at + 1]).toBeCloseTo(gy + u * Math.sin(heading) + v * Math.cos(heading), 14)
    expect(body.parts[at + 2]).toBe(z)
    expect([...body.parts.subarray(at + 12, at + 16)]).toEqual([...p.parts.subarray(at + 12, at + 16)])
  }
})

// Seen to fail with the axes left as interpolated.
test("between key phases centres lie on straight lines and axes stay perpendicular unit vectors", () => {
  const random = seeded("between phases")
  const p = posture(random)
  const body = placeBody(p, 0.3, 0.5, 0.2, 0.4)
  const [from, to] = [placeBody(p, 0, 0.5, 0.2, 0.4), placeBody(p, 1, 0.5, 0.2, 0.4)]
  for (let at = 0; at < body.parts.length; at += PART_STRIDE) {
    for (const i of [0, 1, 2, 12, 15]) {
      expect(body.parts[at + i]).toBeCloseTo(0.7 * from.parts[at + i]! + 0.3 * to.parts[at + i]!, 14)
    }
    const axis = (k: number) => [0, 1, 2].map((i) => body.parts[at + 3 + 3 * k + i]!)
    const dot = (a: number[], b: number[]) => a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!
    for (const [j, k] of [
      [0, 0],
      [1, 1],
      [2, 2],
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const) {
      expect(dot(axis(j), axis(k))).toBeCloseTo(j === k ? 1 : 0, 12)
    }
  }
})

// Seen to fail with the sign of the extent kept.
test("supportAlong() is half a box's extent along a direction, rounding included", () => {
  const box = partAt([1, 2, 3], undefined, [0.1, 0.2, 0.3], 0.05)
  expect(supportAlong(box, 0, 1, 0, 0)).toBeCloseTo(0.15, 14)
  expect(supportAlong(box, 0, 0, 0, -2)).toBeCloseTo(0.7, 14)
  expect(supportAlong(box, 0, 0, 3, 4)).toBeCloseTo(0.6 + 1.2 + 0.25, 14)
})
