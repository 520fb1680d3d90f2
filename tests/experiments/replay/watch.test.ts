import { describe, expect, test } from "vitest"
import { limbReach } from "../../../src/experiments/replay/limb-reach.ts"
import { type DropClock, passOf, phaseAt, shiftToClear, watchFlight } from "../../../src/experiments/replay/watch.ts"
import { buildPosture } from "../../../src/models/goalie/posture.ts"
import { worldOf } from "../../../src/models/plays/world.ts"
import { defaultSettings } from "../../../src/models/settings.ts"
import { fly } from "../../../src/sim/flight.ts"
import { limbMargin } from "../../../src/sim/limb.ts"
import { LAG, LIMB_STRIDE, LIMBS, PART_STRIDE, type Posture } from "../../../src/sim/parts.ts"
import { PATH_STRIDE, timeAt } from "../../../src/sim/path.ts"
import { STATION_LENGTH, stand } from "../../../src/sim/station.ts"
import { DRAG, GRAVITY, PUCK_HALF_THICKNESS, PUCK_RADIUS } from "../../../src/sim/world.ts"

const STILL: DropClock = { start: Infinity, takes: 0.3, last: 1 }
const BODY = buildPosture(defaultSettings())
/** No drag and no gravity: a puck flies straight. */
const WORLD = Float64Array.from(worldOf(defaultSettings()), (value, i) => (i === DRAG || i === GRAVITY ? 0 : value))
const R = WORLD[PUCK_RADIUS]!
const H = WORLD[PUCK_HALF_THICKNESS]!

/** A ball of this radius 1 m up, over the spot between the skates, that falls by 0.4 m in the drop. */
function ball(radius: number): Posture {
  const parts = new Float64Array(BODY.phases * PART_STRIDE)
  for (let k = 0; k < BODY.phases; k++) {
    const z = 1 - (0.4 * k) / (BODY.phases - 1)
    parts.set([0, 0, z, 1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, radius], k * PART_STRIDE)
  }
  return {
    ...BODY,
    count: 1,
    parts,
    region: new Uint8Array(1),
    carrier: new Uint8Array([255]),
    restitution: new Float64Array(1),
  }
}

/** A puck at 30 m/s from 10 m, level at height `z`, past a goalie 1 m out; `across` is its distance from the middle. */
function flyPast(posture: Posture, across: number, z: number, clocks: DropClock) {
  const path = new Float64Array(PATH_STRIDE)
  fly(WORLD, 10, across, z, Math.PI, 0, 30, 11, path, 0)
  const station = new Float64Array(STATION_LENGTH)
  stand(1, 10, 0, posture.halfStance, 0.9, 0.5, 0, 0, 0, 0.8, station)
  return { path, station, watch: watchFlight(posture, WORLD, () => station, path, 0, 10, clocks) }
}

describe("a watched puck", () => {
  test("passes a ball beside or above it at the distance of their middles less radius and disc, when level", () => {
    for (const [across, z, gap] of [
      [0.3, 1, 0.3 - 0.1 - R],
      [0, 1.25, 0.25 - 0.1 - H],
    ] as const) {
      const { watch, path } = flyPast(ball(0.1), across, z, STILL)
      const pass = passOf(watch, 0)
      expect(pass.clearance).toBeCloseTo(gap, 6)
      expect(pass.time).toBeCloseTo(timeAt(path, 0, 9), 6)
    }
  })

  // mutation seen red: the body at phase 0 throughout
  test("meets the ball where the drop has it then", () => {
    const level = 9 / 30
    const clocks: DropClock = { start: level - 0.15, takes: 0.3, last: 1 }
    const { watch } = flyPast(ball(0.1), 0.3, 0.8, clocks)
    // half the drop is done: the ball has fallen to the puck's height
    expect(passOf(watch, 0).clearance).toBeCloseTo(0.3 - 0.1 - R, 3)
    expect(phaseAt(clocks, level)).toBeCloseTo(0.5, 12)
    expect(phaseAt({ ...clocks, last: 0.4 }, level)).toBe(0.4)
  })

  // mutation seen red: the goalie kept in one place
  test("meets a goalie who is on the way where the way has led by then", () => {
    const { path, station } = flyPast(ball(0.1), 0.3, 1, STILL)
    const level = timeAt(path, 0, 9)
    const moving = (time: number) => station.map((value, column) => (column === 1 ? 2 * (time - level) : value))
    const watch = watchFlight(ball(0.1), WORLD, moving, path, 0, 10, STILL)
    // seen from the goalie the puck comes at a slant of 2 to 30
    expect(passOf(watch, 0).clearance).toBeCloseTo(0.3 * Math.cos(Math.atan2(2, 30)) - 0.1 - R, 4)
  })

  test("through a ball's middle clears it by the smallest of all shifts, up by radius and half thickness", () => {
    const { watch } = flyPast(ball(0.1), 0, 1, STILL)
    expect(passOf(watch, 0).clearance).toBeLessThan(0)
    expect(shiftToClear(watch, 0)).toBeCloseTo(0.1 + H, 3)
  })

  // mutation seen red: the ice let shifts through
  test("along the ice is never shifted into it", () => {
    const low = ball(0.1)
    for (let k = 0; k < low.phases; k++) low.parts[k * PART_STRIDE + 2] = H + 0.09
    // 9 cm above the puck's middle: down would be the short way
    const { watch } = flyPast(low, 0, H, STILL)
    const shift = shiftToClear(watch, 0)
    expect(shift).toBeGreaterThan(0.09)
    expect(shift).toBeLessThan(0.1 + R)
  })
})

describe("a limb's reach", () => {
  // mutations seen red: the lag left out; peak acceleration left out
  test("leaves the margin that the engine's own rule gives, at every time and gap within its reach", () => {
    const { station } = flyPast(BODY, 0, 1, STILL)
    let compared = 0
    for (const [limb, name] of LIMBS.entries())
      for (const gap of [0.02, 0.1, 0.3])
        for (const had of [0.03, 0.08, 0.2, 0.4]) {
          const handsStart = 0.05
          const time = handsStart + BODY.limbs[limb * LIMB_STRIDE + LAG]! + had
          const task = { gap, time, phase: 0, puck: [1.3, 0, 1] as const, handsStart, errorLength: 0.7 }
          const reach = limbReach(BODY, station, limb, task)
          if (reach.state !== "in reach") continue
          compared++
          expect(reach.margin, name).toBeCloseTo(limbMargin(BODY.limbs, limb * LIMB_STRIDE, gap, had, 0.7), 9)
          expect(reach.moved).toBeLessThanOrEqual(reach.wayToGo)
        }
    expect(compared).toBeGreaterThan(30)
  })

  test("says why a limb is out of the question", () => {
    const { station } = flyPast(BODY, 0, 1, STILL)
    const task = { gap: 0.1, time: 0.3, phase: 0, puck: [1.3, 0, 1] as const, handsStart: 0.1, errorLength: 1 }
    const state = (limb: (typeof LIMBS)[number], changes: object) =>
      limbReach(BODY, station, LIMBS.indexOf(limb), { ...task, ...changes }).state
    expect(state("stick", {})).toBe("in reach")
    expect(state("stick", { handsStart: 0.4 })).toBe("not started")
    expect(state("glove hand", { puck: [1.3, -0.8, 1] })).toBe("wrong side")
    expect(state("glove hand", { puck: [1.3, 3, 1] })).toBe("arm too short")
    expect(state("stick", { gap: 3 })).toBe("too far")
  })
})
