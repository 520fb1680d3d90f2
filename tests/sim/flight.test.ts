import seedrandom from "seedrandom"
import { expect, test } from "vitest"
import { flyToDistance } from "../../src/sim/flight-reference.ts"
import {
  heightAt,
  MOST_PIECES,
  PATH_COUNT,
  PATH_END,
  PATH_PIECES,
  PIECE_STRIDE,
  paceAt,
  slopeAt,
  timeAt,
} from "../../src/sim/path.ts"
import { DRAG, ICE_RESTITUTION, LIFT } from "../../src/sim/world.ts"
import { degrees, launches, pathOf, releaseState, worldWith } from "./flight-worlds.ts"

const PUCK_ON_ICE = 0.0127

/** Greatest difference between the stored path and the reference while airborne, at six places of each flight. */
function worstError(world: Float64Array, seed: string, count: number): { height: number; time: number } {
  const random = seedrandom(`${seed} distances`)
  const worst = { height: 0, time: 0 }
  for (const launch of launches(seed, count)) {
    const until = 1 + 29 * random()
    const path = pathOf(world, launch, until)
    const state = releaseState(launch)
    let t = 0
    for (let part = 1; part <= 6; part++) {
      t += flyToDistance(world, state, until / 6, 0.02)
      if (state[2]! <= PUCK_ON_ICE) break
      const D = (until * part) / 6
      worst.height = Math.max(worst.height, Math.abs(heightAt(path, 0, D) - state[2]!))
      worst.time = Math.max(worst.time, Math.abs(timeAt(path, 0, D) - t))
    }
  }
  return worst
}

// seen to fail: one step fewer than the rule asks for; the drag term without its secant
test.each([
  ["least drag", { [DRAG]: 0.0045 }],
  ["default drag", {}],
  ["most drag", { [DRAG]: 0.0075 }],
  ["most lift", { [LIFT]: 0.0018 }],
  ["most lift downward", { [LIFT]: -0.0018 }],
])("fly() stays within 1 mm and 0.1 ms of the reference while airborne: %s", (_name, columns) => {
  const worst = worstError(worldWith(columns), "airborne", 2000)
  expect(worst.height).toBeLessThan(1e-3)
  expect(worst.time).toBeLessThan(1e-4)
  expect(worst.height).toBeGreaterThan(1e-6) // something was compared
})

// seen to fail: drag of 1e-6 in place of 0
test("fly() is the parabola when there is no drag", () => {
  const world = worldWith({ [DRAG]: 0 })
  for (const launch of launches("parabola", 300)) {
    const level = launch.speed * Math.cos(launch.elevation)
    const tangent = Math.tan(launch.elevation)
    const path = pathOf(world, launch, 20)
    for (const D of [0.5, 3, 8, 14, 20]) {
      const height = launch.z + D * tangent - (0.5 * 9.81 * D * D) / (level * level)
      if (height <= PUCK_ON_ICE) break
      expect(heightAt(path, 0, D)).toBeCloseTo(height, 11)
      expect(timeAt(path, 0, D)).toBeCloseTo(D / level, 11)
    }
  }
})

// seen to fail: the landing row's pace taken from the start of its piece
test("fly() joins its pieces: height and time never jump, pace only falls back on the ice", () => {
  const world = worldWith({ [ICE_RESTITUTION]: 0.5 })
  for (const launch of launches("joints", 500)) {
    const path = pathOf(world, launch, 25)
    const count = path[PATH_COUNT]!
    expect(count).toBeGreaterThanOrEqual(1)
    expect(count).toBeLessThanOrEqual(MOST_PIECES)
    for (let piece = 1; piece < count; piece++) {
      const D = path[PATH_PIECES + PIECE_STRIDE * piece]!
      expect(heightAt(path, 0, D)).toBeCloseTo(heightAt(path, 0, D - 1e-9), 6)
      expect(timeAt(path, 0, D)).toBeCloseTo(timeAt(path, 0, D - 1e-9), 6)
      expect(paceAt(path, 0, D)).toBeGreaterThan(paceAt(path, 0, D - 1e-9) - 1e-6)
    }
  }
})

// seen to fail: the path mirrored in y without its direction
test("fly() goes the same way in every direction", () => {
  const world = worldWith()
  const base = { x: 0, y: 0, z: 0.1, elevation: degrees(7), speed: 24 }
  const ahead = pathOf(world, { ...base, azimuth: 0 }, 12)
  const back = pathOf(world, { ...base, x: 9, y: -2, azimuth: degrees(201) }, 12)
  expect([...back.subarray(PATH_PIECES)]).toEqual([...ahead.subarray(PATH_PIECES)])
  expect(back[2]!).toBeCloseTo(Math.cos(degrees(201)), 14)
  expect(back[3]!).toBeCloseTo(Math.sin(degrees(201)), 14)
})

// seen to fail: the start of the last piece taken for its end
test("fly() ends at the distance asked for while the puck still moves", () => {
  const path = pathOf(worldWith(), { x: 0, y: 0, z: 0.02, azimuth: 0, elevation: 0.1, speed: 30 }, 11)
  expect(path[PATH_END]!).toBeCloseTo(11, 12)
})

// seen to fail: slopeAt without its factor 2
test("slopeAt() and paceAt() are the derivatives of heightAt() and timeAt()", () => {
  const h = 1e-5
  for (const launch of launches("slopes", 50)) {
    const path = pathOf(worldWith(), launch, 20)
    for (const D of [0.31, 1.7, 4.4]) {
      const slope = (heightAt(path, 0, D + h) - heightAt(path, 0, D - h)) / (2 * h)
      const pace = (timeAt(path, 0, D + h) - timeAt(path, 0, D - h)) / (2 * h)
      expect(Math.abs(slopeAt(path, 0, D) - slope)).toBeLessThan(1e-6)
      expect(Math.abs(paceAt(path, 0, D) - pace)).toBeLessThan(1e-6)
    }
  }
})
