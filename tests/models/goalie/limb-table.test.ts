import { describe, expect, test } from "vitest"
import { reachTime } from "../../../src/sim/limb.ts"
import {
  CATCH_RADIUS,
  GREATEST_V,
  LAG,
  LEAST_V,
  LIMB_STRIDE,
  LIMBS,
  type Limb,
  LONGEST_REACH,
  PEAK_ACCELERATION,
  PEAK_SPEED,
  type Posture,
  ROOT_LENGTH,
  UNSET_FACTOR,
} from "../../../src/sim/parts.ts"
import { goalie } from "./bodies.ts"

function column(posture: Posture, limb: Limb, of: number): number {
  return posture.limbs[LIMBS.indexOf(limb) * LIMB_STRIDE + of]!
}

describe("the limb table", () => {
  // seen red: arm share left out
  test("a hand reaches 0.92 of an arm of 0.44 statures from its shoulder, faster than the stick", () => {
    const posture = goalie({ stature: 1.8 })
    expect(column(posture, "glove hand", ROOT_LENGTH)).toBeCloseTo(0.92 * 0.44 * 1.8, 12)
    expect(column(posture, "glove hand", PEAK_SPEED)).toBe(5)
    expect(column(posture, "glove hand", PEAK_ACCELERATION)).toBe(75)
    expect(column(posture, "stick", PEAK_SPEED)).toBe(3)
    expect(column(posture, "stick", ROOT_LENGTH)).toBe(Number.POSITIVE_INFINITY)
    expect(column(posture, "glove hand", CATCH_RADIUS)).toBe(0.15)
    expect(column(posture, "blocker hand", CATCH_RADIUS)).toBe(0.13)
  })

  // seen red: a default acceleration of 100 m/s2, at which the descriptions would be wrong
  test("acceleration alone bounds reaches below 0.55 m at 5 m/s and below 0.66 m at 5.5 m/s, as is said of both", () => {
    for (const [speed, reach] of [
      [5, 0.55],
      [5.5, 0.66],
    ] as const) {
      const { limbs } = goalie({ arm_speed: speed })
      const unbound = goalie({ arm_speed: 15 }).limbs
      expect(reachTime(limbs, 0, reach - 0.005)).toBe(reachTime(unbound, 0, reach - 0.005))
      expect(reachTime(limbs, 0, reach + 0.005)).toBeGreaterThan(reachTime(unbound, 0, reach + 0.005))
    }
  })

  // seen red: the sides of the hands exchanged
  test("hands stay on their side of the trunk and legs on their own", () => {
    const left = goalie()
    expect(column(left, "glove hand", LEAST_V)).toBeCloseTo(-0.1, 12)
    expect(column(left, "glove hand", GREATEST_V)).toBe(Number.POSITIVE_INFINITY)
    expect(column(left, "blocker hand", GREATEST_V)).toBeCloseTo(0.1, 12)
    expect(column(goalie({}, { catches: "right" }), "glove hand", GREATEST_V)).toBeCloseTo(0.1, 12)
    expect(column(left, "left leg", LEAST_V)).toBe(0)
    expect(column(left, "right leg", GREATEST_V)).toBe(0)
  })

  test("a leg is kicked at most 12 cm, a tenth of a second after the hands", () => {
    expect(column(goalie(), "left leg", LONGEST_REACH)).toBe(0.12)
    expect(column(goalie(), "left leg", LAG)).toBe(0.1)
  })

  // seen red: root of the glove hand at the other shoulder
  test("hands are rooted at their own shoulders", () => {
    const posture = goalie()
    expect(posture.roots[3 * LIMBS.indexOf("glove hand") + 1]!).toBeCloseTo(0.2368 * 1.88 * 0.5, 12)
    expect(posture.roots[3 * LIMBS.indexOf("blocker hand") + 1]!).toBeCloseTo(-0.2368 * 1.88 * 0.5, 12)
    expect(column(posture, "trunk", UNSET_FACTOR)).toBe(0.8)
  })
})
