import { describe, expect, test } from "vitest"
import { placeArm } from "../../../src/models/goalie/arm.ts"
import { kneeBendFor, legSpan } from "../../../src/models/goalie/fitted-stance.ts"
import { downLeg, fallingLeg, type LegSize, placeLeg, standingLeg } from "../../../src/models/goalie/leg.ts"
import { length, subtract, type Vector } from "../../../src/models/goalie/vector.ts"

const LEG: LegSize = {
  thigh: 0.46,
  shank: 0.462,
  ankleToTop: 0.765,
  padWidth: 0.2794,
  padDepth: 0.11,
  ankleHeight: 0.123,
  sealGap: 0.03,
}
const HIP: Vector = [-0.13, 0.086, 0.743]

describe("a leg", () => {
  const standing = standingLeg(HIP, 1, LEG, { feet: 0.4, halfGap: 0.065, flare: 0.14 })

  // seen red: knee taken behind the line from hip to ankle
  test("that stands has its ankle where the foot is, its knee ahead, and its bones their lengths", () => {
    const leg = placeLeg(standing, 1, LEG)
    expect(length(subtract(leg.ankle, [0, 0.4, LEG.ankleHeight]))).toBeLessThan(1e-6)
    expect(length(subtract(leg.knee, leg.ankle))).toBeCloseTo(LEG.shank, 9)
    expect(length(subtract(leg.knee, HIP))).toBeCloseTo(LEG.thigh, 6)
    expect(leg.knee[0]).toBeGreaterThan(0.1)
    expect(leg.knee[1]).toBeLessThan(0.4)
  })

  // seen red: knee placed under the hip joint
  test("that is down has its knee a thigh from the hip joint and its shank along the ice", () => {
    const hip: Vector = [-0.13, 0.086, 0.49]
    const leg = placeLeg(downLeg(hip, 1, LEG, { halfGap: 0.03, flare: 0.44 }), 1, LEG)
    expect(length(subtract(leg.knee, hip))).toBeCloseTo(LEG.thigh, 9)
    expect(leg.ankle[2] - leg.knee[2]).toBeLessThan(0.03)
    expect(leg.ankle[1]).toBeGreaterThan(leg.knee[1] + 0.35)
  })

  test("keeps the length of its thigh within a tenth on the way down", () => {
    const hip: Vector = [-0.13, 0.086, 0.49]
    const down = downLeg(hip, 1, LEG, { halfGap: 0.03, flare: 0.44 })
    for (let k = 0; k <= 8; k++) {
      const p = k / 8
      const at: Vector = [HIP[0], HIP[1], HIP[2] + p * p * (hip[2] - HIP[2])]
      const thigh = length(subtract(placeLeg(fallingLeg(standing, down, p), 1, LEG).knee, at))
      expect(Math.abs(thigh / LEG.thigh - 1)).toBeLessThan(0.1)
    }
  })

  // seen red: half of the angle
  test("spans what the law of cosines says, and back", () => {
    expect(legSpan(0.4, 0.4, Math.PI / 2)).toBeCloseTo(0.4 * Math.SQRT2, 12)
    expect(kneeBendFor(0.46, 0.462, legSpan(0.46, 0.462, 1.2))).toBeCloseTo(1.2, 9)
    expect(kneeBendFor(0.46, 0.462, 2)).toBe(0)
  })
})

describe("an arm", () => {
  // seen red: foot of the elbow measured from the hand
  test("keeps both its lengths and bends its elbow toward the pole", () => {
    const arm = placeArm([0, 0.2, 1.2], [0.25, 0.35, 0.75], 0.35, 0.37, [0, 1, -1])
    expect(length(subtract(arm.elbow, arm.shoulder))).toBeCloseTo(0.35, 12)
    expect(length(subtract(arm.hand, arm.elbow))).toBeCloseTo(0.37, 12)
    expect(length(subtract(arm.hand, [0.25, 0.35, 0.75]))).toBeLessThan(1e-12)
    expect(arm.elbow[1]).toBeGreaterThan(0.3)
  })

  test("too short for what is wanted stops on the line to it, all but straight", () => {
    const arm = placeArm([0, 0, 0], [3, 0, 0], 0.35, 0.37, [0, 0, -1])
    expect(arm.hand[0]).toBeCloseTo(0.98 * 0.72, 12)
    expect(arm.hand[1]).toBe(0)
  })
})
