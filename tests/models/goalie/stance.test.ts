import { describe, expect, test } from "vitest"
import { bodySize } from "../../../src/models/goalie/body-size.ts"
import { chosenStances } from "../../../src/models/goalie/chosen-stance.ts"
import { fitStance } from "../../../src/models/goalie/fitted-stance.ts"
import { blendStances } from "../../../src/models/goalie/stance.ts"
import { STANCES } from "../../../src/models/goalie/stances.ts"
import { defaultSettings, withSettings } from "../../../src/models/settings.ts"
import { LIMBS } from "../../../src/sim/parts.ts"
import { axisOf, centreOf, DEGREES, goalie, openShare, sizeOf } from "./bodies.ts"

describe("a stance", () => {
  test("fitted to the goalie it is written for stays as written", () => {
    const body = bodySize(defaultSettings())
    const fitted = fitStance(STANCES.set, body, 0.05)
    for (const key of Object.keys(fitted) as (keyof typeof fitted)[]) {
      expect(fitted[key], key).toBeCloseTo(STANCES.set[key], 12)
    }
  })

  // seen red: share taken from the other end
  test("blended by half is half way in every number", () => {
    const half = blendStances(STANCES.set, STANCES.butterfly, 0.5)
    for (const key of Object.keys(half) as (keyof typeof half)[]) {
      expect(half[key]).toBeCloseTo((STANCES.set[key] + STANCES.butterfly[key]) / 2, 12)
    }
    const hips = (share: number): number =>
      goalie({ blend: share }, { blend_with: "butterfly" }).roots[3 * LIMBS.indexOf("trunk") + 2]!
    expect(hips(0.5)).toBeCloseTo((hips(0) + hips(1)) / 2, 9)
  })

  test("blended fully with another is that other", () => {
    expect([...goalie({ blend: 1 }, { blend_with: "RVH" }).parts]).toEqual([...goalie({}, { stance: "RVH" }).parts])
  })

  // seen red: given numbers ignored
  test("takes each parameter that is given in the goalie's own measure", () => {
    const changes = {
      "goalie.stature": 1.75,
      "goalie.crouch": 0.2,
      "goalie.knee_bend": 1,
      "goalie.feet_width": 0.7,
      "goalie.five_hole": 0.2,
      "goalie.torso_lean": 0.5,
      "goalie.hands_height": 0.8,
      "goalie.hands_out": 0.1,
      "goalie.hands_ahead": 0.45,
      "goalie.pad_flare": 0.3,
      "goalie.glove_opening": 0.4,
      "goalie.blade_lead": 0.25,
    }
    const settings = withSettings(defaultSettings(), { quantities: changes })
    const { stance, down } = chosenStances(settings, bodySize(settings))
    expect(stance).toMatchObject({ crouch: 0.2, kneeBend: 1, feetWidth: 0.7, fiveHole: 0.2, torsoLean: 0.5 })
    expect(stance).toMatchObject({ nearHandHeight: 0.8, farHandOut: 0.1, nearHandAhead: 0.45, bladeLead: 0.25 })
    expect(stance).toMatchObject({ nearFlare: 0.3, gloveOpening: 0.4 })
    // habits last through the drop; the rest is the butterfly's own
    expect(down).toMatchObject({ nearFlare: 0.3, farHandOut: 0.1, nearHandAhead: 0.45, gloveOpening: 0.4 })
    expect(down.nearHandHeight - STANCES.butterfly.nearHandHeight).toBeCloseTo(0.8 - STANCES.set.nearHandHeight, 12)
    expect(down.fiveHole).toBe(STANCES.butterfly.fiveHole)
  })

  // seen red: crouch measured from the floor
  test("gives up the share of standing hip height that its crouch says", () => {
    const hips = goalie({ crouch: 0.4, knee_bend: 90 * DEGREES }).roots[3 * LIMBS.indexOf("trunk") + 2]!
    expect(hips).toBeCloseTo(0.6 * (0.53 * 1.88 + 0.05), 9)
  })

  // seen red: flare turning both pads to the left
  test("turns both pads out by the flare", () => {
    const posture = goalie({ pad_flare: 30 * DEGREES, knee_bend: 0.1, crouch: 0 })
    expect(axisOf(posture, "left pad", 2)[1]!).toBeGreaterThan(0.4)
    expect(axisOf(posture, "right pad", 2)[1]!).toBeLessThan(-0.4)
  })

  test("bends until the trunk leans as far as asked", () => {
    const [upright, leant] = [goalie({ torso_lean: 0 }), goalie({ torso_lean: 50 * DEGREES })]
    expect(axisOf(upright, "torso", 0)).toEqual([0, 0, 1])
    expect(axisOf(leant, "torso", 0)[0]!).toBeCloseTo(Math.sin(50 * DEGREES), 12)
  })
})

describe("what geometry makes of it", () => {
  // seen red: "tucked" given the numbers of "beside"
  test("hands tucked in front of the hips leave more open than beside, and hands projected leave less", () => {
    const open = (hands: string): number => openShare(goalie({}, { hands }), 8, 1, 0, 0.03)
    expect(open("tucked")).toBeGreaterThan(open("beside") + 0.02)
    expect(open("projected")).toBeLessThan(open("beside"))
  })

  test("tucked hands are inside the outline of the hips and pads, hands beside and projected outside it", () => {
    const outer = (hands: string): number => Math.abs(centreOf(goalie({}, { hands }), "catching glove")[1]!)
    const hips = sizeOf(goalie(), "pants")[1]! / 2
    expect(outer("tucked")).toBeLessThan(hips + 0.01)
    expect(outer("beside")).toBeGreaterThan(hips + 0.1)
    expect(outer("projected")).toBeGreaterThan(hips + 0.1)
  })

  // seen red: closed glove as broad as the open one
  test("a closed glove leaves more open, and so does a goalie deeper in the net", () => {
    const set = goalie()
    expect(openShare(goalie({}, { glove: "closed" }), 8, 1)).toBeGreaterThan(openShare(set, 8, 1) + 0.005)
    const byDepth = [0.1, 0.5, 1, 1.5, 2].map((depth) => openShare(set, 8, depth))
    for (let i = 1; i < byDepth.length; i++) expect(byDepth[i]!).toBeLessThan(byDepth[i - 1]!)
  })

  // seen red: SET written with feet 0.3 m apart and hands 0.1 m out
  test("a set goalie of 1.88 m leaves half of the mouth open to light from 8 m, and less when down", () => {
    const set = goalie()
    expect(Math.abs(openShare(set, 8, 1, 0, 0.02) - 0.502)).toBeLessThan(0.02)
    expect(openShare(set, 8, 1, set.phases - 1)).toBeLessThan(openShare(set, 8, 1) - 0.05)
  })
})
