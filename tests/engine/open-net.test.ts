import { describe, expect, test } from "vitest"
import { boxOfPlay } from "../../src/models/positioning/box-of.ts"
import type { Settings } from "../../src/models/settings.ts"
import { goalkeeping } from "../../src/sim/answer.ts"
import { placeBody } from "../../src/sim/box/placed.ts"
import { STATE_HEADING, STATE_X, STATE_Y, stateAt } from "../../src/sim/motion/timeline.ts"
import { bodyInMotion } from "../../src/sim/moving-body.ts"
import { measureOpenNet, onTheWay, openNet, openShareAt } from "../../src/sim/open-net.ts"
import { AXIS_0, CENTRE, HALF_SIZE, PART_STRIDE, type Posture, ROUNDING } from "../../src/sim/parts.ts"
import { puckAt } from "../../src/sim/play/puck-at.ts"
import type { Scene } from "../../src/sim/pose.ts"
import { makeShots, shotBatch } from "../../src/sim/shots.ts"
import { STATION_COS, STATION_SIN, STATION_X, STATION_Y } from "../../src/sim/station.ts"
import { steppedBody } from "../../src/sim/stepped-opening.ts"
import { MOUTH_HALF_WIDTH, MOUTH_HEIGHT } from "../../src/sim/world.ts"
import { seeded } from "../sim/bodies.ts"
import { compileScene, EXACT, KEY, playing } from "./scenes.ts"

const PLACES = {
  "play.distance": 8.8,
  "play.angle": 0.82,
  "play.pass_from_distance": 8.8,
  "play.pass_from_angle": -0.82,
  "goalie.depth": 1.2,
}

function pass(quantities: Parameters<typeof playing>[0] = {}, choices: Parameters<typeof playing>[1] = {}): Settings {
  return playing(
    { ...PLACES, ...quantities },
    { "play.kind": "cross-ice pass", "shooter.shot": "one-timer", ...choices },
  )
}

/** Some shots of a scene, and its only goalie. */
function facing(scene: Scene, count = 16) {
  const batch = shotBatch(scene, count)
  makeShots(scene, KEY, 0, 0, count, batch)
  return { g: goalkeeping(scene), batch, pose: scene.poses[0]! }
}

/** The open net of each of some shots. */
function measured(scene: Scene, count = 16) {
  const { g, batch, pose } = facing(scene, count)
  return Array.from({ length: count }, (_, i) => {
    const out = openNet()
    expect(measureOpenNet(g, pose, batch, i, out)).toBe(true)
    return out
  })
}

describe("the open net during a move", () => {
  // a pass that goes nowhere: neither puck nor goalie moves; seen to fail with the trapezium's ends counted whole
  test("is one share all the while where nothing moves, that of the box, and adds up to share times time", () => {
    const still = { ...EXACT, "play.pass_from_angle": 0.82, "shooter.release_height": 0.02 }
    const closed = 1 - boxOfPlay(pass(still, { "play.kind": "straight shot" })).net_covered
    for (const { atRelease, most, time, lasts } of measured(compileScene([pass(still)]))) {
      expect(lasts).toBeGreaterThan(0.05)
      expect(most).toBeCloseTo(atRelease, 12)
      expect(time).toBeCloseTo(atRelease * lasts, 12)
      expect(Math.abs(atRelease - closed)).toBeLessThan(0.01)
    }
  })

  // seen to fail with the body of an absent goalie left in
  test("is all of the mouth with nobody in it, for as long as the move takes", () => {
    for (const { atRelease, most, time, lasts } of measured(compileScene([pass({}, { "play.goalie": "none" })]))) {
      expect([atRelease, most]).toEqual([1, 1])
      expect(time).toBeCloseTo(lasts, 12)
    }
  })

  // seen to fail with the puck's y taken without its sign
  test("of a mirrored play before a goalie who catches with the other hand is the same to 1e-9", () => {
    const scene = compileScene([pass(EXACT)])
    const turned = { ...EXACT, "play.angle": -0.82, "play.pass_from_angle": 0.82 }
    const other = compileScene([pass(turned, { "goalie.catches": "right" })])
    const [a, b] = [measured(scene), measured(other)]
    a.forEach((one, i) => {
      expect(b[i]!.atRelease).toBeCloseTo(one.atRelease, 9)
      expect(b[i]!.most).toBeCloseTo(one.most, 9)
      expect(b[i]!.time).toBeCloseTo(one.time, 9)
    })
  })

  // seen to fail with the goalie left where the pass found them
  test("with time without end is at the release that of a goalie in place for the straight shot", () => {
    const slow = { ...EXACT, "play.receive_time": 3, "play.receive_spread": 0, "shooter.release_height": 0.02 }
    const closed = 1 - boxOfPlay(pass(slow, { "play.kind": "straight shot" })).net_covered
    for (const { atRelease, most } of measured(compileScene([pass(slow)]))) {
      expect(Math.abs(atRelease - closed)).toBeLessThan(0.01)
      expect(most).toBeGreaterThan(atRelease + 0.05)
    }
  })

  // seen to fail with a play without legs looked at like any other
  test("is nothing for a straight shot, before which nothing moves", () => {
    const { g, batch, pose } = facing(compileScene([pass({}, { "play.kind": "straight shot" })]))
    expect(onTheWay(g, pose, batch, 0)).toBeNull()
  })
})

