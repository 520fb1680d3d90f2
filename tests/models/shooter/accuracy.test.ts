import { describe, expect, test } from "vitest"
import { defaultSettings, type Settings, withSettings } from "../../../src/models/settings.ts"
import { aimedError, hurriedError, hurriedShare } from "../../../src/models/shooter/accuracy.ts"
import { LEVEL_NAMES } from "../../../src/models/shooter/levels.ts"

const DEGREE = Math.PI / 180
const FAR = 1000

function shooter(choices: Record<string, string>, quantities: Record<string, number> = {}): Settings {
  return withSettings(defaultSettings(), { choices, quantities })
}

describe("aimedError()", () => {
  test("is 1.7 degrees across and 0.9 of that up and down, far out along the ice", () => {
    const { azimuth, elevation } = aimedError(defaultSettings(), FAR, 0)
    expect(azimuth / DEGREE).toBeCloseTo(1.7, 12)
    expect(elevation / azimuth).toBeCloseTo(0.9, 12)
  })

  test("grows close in as 1 + 0.75 exp(-distance / 6 m)", () => {
    // mutation seen to fail: sign of the exponent
    const { azimuth } = aimedError(defaultSettings(), 4, 0)
    expect(azimuth / DEGREE).toBeCloseTo(1.7 * (1 + 0.75 * Math.exp(-4 / 6)), 12)
  })

  test("grows with the tangent of the elevation, and a downward aim counts as level", () => {
    const level = aimedError(defaultSettings(), FAR, 0).azimuth
    expect(aimedError(defaultSettings(), FAR, 0.25).azimuth / level).toBeCloseTo(1.25, 12)
    expect(aimedError(defaultSettings(), FAR, -0.25).azimuth).toBe(level)
  })

  test("grows with speed relative to the usual speed, to the stated power", () => {
    const error = (factor: number) => aimedError(shooter({}, { "shooter.speed_factor": factor }), 8, 0).azimuth
    expect(error(1.21) / error(1)).toBeCloseTo(1.1, 12)
  })

  test("orders the levels and types: better levels stray less, wrist less than slap, settled less than bouncing", () => {
    const by = (choices: Record<string, string>) => aimedError(shooter(choices), 8, 0).azimuth
    const levels = LEVEL_NAMES.map((level) => by({ "shooter.level": level }))
    for (let i = 1; i < levels.length; i++) expect(levels[i]).toBeGreaterThanOrEqual(levels[i - 1]!)
    expect(levels.at(-1)).toBeGreaterThan(levels[0]!)
    expect(by({ "shooter.shot": "wrist" })).toBeLessThan(by({ "shooter.shot": "slap" }))
    expect(by({ "shooter.puck": "settled" })).toBeLessThan(by({ "shooter.puck": "moving" }))
    expect(by({ "shooter.puck": "moving" })).toBeLessThan(by({ "shooter.puck": "bouncing" }))
  })

  test("takes the puck of a one-timer as moving unless the settings say otherwise", () => {
    // mutation seen to fail: always settled
    const by = (puck: string) =>
      aimedError(shooter({ "shooter.shot": "one-timer", "shooter.puck": puck }), 8, 0).azimuth
    expect(by("by shot")).toBe(by("moving"))
    expect(by("by shot")).toBeGreaterThan(by("settled"))
  })
})

describe("hurried shots", () => {
  test("are 80 % of shots at 3 m and nearer, 25 % at 11 m and farther, and a straight line between", () => {
    // mutation seen to fail: not clamped
    const share = (distance: number) => hurriedShare(defaultSettings(), distance)
    expect([1, 3, 7, 11, 30].map((d) => Number(share(d).toFixed(12)))).toEqual([0.8, 0.8, 0.525, 0.25, 0.25])
  })

  test("take the stated share where there is one, zero too", () => {
    expect(hurriedShare(shooter({}, { "shooter.hurried_share": 0 }), 3)).toBe(0)
  })

  test("stay a share when the two distances meet", () => {
    const met = { "shooter.hurried_near_distance": 5, "shooter.hurried_far_distance": 5 }
    expect(hurriedShare(shooter({}, met), 4)).toBeCloseTo(0.8, 12)
    expect(hurriedShare(shooter({}, met), 5)).toBeCloseTo(0.25, 12)
  })

  test("stray 3.6 degrees in both axes at any distance", () => {
    const [near, far] = [hurriedError(defaultSettings(), 3), hurriedError(defaultSettings(), 15)]
    expect(near.azimuth / DEGREE).toBeCloseTo(3.6, 12)
    expect(near).toEqual({ azimuth: near.azimuth, elevation: near.azimuth })
    expect(far).toEqual(near)
  })
})
