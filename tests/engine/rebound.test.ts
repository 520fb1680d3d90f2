import { describe, expect, test } from "vitest"
import type { ChoiceKey, QuantityKey, Settings } from "../../src/models/settings.ts"
import { preparedNow, standForShot } from "../../src/sim/answer.ts"
import { decideConditional, emptyOutcome } from "../../src/sim/conditional.ts"
import { isOnGoal } from "../../src/sim/fate.ts"
import { OPEN_LEVEL } from "../../src/sim/motion/opening.ts"
import { CENTRE, PART_STRIDE } from "../../src/sim/parts.ts"
import { PATH_STRIDE } from "../../src/sim/path.ts"
import { followSave } from "../../src/sim/rebound/follow.ts"
import { AGAIN_DOWN } from "../../src/sim/rebound/rebound-table.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import { engine } from "../../src/sim/sampling.ts"
import { makeShots } from "../../src/sim/shots.ts"
import { steppedBody } from "../../src/sim/stepped-opening.ts"
import * as T from "../../src/sim/tally.ts"
import { apart, compileScene, fired, KEY, playing, saveRate, sum } from "./scenes.ts"

type Numbers = Partial<Record<QuantityKey, number>>

function played(quantities: Numbers, choices: Partial<Record<ChoiceKey, string>> = {}): Settings {
  return playing({ "play.distance": 6, ...quantities }, { "play.rebounds": "played", ...choices })
}

const HOLDS: readonly QuantityKey[] = [
  "goalie.holds_in_glove",
  "goalie.holds_at_body",
  "goalie.holds_in_arms",
  "goalie.holds_at_pads",
  "goalie.holds_at_blocker",
  "goalie.holds_elsewhere",
]

describe("a rebound", () => {
  // seen to fail with second shots counted among the first
  test("changes nothing of the first shot", () => {
    const none = fired(compileScene([played({}, { "play.rebounds": "none" })]), 512)
    const some = fired(compileScene([played({})]), 512)
    for (let column = 0; column < T.TALLY_STRIDE; column++)
      if (column < T.LOOSE || column >= T.BY_REGION) expect(sum(some, column)).toBe(sum(none, column))
    expect(sum(none, T.LOOSE)).toBe(0)
    expect(sum(some, T.SECOND_SHOTS)).toBeGreaterThan(20)
  })

  // seen to fail with defenders who shoot
  test("comes of no save that is held, and none is shot where no attacker is near", () => {
    const held = fired(compileScene([played(Object.fromEntries(HOLDS.map((key) => [key, 1])))]), 512)
    expect(sum(held, T.LOOSE)).toBe(0)
    const alone = fired(compileScene([played({ "play.rebound_attackers": 0 })]), 512)
    expect(sum(alone, T.LOOSE)).toBeGreaterThan(0)
    expect(sum(alone, T.SECOND_SHOTS)).toBe(0)
  })

  // seed KEY, n = 2,048 an arm, |z| < 4 on independent errors though the shots are shared: false alarms under 1 in 16,000;
  // seen to fail with
  // all saves taken for reactions, and with held pucks let go by the conditional way
  test.each([
    ["5 m, where most are blocked", 5, {}],
    ["12 m, where most are reacted to", 12, {}],
    ["a cross-ice pass", 8, { "play.kind": "cross-ice pass", "shooter.shot": "one-timer" }],
  ] as const)(
    "is as frequent and as costly with the plain referee as with the conditional way: %s",
    (_, distance, choices) => {
      const scene = compileScene([played({ "play.distance": distance }, choices)])
      const conditional = fired(scene, 2048)
      const plain = fired(scene, 2048, decidePlain)
      for (const [above, below] of [
        [T.LOOSE, T.SAVED],
        [T.SECOND_SHOTS, T.SAVED],
        [T.SECOND_SAVED, T.SECOND_ON_GOAL],
      ] as const) {
        const a = saveRate(conditional, 0, above, below)
        const b = saveRate(plain, 0, above, below)
        expect(apart(a, b), `column ${above}`).toBeLessThan(4)
      }
    },
  )

  // middles of all parts, 1e-9 m, over the second shots of 512; seen to fail with a goalie who has stayed down closed in the
  // time that another way of moving takes to be set
  test("is met by the body that the plain referee finds by stepping, by who stayed down and by who stood up", () => {
    const scene = compileScene([played({})])
    const pose = scene.poses[0]!
    const { goalkeeping: g, batch, rebounds } = engine(scene, 256)
    const r = rebounds!
    const [outcome, met] = [emptyOutcome(), { down: 0, up: 0, opened: 0 }]
    for (const first of [0, 256]) {
      makeShots(scene, KEY, 0, first, 256, batch)
      for (let i = 0; i < 256; i++) {
        if (!isOnGoal(batch.fate[i]!)) continue
        standForShot(g, pose, batch, i)
        decideConditional(g, pose, batch, i, i * PATH_STRIDE, outcome)
        followSave(g, r, pose, batch, i, decideConditional, outcome)
        if (Number.isNaN(r.delay)) continue
        const { parts } = preparedNow(g, pose).posture
        steppedBody(g, pose, r.second).parts.forEach((number, at) => {
          if (at % PART_STRIDE < CENTRE + 3) expect(parts[at]).toBeCloseTo(number, 9)
        })
        if (r.second.again[AGAIN_DOWN] === 1) met.down++
        else met.up++
        if (g.moves.opening[OPEN_LEVEL]! > 0) met.opened++
      }
    }
    expect(met.down).toBeGreaterThan(50)
    expect(met.up).toBeGreaterThan(10)
    expect(met.opened).toBeGreaterThan(50)
  })

  // seed KEY, n = 4,096 on the same shots, four standard errors; seen to fail with every region held alike
  test("is left more often by gear that gives the puck back than by a glove that holds it", () => {
    const scene = compileScene([played({}), played({ "goalie.holds_in_glove": 0.2, "goalie.holds_at_body": 0.1 })])
    const tallies = fired(scene, 4096)
    const soft = saveRate(tallies, 0, T.LOOSE, T.SAVED)
    const hard = saveRate(tallies, 1, T.LOOSE, T.SAVED)
    expect(hard.mean - soft.mean).toBeGreaterThan(4 * Math.hypot(soft.se, hard.se))
  })

  // seed KEY, n = 2,048 an arm; seen to fail with all players on one side of the ice
  test("is the same in a mirror", () => {
    const a = fired(compileScene([played({ "play.angle": 0.5 })]), 2048)
    const b = fired(compileScene([played({ "play.angle": -0.5 }, { "goalie.catches": "right" })]), 2048)
    const left = saveRate(a, 0, T.SECOND_SHOTS, T.SAVED)
    const right = saveRate(b, 0, T.SECOND_SHOTS, T.SAVED)
    expect(apart(left, right)).toBeLessThan(4)
  })
})
