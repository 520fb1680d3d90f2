import { describe, expect, test } from "vitest"
import type { Settings } from "../../src/models/settings.ts"
import { standForShot } from "../../src/sim/answer.ts"
import { decideConditional, emptyOutcome } from "../../src/sim/conditional.ts"
import { isOnGoal } from "../../src/sim/fate.ts"
import { DOWN_FOR, OPEN_LEVEL } from "../../src/sim/motion/opening.ts"
import { PATH_STRIDE } from "../../src/sim/path.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import { engine } from "../../src/sim/sampling.ts"
import { makeShots } from "../../src/sim/shots.ts"
import * as T from "../../src/sim/tally.ts"
import { apart, compileScene, fired, KEY, playing, saveRate, sum } from "./scenes.ts"

const PLACES = {
  "play.distance": 8.8,
  "play.angle": 0.82,
  "play.pass_from_distance": 8.8,
  "play.pass_from_angle": -0.82,
  "goalie.depth": 1.3,
}
const PASS = { "play.kind": "cross-ice pass", "shooter.shot": "one-timer" }
const MODES = ["shuffle", "t_push", "slide", "glide", "telescope", "turn"] as const
/** Nothing opens, whatever the way of moving. */
const CLOSED = Object.fromEntries(
  MODES.flatMap((mode) => ["legs", "hands", "blade", "lean"].map((part) => [`movement.${mode}_${part}`, 0])),
)

function pass(quantities: Parameters<typeof playing>[0], choices: Parameters<typeof playing>[1] = {}): Settings {
  return playing({ ...PLACES, ...quantities }, { ...PASS, ...choices })
}

/** Every sum of one pose. */
function sums(settings: Settings, shots: number): Float64Array[] {
  return fired(compileScene([settings]), shots).map((tally) => tally.sums)
}

describe("a goalie caught on the way", () => {
  // seen to fail: with the axes of an unopened part made upright again, and with one record left at its default
  test("whom no movement opens is met as one who stays set, to the last bit", () => {
    expect(sums(pass(CLOSED), 512)).toEqual(sums(pass({}, { "movement.stance": "stays set" }), 512))
  })

  // the records reach the body: seen to fail with the level always none
  test.each(["t_push_legs", "t_push_hands", "t_push_blade", "t_push_lean"])(
    "is another body with movement.%s",
    (key) => {
      const wide = sums(pass({ ...CLOSED, [`movement.${key}`]: 0.2 }), 256)
      expect(wide).not.toEqual(sums(pass(CLOSED), 256))
    },
  )

  // seed KEY, n = 4,096 on the same shots against a frozen goalie, shooters blind: each step costs two points or so, where
  // the standard error of one rate is 0.5 and of a difference less; seen to fail: with the legs closed instead of opened
  test("is beaten the more, limbs frozen, the further the legs go apart", () => {
    const blind = { ...CLOSED, "shooter.reading": 0 }
    const widths = [0, 0.12, 0.24]
    const poses = widths.map((legs) => pass({ ...blind, "movement.t_push_legs": legs }, { "goalie.answer": "frozen" }))
    const tallies = fired(compileScene(poses), 4096)
    const rates = widths.map((_, pose) => saveRate(tallies, pose).mean)
    for (let i = 1; i < rates.length; i++) expect(rates[i]).toBeLessThan(rates[i - 1]! - 0.005)
  })

  // seen to fail: with a slide that is never risen from
  test.each(["T-push", "shuffle", "butterfly slide"])(
    "with time without end is set and meets the straight shot: %s",
    (mode) => {
      const slow = { "play.receive_time": 4, "play.receive_spread": 0, "play.pass_speed_spread": 0 }
      const exact = {
        "goalie.depth_error": 0,
        "goalie.off_line_error": 0,
        "goalie.angle_error": 0,
        "goalie.turn_error": 0,
      }
      const passed = fired(compileScene([pass({ ...slow, ...exact }, { "movement.across": mode })]), 1024)
      const straight = fired(compileScene([pass({ ...slow, ...exact }, { "play.kind": "straight shot" })]), 1024)
      expect(sum(passed, T.SAVED)).toBeCloseTo(sum(straight, T.SAVED), 5)
      expect(sum(passed, T.STOOD)).toBe(sum(straight, T.STOOD))
    },
  )
})

