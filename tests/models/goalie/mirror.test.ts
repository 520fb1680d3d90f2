import { describe, expect, test } from "vitest"
import { mirrorPosture } from "../../../src/models/goalie/mirror.ts"
import type { Posture } from "../../../src/sim/parts.ts"
import { goalie } from "./bodies.ts"

/** Largest difference between two tables; infinities of the same sign agree. */
function apart(a: Float64Array, b: Float64Array): number {
  expect(a.length).toBe(b.length)
  return a.reduce((most, value, i) => (value === b[i] ? most : Math.max(most, Math.abs(value - b[i]!))), 0)
}

function expectSame(a: Posture, b: Posture): void {
  expect(apart(a.parts, b.parts)).toBeLessThan(1e-12)
  expect(apart(a.limbs, b.limbs)).toBeLessThan(1e-12)
  expect(apart(a.roots, b.roots)).toBeLessThan(1e-12)
  expect(apart(a.restitution, b.restitution)).toBe(0)
  expect([...a.region]).toEqual([...b.region])
  expect([...a.carrier]).toEqual([...b.carrier])
  expect(a.halfStance).toBeCloseTo(b.halfStance, 12)
  expect(a.foremost).toBeCloseTo(b.foremost, 12)
}

describe("mirrorPosture()", () => {
  // seen red: heel of the blade kept on the right
  test.each(["set", "upright", "narrow", "butterfly"])(
    "%s: catching right is the mirror of catching left",
    (stance) => {
      expectSame(goalie({}, { stance, catches: "right" }), mirrorPosture(goalie({}, { stance })))
    },
  )

  test.each(["overlap", "lean", "VH", "RVH"])("%s at the right post catching right mirrors left and left", (stance) => {
    const right = goalie({}, { stance, catches: "right", near_post: "right" })
    expectSame(right, mirrorPosture(goalie({}, { stance })))
  })

  // seen red: limbs not exchanged
  test("twice gives the posture back", () => {
    const posture = goalie({}, { stance: "RVH" })
    expectSame(mirrorPosture(mirrorPosture(posture)), posture)
  })

  test("a lopsided posture is not its own mirror image", () => {
    const posture = goalie()
    expect(apart(mirrorPosture(posture).parts, posture.parts)).toBeGreaterThan(0.1)
  })
})
