import seedrandom from "seedrandom"
import { expect, test } from "vitest"
import { flyToDistance } from "../../src/sim/flight-reference.ts"
import {
  aimAt,
  LAUNCH_AZIMUTH,
  LAUNCH_STRIDE,
  LAUNCH_TANGENT,
  TARGET_HIT,
  TARGET_OUT_OF_REACH,
  TARGET_TOO_STEEP,
} from "../../src/sim/launch.ts"
import { PATH_STRIDE } from "../../src/sim/path.ts"
import { DRAG, LIFT } from "../../src/sim/world.ts"
import { degrees, releaseState, worldWith } from "./flight-worlds.ts"

interface Shot {
  readonly x: number
  readonly y: number
  readonly z: number
  readonly targetY: number
  readonly targetZ: number
  readonly speed: number
}

interface Aimed {
  readonly answer: number
  readonly azimuth: number
  readonly tangent: number
}

function aim(world: Float64Array, shot: Shot, steepest: number): Aimed {
  const out = new Float64Array(LAUNCH_STRIDE + 1)
  const path = new Float64Array(2 * PATH_STRIDE)
  const { x, y, z, targetY, targetZ, speed } = shot
  const answer = aimAt(world, x, y, z, targetY, targetZ, speed, steepest, path, PATH_STRIDE, out, 1)
  return { answer, azimuth: out[1 + LAUNCH_AZIMUTH]!, tangent: out[1 + LAUNCH_TANGENT]! }
}

/** Where the reference flight of a launch meets the plane of the goal line, when there is no ice. */
function landing(world: Float64Array, shot: Shot, aimed: Aimed): { y: number; z: number } {
  const elevation = Math.atan(aimed.tangent)
  const { x, y, z, speed } = shot
  const state = releaseState({ x, y, z: Math.max(z, 0.0127), azimuth: aimed.azimuth, elevation, speed })
  flyToDistance(world, state, x / Math.abs(Math.cos(aimed.azimuth)), 0.05)
  return { y: state[1]!, z: state[2]! }
}

/** Seeded shots at any place of the mouth from any spot before the goal line. */
function shots(seed: string, count: number): Shot[] {
  const random = seedrandom(seed)
  return Array.from({ length: count }, () => {
    const distance = 1 + 25 * random()
    const bearing = degrees(170) * (random() - 0.5)
    return {
      x: distance * Math.cos(bearing),
      y: distance * Math.sin(bearing),
      z: 0.0127 + (random() < 0.5 ? 0 : 0.3 * random()),
      targetY: 1.8 * (random() - 0.5),
      targetZ: 0.0127 + 1.2 * random(),
      speed: 5 + 45 * random(),
    }
  })
}

const FORTY_DEGREES = Math.tan(degrees(40))

// seen to fail: one Newton step only; the drag term of the start doubled with no step after it
test.each([
  ["default drag", {}],
  ["no drag", { [DRAG]: 0 }],
  ["lift", { [LIFT]: 0.001 }],
  ["lift downward", { [LIFT]: -0.001 }],
])("aimAt() lands within 1 mm of the target by the reference: %s", (_name, columns) => {
  const world = worldWith(columns)
  let hits = 0
  let worst = 0
  for (const shot of shots("targets", 2000)) {
    const aimed = aim(world, shot, FORTY_DEGREES)
    if (aimed.answer !== TARGET_HIT) continue
    hits++
    const there = landing(world, shot, aimed)
    worst = Math.max(worst, Math.hypot(there.y - shot.targetY, there.z - shot.targetZ))
  }
  expect(hits).toBeGreaterThan(1600)
  expect(worst).toBeLessThan(1e-3)
})

// seen to fail: the peak sought only up to half the steepest aim
test.each([0.4, 1.2])(
  "aimAt() sends an unreachable shot to the highest place under its target: up to %d",
  (steepest) => {
    const world = worldWith()
    const seen = { hit: 0, steep: 0, far: 0, ice: 0 }
    for (const shot of shots("out of reach", 400).map((s) => ({ ...s, speed: 5 + (s.speed - 5) / 4 }))) {
      const aimed = aim(world, shot, steepest)
      const height = (tangent: number) => landing(world, shot, { ...aimed, tangent }).z
      if (aimed.answer === TARGET_HIT) {
        seen.hit++
        expect(aimed.tangent).toBeLessThanOrEqual(steepest)
        continue
      }
      // no tangent up to the steepest comes as high as the target
      let best = -1
      for (let i = -4; i <= 20; i++) best = Math.max(best, shot.speed > 7 ? height((steepest * i) / 20) : -1)
      expect(best).toBeLessThan(shot.targetZ)
      if (aimed.tangent === 0) {
        seen.ice++
        expect(best).toBeLessThan(0.0127)
        continue
      }
      expect(height(aimed.tangent)).toBeGreaterThan(best - 1e-4)
      seen[aimed.answer === TARGET_TOO_STEEP ? "steep" : "far"]++
      if (aimed.answer === TARGET_TOO_STEEP) expect(aimed.tangent).toBe(steepest)
      else expect(aimed.answer).toBe(TARGET_OUT_OF_REACH)
    }
    expect(Math.min(seen.hit, seen.ice, steepest < 1 ? seen.steep : seen.far)).toBeGreaterThan(5)
  },
)

// seen to fail: the steeper root taken
test("aimAt() takes the flatter of the two ways", () => {
  const world = worldWith()
  for (const shot of shots("flat", 300)) {
    const aimed = aim(world, shot, 6)
    if (aimed.answer !== TARGET_HIT) continue
    const higher = landing(world, shot, { ...aimed, tangent: aimed.tangent + 1e-3 })
    expect(higher.z).toBeGreaterThan(shot.targetZ - 1e-5)
  }
})

// seen to fail: the height reached measured from the release
test("aimAt() is plane geometry at great speed without drag", () => {
  const world = worldWith({ [DRAG]: 0 })
  const shot = { x: 8, y: -3, z: 0.2, targetY: 0.4, targetZ: 1, speed: 1e5 }
  const aimed = aim(world, shot, 1)
  expect(aimed.tangent).toBeCloseTo(0.8 / Math.hypot(8, 3.4), 6)
  expect(aimed.azimuth).toBeCloseTo(Math.PI - Math.atan(3.4 / 8), 12)
})

// seen to fail: azimuth measured from the direction of the goal
test("aimAt() gives a shot from straight ahead at the middle an azimuth of pi", () => {
  const aimed = aim(worldWith(), { x: 10, y: 0, z: 0, targetY: 0, targetZ: 0.5, speed: 30 }, 1)
  expect(aimed.azimuth).toBeCloseTo(Math.PI, 14)
})

// seen to fail: a target under the ice aimed below the puck's half thickness
test("aimAt() aims no lower than a puck on the ice", () => {
  const world = worldWith()
  const low = aim(world, { x: 10, y: 0, z: 0, targetY: 0, targetZ: 0, speed: 30 }, 1)
  const onIce = aim(world, { x: 10, y: 0, z: 0.0127, targetY: 0, targetZ: 0.0127, speed: 30 }, 1)
  expect(low.tangent).toBe(onIce.tangent)
})
