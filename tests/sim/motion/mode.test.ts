import fc from "fast-check"
import { describe, expect, test } from "vitest"
import {
  ACCELERATION,
  BRAKING,
  MODE_STRIDE,
  peakSpeed,
  restToPassing,
  restToRest,
  START,
  stoppingDistance,
  TOP_SPEED,
  travelTime,
} from "../../../src/sim/motion/mode.ts"

/** Plain referee: small steps of the speed, braking as soon as the way left asks for it. */
function steppedTime(a: number, top: number, b: number, length: number): number {
  const dt = 1e-5
  let x = 0
  let v = 0
  let t = 0
  while (t < 60) {
    const brakes = length - x <= (v * v) / (2 * b)
    const next = brakes ? v - b * dt : Math.min(top, v + a * dt)
    if (next <= 0) return t
    x += 0.5 * (v + next) * dt
    v = next
    t += dt
  }
  return t
}

describe("a way from rest to rest", () => {
  test("takes 2 sqrt(L / a) where the top speed is out of reach and braking is as strong as acceleration", () => {
    // seen to fail: the braking left out of the peak
    expect(restToRest(7, 99, 7, 1.2)).toBeCloseTo(2 * Math.sqrt(1.2 / 7), 12)
    expect(peakSpeed(7, 99, 7, 1.2, 0)).toBeCloseTo(Math.sqrt(7 * 1.2), 12)
  })

  test("takes L / V + V / 2a + V / 2b once the top speed is kept for a while", () => {
    expect(restToRest(7, 3, 5, 4)).toBeCloseTo(4 / 3 + 3 / 14 + 3 / 10, 12)
  })

  test.each([
    [7, 3, 7, 0.05],
    [7, 3, 4, 1.1],
    [2.5, 1.4, 5, 1.83],
    [6, 2, 4, 3],
  ])("of acceleration %d, top speed %d, braking %d and length %d takes what small steps say", (a, top, b, length) => {
    expect(restToRest(a, top, b, length)).toBeCloseTo(steppedTime(a, top, b, length), 3)
  })

  // seen to fail: the cruise measured from the start
  test("takes longer the longer it is and never jumps", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 5, noNaN: true }), fc.double({ min: 0, max: 5, noNaN: true }), (l, m) => {
        const [near, far] = [Math.min(l, m), Math.max(l, m)]
        const difference = restToRest(7, 3, 6, far) - restToRest(7, 3, 6, near)
        // no faster than from rest to rest over the difference alone, as no way is quicker than going on
        expect(difference).toBeGreaterThanOrEqual(0)
        expect(difference).toBeLessThanOrEqual(restToRest(7, 3, 6, far - near) + 1e-12)
      }),
      { seed: 11, numRuns: 200 },
    )
  })

  test("of no length takes no time, start included", () => {
    const mode = new Float64Array(MODE_STRIDE)
    mode[START] = 0.1
    mode[ACCELERATION] = 7
    mode[TOP_SPEED] = 3
    mode[BRAKING] = 7
    expect(travelTime(mode, 0, 0)).toBe(0)
    expect(travelTime(mode, 0, 1.2)).toBeCloseTo(0.1 + restToRest(7, 3, 7, 1.2), 12)
  })
})

describe("passing a mark without braking", () => {
  test("takes sqrt(2 L / a) while gaining speed and L / V + V / 2a at speed, the same where they meet", () => {
    expect(restToPassing(7, 3, 0.4)).toBeCloseTo(Math.sqrt(0.8 / 7), 12)
    // seen to fail: the distance to reach the top speed doubled
    for (const length of [0.7, 1.2, 1.83]) expect(restToPassing(7, 3, length)).toBeCloseTo(length / 3 + 3 / 14, 12)
    const meets = 9 / 14
    expect(restToPassing(7, 3, meets - 1e-12)).toBeCloseTo(restToPassing(7, 3, meets + 1e-12), 9)
    expect(restToPassing(7, 3, 0)).toBe(0)
  })

  // seen to fail: acceleration scaled by the factor in place of its square
  test("of the same push played faster takes its time divided by the factor", () => {
    for (const length of [0.3, 1.83, 4])
      expect(restToPassing(7 * 1.2 ** 2, 3 * 1.2, length)).toBeCloseTo(restToPassing(7, 3, length) / 1.2, 12)
  })
})

test("a goalie who backs up at 1.4 m/s and brakes at 5 m/s2 goes on for 19.6 cm", () => {
  // seen to fail: v² / b
  expect(stoppingDistance(5, 1.4)).toBeCloseTo(0.196, 12)
})