// middles of all parts, 1e-9 m, at the release of 16 shots; seen to fail with the body taken as set
test("the body in motion is at the release the one that the plain referee finds by stepping", () => {
  const { g, batch, pose } = facing(compileScene([pass({ "goalie.depth": 1.6 })]))
  let opened = 0
  for (let i = 0; i < batch.count; i++) {
    onTheWay(g, pose, batch, i)
    const stepped = steppedBody(g, pose, batch)
    const [x, y, c, s] = [STATION_X, STATION_Y, STATION_COS, STATION_SIN].map((column) => g.station[column]!)
    const found = bodyInMotion(g, pose, 0)
    const expected = placeBody(stepped, 0, x!, y!, Math.atan2(s!, c!))
    for (let part = 0; part < found.count; part++)
      for (let axis = 0; axis < 3; axis++) {
        const at = part * PART_STRIDE + CENTRE + axis
        expect(found.parts[at]).toBeCloseTo(expected.parts[at]!, 9)
        if (Math.abs(stepped.parts[at]! - g.scene.postures[0]!.parts[at]!) > 0.005) opened++
      }
  }
  expect(opened).toBeGreaterThan(100)
})

// Rays at random places of the mouth, marched a centimetre at a time through every part: seed in the text, 600 rays at
// each of 6 instants, share known to 0.021 (one standard error), |z| < 4 beside the rows' own 0.01. Seen to fail with the
// goalie's heading left out of the body.
// The first scene's goalie keeps the stance on the way; that of the second opens, and the referee's own body is asked at the release.
test.each([
  ["keeps the stance", "stays set", [0.9, 0.4, 0]],
  ["opens on the way", "opens", [0]],
] as const)("the open share agrees with sampled rays on a goalie who turns, moves and %s", (_, stance, instants) => {
  const scene = compileScene([pass({}, { "movement.stance": stance })])
  const { g, batch, pose } = facing(scene, 4)
  const random = seeded("rays past a moving goalie")
  const half = scene.world[MOUTH_HALF_WIDTH]!
  const height = scene.world[MOUTH_HEIGHT]!
  let widest = 0
  for (const i of [0, 3]) {
    const way = onTheWay(g, pose, batch, i)!
    for (const t of instants.map((share) => share * way.lastLeg)) {
      const share = openShareAt(g, pose, way, t)
      const puck = new Float64Array(2)
      puckAt(scene.world, scene.play, way.shot, t, puck)
      const posture = stance === "opens" ? steppedBody(g, pose, batch) : scene.postures[0]!
      const state = new Float64Array(8)
      stateAt(g.moves.timeline, t, state)
      let open = 0
      for (let n = 0; n < RAYS; n++) {
        const target = [0, half * (2 * random() - 1), height * random()]
        if (!meets(posture, state, [puck[0]!, puck[1]!, way.height], target)) open++
      }
      widest = Math.max(widest, share)
      expect(Math.abs(open / RAYS - share), `shot ${i} at ${t} s`).toBeLessThan(4 * 0.021 + 0.01)
    }
  }
  expect(widest).toBeGreaterThan(0.4)
})

const RAYS = 600
const MARCH = 0.01

/** Whether a ray from the puck to a place of the mouth goes through the standing body, found a step at a time. */
function meets(posture: Posture, state: Float64Array, from: readonly number[], to: readonly number[]): boolean {
  const c = Math.cos(state[STATE_HEADING]!)
  const s = Math.sin(state[STATE_HEADING]!)
  const length = Math.hypot(...from.map((value, axis) => to[axis]! - value))
  // only the last metres can be near the goalie
  for (let gone = Math.max(0, length - 3.5); gone < length; gone += MARCH) {
    const [x, y, z] = from.map((value, axis) => value + (gone / length) * (to[axis]! - value)) as [
      number,
      number,
      number,
    ]
    const [dx, dy] = [x - state[STATE_X]!, y - state[STATE_Y]!]
    // no part of a standing goalie is so far out
    if (Math.hypot(dx, dy) > 1.2) continue
    const place = [c * dx + s * dy, -s * dx + c * dy, z]
    for (let part = 0; part < posture.count; part++) if (isInside(posture.parts, part * PART_STRIDE, place)) return true
  }
  return false
}

/** Whether a place of the goalie's frame lies within a rounded box: no farther than its rounding from the core. */
function isInside(parts: Float64Array, at: number, place: readonly number[]): boolean {
  const away = [0, 1, 2].map((axis) => {
    const along = place.reduce(
      (sum, value, i) => sum + (value - parts[at + CENTRE + i]!) * parts[at + AXIS_0 + 3 * axis + i]!,
      0,
    )
    return Math.max(0, Math.abs(along) - parts[at + HALF_SIZE + axis]!)
  })
  return Math.hypot(...away) <= parts[at + ROUNDING]!
}
