import { describe, expect, test } from "vitest"
import { branchShares } from "../../src/models/plays/branch-shares.ts"
import type { ChoiceKey, QuantityKey, Settings } from "../../src/models/settings.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import { BRANCH, STRATUM_STRIDE } from "../../src/sim/strata.ts"
import * as T from "../../src/sim/tally.ts"
import { apart, compileScene, fired, playing, saveRate, sum } from "./scenes.ts"

const CARRIER = { "play.distance": 7, "play.angle": 0.87 }
const RECEIVER = { "play.receiver_distance": 2.2, "play.receiver_angle": -1.05 }
const BACK_DOOR = { "play.kind": "back-door pass" }

type Changes = Partial<Record<QuantityKey, number>>

function backDoor(quantities: Changes = {}, choices: Partial<Record<ChoiceKey, string>> = {}): Settings {
  return playing({ ...CARRIER, ...RECEIVER, "goalie.depth": 1, ...quantities }, { ...BACK_DOOR, ...choices })
}

function twoOnOne(quantities: Changes = {}): Settings {
  return backDoor(
    { "play.receiver_distance": 5, "play.receiver_angle": -0.7, ...quantities },
    { "play.kind": "two-on-one" },
  )
}

/** How often a pose meets the second branch: the pass. */
function passShare(poses: readonly Settings[], pose: number): number {
  const { strata } = compileScene(poses)
  let share = 0
  for (let i = 0; i < strata.count; i++)
    if (strata.table[i * STRATUM_STRIDE + BRANCH] === 1) share += strata.share[pose * strata.count + i]!
  return share
}

describe("a back-door pass", () => {
  // seen to fail with the lost share on both branches, and with the receiver's place left to the carrier
  test("that never comes is the straight shot of the carrier, and that always comes is the pass across", () => {
    const never = fired(compileScene([backDoor({ "play.pass_share": 0, "play.pass_lost": 0.2 })]), 1024)
    const straight = fired(compileScene([backDoor({}, { "play.kind": "straight shot" })]), 1024)
    expect(sum(never, T.SAVED)).toBeCloseTo(sum(straight, T.SAVED), 6)
    const always = fired(compileScene([backDoor({ "play.pass_share": 1 })]), 1024)
    const across = {
      "play.distance": 2.2,
      "play.angle": -1.05,
      "play.pass_from_distance": 7,
      "play.pass_from_angle": 0.87,
    }
    const choices = { "play.kind": "cross-ice pass", "shooter.shot": "one-timer" }
    const passed = fired(compileScene([backDoor(across, choices)]), 1024)
    expect(sum(always, T.SAVED)).toBe(sum(passed, T.SAVED))
    expect(sum(always, T.NOT_SET)).toBe(sum(passed, T.NOT_SET))
  })

  // seen to fail with the share of the first pose given to all
  test("scores in proportion to how often the pass comes, on the same shots", () => {
    const shares = [0, 0.25, 1]
    const tallies = fired(compileScene(shares.map((share) => backDoor({ "play.pass_share": share }))), 2048)
    const goals = shares.map((_, pose) => sum(tallies, T.ON_GOAL_SUM, pose) - sum(tallies, T.SAVED, pose))
    expect(goals[2]).toBeGreaterThan(2 * goals[0]!)
    expect(goals[1]).toBeCloseTo(0.75 * goals[0]! + 0.25 * goals[2]!, 5)
  })

  // seed KEY, n = 2,048 an arm, |z| < 4; seen to fail with the receiver on the same side whatever the sign of the angle
  test("is saved alike in a mirror, by a goalie who cheats and catches with the other hand", () => {
    const here = backDoor({ "goalie.cheat": 0.2 }, { "goalie.catches": "left" })
    const there = backDoor(
      { "goalie.cheat": 0.2, "play.angle": -0.87, "play.receiver_angle": 1.05 },
      { "goalie.catches": "right" },
    )
    const [a, b] = [here, there].map((settings) => saveRate(fired(compileScene([settings]), 2048)))
    expect(apart(a!, b!)).toBeLessThan(4)
  })

  // seed KEY, n = 4,096, four standard errors; seen to fail with the cheat turned round
  test("is saved more often by a goalie who cheats to it, and the shot less often", () => {
    const rate = (share: number, cheat: number) =>
      saveRate(fired(compileScene([backDoor({ "play.pass_share": share, "goalie.cheat": cheat })]), 4096))
    const [heldPass, cheatedPass] = [rate(1, 0), rate(1, 0.25)]
    const [heldShot, cheatedShot] = [rate(0, 0), rate(0, 0.25)]
    expect((cheatedPass.mean - heldPass.mean) / Math.hypot(cheatedPass.se, heldPass.se)).toBeGreaterThan(4)
    expect((heldShot.mean - cheatedShot.mean) / Math.hypot(heldShot.se, cheatedShot.se)).toBeGreaterThan(4)
  })
})

