import { linearRegression, sampleCorrelation } from "simple-statistics"
import { expect, test } from "vitest"
import { FLIGHT_STATE, flyInTime, flyToDistance } from "../../src/sim/flight-reference.ts"
import { RK4_ORDER } from "../../src/sim/integrate.ts"
import { DRAG, GRAVITY, LIFT } from "../../src/sim/world.ts"
import { degrees, launches, releaseState, worldWith } from "./flight-worlds.ts"
import { extrapolate } from "./odex.ts"

/** The same forces, written anew for another solver: components along and square to the velocity. */
function fliesTo(world: Float64Array, start: Float64Array, t: number): number[] {
  const g = world[GRAVITY]!
  const k = world[DRAG]!
  const l = world[LIFT]!
  const forces = (_t: number, [, , , vx, vy, vz]: number[]): number[] => {
    const v = Math.hypot(vx!, vy!, vz!)
    const level = Math.hypot(vx!, vy!)
    // unit vector square to the velocity, upward: the vertical less its part along the velocity, made unit length
    const up = [(-vz! * vx!) / (v * level), (-vz! * vy!) / (v * level), level / v]
    const pull = (i: number, c: number) => -k * v * c + l * v * v * up[i]!
    return [vx!, vy!, vz!, pull(0, vx!), pull(1, vy!), pull(2, vz!) - g]
  }
  return extrapolate(forces, start, t)
}

// seen to fail: the lift's part along the flight with the other sign
test("flyInTime() agrees with an extrapolation solver within 0.1 mm, with drag and lift", () => {
  for (const lift of [0, 0.0018, -0.0018]) {
    const world = worldWith({ [LIFT]: lift })
    for (const launch of launches("odex", 20)) {
      const state = releaseState(launch)
      const other = fliesTo(world, state, 0.9)
      flyInTime(world, state, 0.9, 90)
      const apart = Math.hypot(state[0]! - other[0]!, state[1]! - other[1]!, state[2]! - other[2]!)
      expect(apart).toBeLessThan(1e-4)
    }
  }
})

// seen to fail: a velocity's slope halved in the last stage of the step
test("flyInTime() converges with the order of its step", () => {
  // drag ten times a puck's, so that errors stand clear of round-off
  const world = worldWith({ [DRAG]: 0.06, [LIFT]: 0.01 })
  const launch = { x: 0, y: 0, z: 0, azimuth: 0.7, elevation: degrees(30), speed: 40 }
  const end = (steps: number) => {
    const state = releaseState(launch)
    flyInTime(world, state, 1.5, steps)
    return state
  }
  const exact = end(4000)
  const points: [number, number][] = []
  for (let steps = 24; steps <= 512; steps = Math.ceil(steps * 1.25)) {
    const state = end(steps)
    const error = Math.hypot(state[0]! - exact[0]!, state[1]! - exact[1]!, state[2]! - exact[2]!)
    points.push([Math.log10(1 / steps), Math.log10(error)])
  }
  expect(Math.abs(linearRegression(points).m - RK4_ORDER)).toBeLessThan(0.2)
  const correlation = sampleCorrelation(
    points.map((p) => p[0]),
    points.map((p) => p[1]),
  )
  expect(correlation).toBeGreaterThan(0.999)
})

// seen to fail: the distance measured along x alone
test("flyToDistance() stops where it was told, after the time it says", () => {
  const world = worldWith()
  for (const launch of launches("stops", 20)) {
    const there = releaseState(launch)
    const t = flyToDistance(world, there, 6.3, 0.01)
    expect(Math.hypot(there[0]!, there[1]!)).toBeCloseTo(6.3, 10)
    const same = releaseState(launch)
    flyInTime(world, same, t, 100)
    for (let i = 0; i < FLIGHT_STATE; i++) expect(same[i]!).toBeCloseTo(there[i]!, 7)
  }
})