describe("a goalie in a butterfly slide", () => {
  const slides = (quantities: Parameters<typeof playing>[0] = {}): Settings =>
    pass(quantities, { "movement.across": "butterfly slide" })

  // seen to fail: with the drop left to the reaction
  test("is going down before the shot, most often fully opened", () => {
    const scene = compileScene([slides()])
    const { goalkeeping: g, batch } = engine(scene, 256)
    makeShots(scene, KEY, 0, 0, 256, batch)
    let [shots, down, whole] = [0, 0, 0]
    for (let i = 0; i < 256; i++) {
      if (!isOnGoal(batch.fate[i]!)) continue
      standForShot(g, scene.poses[0]!, batch, i)
      decideConditional(g, scene.poses[0]!, batch, i, i * PATH_STRIDE, emptyOutcome())
      expect(g.now.blockLead).toBe(g.moves.opening[DOWN_FOR])
      shots++
      if (g.moves.opening[DOWN_FOR]! >= 0) down++
      if (g.moves.opening[OPEN_LEVEL]! === 8) whole++
    }
    expect(shots).toBeGreaterThan(120)
    expect(down).toBe(shots)
    expect(whole).toBeGreaterThan(0.5 * shots)
  })

  // seed KEY, n = 2,048, shooters blind, the same shots; seen to fail: with the slide as sealed as the butterfly
  test("lets more through the wider the knees come apart", () => {
    const blind = { ...CLOSED, "shooter.reading": 0, "goalie.depth": 0.8 }
    const widths = [0, 0.1, 0.2]
    const tallies = fired(compileScene(widths.map((legs) => slides({ ...blind, "movement.slide_legs": legs }))), 2048)
    const rates = widths.map((_, pose) => saveRate(tallies, pose).mean)
    for (let i = 1; i < rates.length; i++) expect(rates[i]).toBeLessThan(rates[i - 1]! - 0.002)
  })
})

// seed KEY, n = 2,048, |z| < 4 on independent errors though the shots are shared: false alarms under 1 in 16,000. The body
// frozen as it is has no chance in it: the two ways part on fewer than 3 shots in 1,000, as with a goalie who is set (on 3 of
// 1,225 for the T-push, which pass the body by less than 0.03 mm: the engine meets it as it moves when level with the puck).
// Seen to fail: with the referee's body left as set, and with the slide's drop begun at the release in the referee
test.each(["T-push", "butterfly slide"])(
  "the referee finds the body of a goalie on the way as the engine does: %s",
  (mode) => {
    const scene = compileScene([pass({ "movement.t_push_legs": 0.25 }, { "movement.across": mode })])
    const conditional = fired(scene, 2048)
    const plain = fired(scene, 2048, decidePlain)
    expect(apart(saveRate(conditional), saveRate(plain))).toBeLessThan(4)
    const stood = Math.abs(sum(conditional, T.STOOD) - sum(plain, T.STOOD))
    expect(stood / sum(plain, T.ON_GOAL_SUM)).toBeLessThan(0.003)
  },
)

// n = 512 shots of seed KEY: each is decided by body and reaction alike, so that a wrong body shows shot by shot;
// seen to fail: with the engine's body at no level of its opening
test("shot by shot the standing body of referee and engine is the same on the way", () => {
  const scene = compileScene([pass({})])
  const { goalkeeping: g, batch } = engine(scene, 256)
  const [fast, slow] = [emptyOutcome(), emptyOutcome()]
  let [shots, differ] = [0, 0]
  for (const first of [0, 256]) {
    makeShots(scene, KEY, 0, first, 256, batch)
    for (let i = 0; i < 256; i++) {
      if (!isOnGoal(batch.fate[i]!)) continue
      standForShot(g, scene.poses[0]!, batch, i)
      decideConditional(g, scene.poses[0]!, batch, i, i * PATH_STRIDE, fast)
      standForShot(g, scene.poses[0]!, batch, i)
      decidePlain(g, scene.poses[0]!, batch, i, i * PATH_STRIDE, slow)
      shots++
      if (fast.stood !== slow.stood) differ++
    }
  }
  expect(shots).toBeGreaterThan(300)
  expect(differ / shots).toBeLessThan(0.01)
})