describe("a two-on-one", () => {
  // seed KEY, n = 8,192, |z| < 4 of a share; seen to fail with the defender wholly on the pass
  test("loses passes and has shots blocked as often as the defender's place says", () => {
    const defender = { "play.defender_on_pass": 0.5, "play.defender_cuts_off": 0.8, "play.defender_blocks": 0.2 }
    const tallies = fired(
      compileScene([twoOnOne({ ...defender, "play.pass_share": 0.3, "play.pass_lost": 0.1 })]),
      8192,
    )
    const shares = [
      [T.BLOCKED_SUM, 0.7 * 0.1],
      [T.NO_SHOT_SUM, 0.3 * (1 - 0.6 * 0.9)],
    ] as const
    for (const [column, expected] of shares) {
      const found = sum(tallies, column) / sum(tallies, T.SHOTS_COUNTED)
      expect(Math.abs(found - expected) / Math.sqrt((expected * (1 - expected)) / 8192)).toBeLessThan(4)
    }
  })

  // seed KEY, n = 1,024 an arm, |z| < 4; seen to fail with the referee's goalie 0.4 s behind
  test("the plain referee and the conditional estimator agree on carry, pass and cheat", () => {
    const scene = compileScene([twoOnOne({ "goalie.cheat": 0.3, "goalie.depth": 1.4 })])
    const [a, b] = [saveRate(fired(scene, 1024)), saveRate(fired(scene, 1024, decidePlain))]
    expect(apart(a, b)).toBeLessThan(4)
  })
})

describe("a carrier who chooses", () => {
  const never = (): never => {
    throw new Error("Cannot ask what is promised as nobody chooses")
  }

  // seen to fail with the promises asked before the skill
  test("is with skill 0 the blind carrier bit for bit, and promises are not asked", () => {
    const poses = [0.6, 1.4].map((depth) => backDoor({ "goalie.depth": depth, "play.pass_share": 0.3 }))
    expect([...branchShares(poses, never)]).toEqual([0.7, 0.3, 0.7, 0.3])
    const other = poses.map((pose) => ({
      ...pose,
      quantities: { ...pose.quantities, "shooter.choice_temperature": 0.5 },
    }))
    expect(compileScene(other).strata.share).toEqual(compileScene(poses).strata.share)
  })

  // seen to fail with the shares of the first pose given to all
  test("has skill of its own against each pose", () => {
    const poses = [0, 0.5, 1].map((skill) => backDoor({ "shooter.choice_skill": skill, "play.pass_share": 0.2 }))
    const shares = branchShares(poses, () => poses.map(() => [0.1, 0.9]))
    const chosen = 1 / (1 + Math.exp(-0.8 / 0.05))
    for (const [pose, skill] of [0, 0.5, 1].entries())
      expect(shares[2 * pose + 1]).toBeCloseTo(skill * chosen + (1 - skill) * 0.2, 12)
  })

  // seen to fail with what a pass promises taken before the goalie has gone across
  test("passes more often the farther out the goalie stands, and less often when the pass is lost or met", () => {
    const skill = { "shooter.choice_skill": 1, "shooter.choice_temperature": 0.2 }
    const depths = [0, 0.4, 0.8, 1.2].map((depth) => twoOnOne({ ...skill, "goalie.depth": depth }))
    const shares = depths.map((_, pose) => passShare(depths, pose))
    for (let i = 1; i < shares.length; i++) expect(shares[i]).toBeGreaterThan(shares[i - 1]!)
    const plain = twoOnOne({ ...skill, "goalie.depth": 1.6 })
    const lost = twoOnOne({ ...skill, "goalie.depth": 1.6, "play.pass_lost": 0.6 })
    const met = twoOnOne({ ...skill, "goalie.depth": 1.6, "goalie.cheat": 0.4 })
    expect(passShare([lost], 0)).toBeLessThan(passShare([plain], 0))
    expect(passShare([met], 0)).toBeLessThan(passShare([plain], 0))
  })
})
