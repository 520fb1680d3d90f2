import { describe, expect, test } from "vitest"
import type { Settings } from "../../src/models/settings.ts"
import { answerShot, standForShot } from "../../src/sim/answer.ts"
import { isOnGoal } from "../../src/sim/fate.ts"
import { PATH_STRIDE } from "../../src/sim/path.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import { engine } from "../../src/sim/sampling.ts"
import { makeShots } from "../../src/sim/shots.ts"
import * as T from "../../src/sim/tally.ts"
import { apart, compileScene, EXACT, fired, KEY, playing, saveRate, sum } from "./scenes.ts"

const PLACES = {
  "play.distance": 8.8,
  "play.angle": 0.82,
  "play.pass_from_distance": 8.8,
  "play.pass_from_angle": -0.82,
}
const PASS = { "play.kind": "cross-ice pass", "shooter.shot": "one-timer" }

function pass(quantities: Parameters<typeof playing>[0], choices: Parameters<typeof playing>[1] = {}): Settings {
  return playing({ ...PLACES, ...quantities }, { ...PASS, ...choices })
}

describe("a cross-ice pass", () => {
  // seen to fail with the way to be set left out of the plan, and with the penalty of an unset goalie always on
  test("with time without end equals the straight shot from the receiver", () => {
    const slow = { "goalie.depth": 1.2, "play.receive_time": 3, "play.receive_spread": 0, "play.pass_speed_spread": 0 }
    const passed = fired(compileScene([pass({ ...slow, ...EXACT })]), 1024)
    const straight = fired(compileScene([pass({ ...slow, ...EXACT }, { "play.kind": "straight shot" })]), 1024)
    expect(sum(passed, T.NOT_SET)).toBe(0)
    expect(sum(passed, T.SAVED)).toBeCloseTo(sum(straight, T.SAVED), 5)
    expect(sum(passed, T.STOOD)).toBe(sum(straight, T.STOOD))
  })

  test("leaves a goalie who cannot push where they were", () => {
    const still = {
      "movement.t_push_start": 2,
      "movement.shuffle_start": 2,
      "movement.slide_start": 2,
      "movement.telescope_start": 2,
      "movement.glide_start": 2,
    }
    const tallies = fired(compileScene([pass({ "goalie.depth": 1.5, ...still })]), 512)
    expect(sum(tallies, T.TRAVEL_SUM)).toBe(0)
  })

  // seed KEY, n = 2,048 an arm, |z| < 4 on independent errors though the shots are shared: false alarms under 1 in 16,000;
  // seen to fail with the goalie's turn left out of the frame and with the puck level with where the goalie was
  test("the plain referee and the conditional estimator agree while the goalie moves and turns", () => {
    const scene = compileScene([0.6, 1.6].map((depth) => pass({ "goalie.depth": depth })))
    const conditional = fired(scene, 2048)
    const plain = fired(scene, 2048, decidePlain)
    for (const pose of [0, 1]) {
      const a = saveRate(conditional, pose)
      const b = saveRate(plain, pose)
      expect(apart(a, b)).toBeLessThan(4)
      // the standing body has no chance in it: both ways must agree nearly shot for shot
      const stood = Math.abs(sum(conditional, T.STOOD, pose) - sum(plain, T.STOOD, pose))
      expect(stood / sum(plain, T.ON_GOAL_SUM, pose)).toBeLessThan(0.003)
    }
  })

  // seed KEY, n = 4,096 on the same shots; four standard errors of the larger arm
  test("costs more the farther out the goalie stands, as a slope and not as a cliff", () => {
    const depths = [0.8, 1.1, 1.4, 1.7, 2, 2.3]
    const tallies = fired(compileScene(depths.map((depth) => pass({ "goalie.depth": depth }))), 4096)
    const rates = depths.map((_, pose) => saveRate(tallies, pose))
    expect(rates[0]!.mean - rates[5]!.mean).toBeGreaterThan(0.2)
    for (let i = 2; i < depths.length; i++) {
      expect(rates[i - 1]!.mean - rates[i]!.mean).toBeGreaterThan(0)
      expect(rates[i - 1]!.mean - rates[i]!.mean).toBeLessThan(0.25)
    }
  })

  // seen to fail: with the longest lead whatever has been read, and with one that is cut for a pass read long ago
  test("is answered by no block before it has been read, and by the longest lead once it has been long enough", () => {
    const leads = (quantities: Parameters<typeof playing>[0]) => {
      const scene = compileScene([pass(quantities, { "goalie.answer": "block" })])
      const { goalkeeping: g, batch } = engine(scene, 256)
      makeShots(scene, KEY, 0, 0, 256, batch)
      return Array.from({ length: 256 }, (_, i) => i).flatMap((i) => {
        if (!isOnGoal(batch.fate[i]!)) return []
        standForShot(g, scene.poses[0]!, batch, i)
        answerShot(g, scene.poses[0]!, batch, i, i * PATH_STRIDE)
        return [{ longest: g.now.longestLead, lead: g.now.blockLead, read: g.moves.readAt }]
      })
    }
    const longestOfAll = playing({}).quantities["goalie.block_lead"]
    const quick = leads({ "play.pass_from_distance": 9, "play.pass_from_angle": 0.5, "play.pass_speed": 25 })
    expect(quick.filter(({ read }) => read > -0.3).length).toBeGreaterThan(100)
    expect(quick.filter(({ read }) => read < 0).length).toBeGreaterThan(50)
    for (const { longest, lead, read } of quick) {
      expect(longest).toBe(read > 0 ? 0 : Math.min(longestOfAll, -read))
      expect(-lead).toBeGreaterThanOrEqual(Math.min(0, read))
    }
    for (const { longest } of leads({ "play.pass_speed": 8 })) expect(longest).toBe(longestOfAll)
  })

  test("is easier for a quicker push: more set in time, more saved", () => {
    const quick = pass({ "goalie.depth": 1.6, "movement.t_push_acceleration": 10, "movement.t_push_speed": 4 })
    const slow = pass({ "goalie.depth": 1.6, "movement.t_push_acceleration": 5, "movement.t_push_speed": 2 })
    const tallies = fired(compileScene([quick, slow]), 2048)
    expect(saveRate(tallies, 0).mean).toBeGreaterThan(saveRate(tallies, 1).mean + 0.02)
    expect(sum(tallies, T.MARGIN_SUM, 0)).toBeGreaterThan(sum(tallies, T.MARGIN_SUM, 1))
  })
})
