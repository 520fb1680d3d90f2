import { describe, expect, test } from "vitest"
import { readExperiment } from "../../src/experiments/read/read-experiment.ts"
import { assumedKeys, assumptionSets } from "../../src/experiments/run/assumptions.ts"
import { seedKey } from "../../src/experiments/seed.ts"
import { branchShares, rungShare } from "../../src/models/plays/branch-shares.ts"
import { branchesOf } from "../../src/models/plays/branches.ts"
import { usualCourses } from "../../src/models/plays/usual-course.ts"
import { type Settings, withSettings } from "../../src/models/settings.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import { engine, fireBatches } from "../../src/sim/sampling.ts"
import * as T from "../../src/sim/tally.ts"
import { apart, compileScene, EXACT, fired, playing, saveRate, sum } from "./scenes.ts"

const PLACES = { "play.distance": 5.5, "goalie.depth": 0.6, "goalie.leaves_start_at": 14, "goalie.in_place_at": 2.5 }

function breakaway(quantities: Parameters<typeof playing>[0], choices: Parameters<typeof playing>[1] = {}): Settings {
  return playing(
    { ...PLACES, ...quantities },
    { "play.kind": "breakaway", "goalie.depth_path": "outside in", ...choices },
  )
}

describe("a breakaway", () => {
  // seen to fail: the start depth of the pose left at the default path
  test("that is only shot at a goalie who holds the depth is the straight shot", () => {
    const held = { ...EXACT, "goalie.start_depth": 1.2, "goalie.depth": 1.2, "play.deke_share": 0 }
    const carried = fired(compileScene([breakaway(held)]), 1024)
    const straight = fired(compileScene([breakaway(held, { "play.kind": "straight shot" })]), 1024)
    expect(sum(carried, T.SAVED)).toBeCloseTo(sum(straight, T.SAVED), 5)
    expect(sum(carried, T.NOT_SET)).toBe(0)
  })

  test("is played by each goalie's shares, which sum to one and move out with the goalie", () => {
    const poses = [0.6, 3, 5].map((start) => breakaway({ "goalie.start_depth": start, "play.brake_share": 0.3 }))
    const branches = branchesOf(poses[0]!)
    const shares = branchShares(poses, () => [])
    const meanRung = (pose: number) =>
      branches.reduce((sum, { name, rung }, i) => {
        return name === "deke to the forehand" ? sum + rung!.at * shares[pose * branches.length + i]! : sum
      }, 0)
    for (const pose of poses.keys()) {
      const row = shares.subarray(pose * branches.length, (pose + 1) * branches.length)
      expect(row.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12)
    }
    expect(meanRung(0)).toBe(0)
    expect(meanRung(1)).toBeGreaterThan(0)
    expect(meanRung(2)).toBeGreaterThan(meanRung(1))
  })

  test("shares a place between the two rungs about it", () => {
    const rung = { start: { x: 26, y: 0 }, nearest: 3, step: 0.75, of: 9 }
    expect(rungShare({ ...rung, at: 1 }, 3.9)).toBeCloseTo(0.8, 12)
    expect(rungShare({ ...rung, at: 2 }, 3.9)).toBeCloseTo(0.2, 12)
    expect(rungShare({ ...rung, at: 0 }, 2)).toBe(1)
    expect(rungShare({ ...rung, at: 8 }, 40)).toBe(1)
  })

  // seen to fail: the deke begun at play.deke_distance whatever the goalie does, which runs through one who is far out
  test("keeps the puck off the goalie before it is shot or taken aside, as far as the rungs go", () => {
    for (const start of [0.6, 2, 3.5, 5])
      for (const { name, legs, goalie } of usualCourses(breakaway({ "goalie.start_depth": start }))) {
        const carry = legs[0]!
        const at = goalie.reduce((near, now) =>
          Math.abs(now.at - carry.ends) < Math.abs(near.at - carry.ends) ? now : near,
        )
        const gap = Math.hypot(carry.to.x - at.x, carry.to.y - at.y)
        // the rung shown is the nearer one to where the puck has to stop: half a rung and a step of the look
        expect(gap, `${name}, start ${start}`).toBeGreaterThan(2.2 - 0.375 - 0.25)
      }
  })

  test("never has a deke end where a goalie could be standing: a whole step beside the way in", () => {
    for (const { legs } of branchesOf(breakaway({ "play.deke_share": 1 }))) {
      const [carry, cut] = legs
      expect(Math.abs(cut!.y)).toBeCloseTo(1.4, 12)
      expect(carry!.x - cut!.x).toBeCloseTo(0.5 * 7.5 * (1.4 / 4), 12)
    }
  })

  // seed KEY, n = 512 an arm, |z| < 4 on independent errors though the shots are shared; seen to fail with the turn at
  // one rate while the puck passes
  test("is decided alike by the referee and the conditional estimator, near and far starts", () => {
    const scene = compileScene(
      [0.6, 2.5].map((start) => breakaway({ "goalie.start_depth": start, "play.brake_share": 0.2 })),
    )
    const conditional = fired(scene, 512)
    const plain = fired(scene, 512, decidePlain)
    for (const pose of [0, 1]) {
      const [a, b] = [saveRate(conditional, pose), saveRate(plain, pose)]
      expect(apart(a, b)).toBeLessThan(4)
      const stood = Math.abs(sum(conditional, T.STOOD, pose) - sum(plain, T.STOOD, pose))
      expect(stood / sum(plain, T.ON_GOAL_SUM, pose)).toBeLessThan(0.012)
    }
  })

  // the same shots, n = 2,048
  test("that is only a deke punishes a start far out, one that is only a shot a start too deep", () => {
    const at = (start: number, deke: number) => breakaway({ "goalie.start_depth": start, "play.deke_share": deke })
    const dekes = fired(compileScene([at(0.8, 1), at(4, 1)]), 2048)
    const shots = fired(compileScene([at(0.6, 0), at(3, 0), at(5.5, 0)]), 2048)
    expect(saveRate(dekes, 0).mean).toBeGreaterThan(saveRate(dekes, 1).mean + 0.2)
    expect(saveRate(shots, 1).mean).toBeGreaterThan(saveRate(shots, 0).mean + 0.02)
    expect(saveRate(shots, 1).mean).toBeGreaterThan(saveRate(shots, 2).mean + 0.02)
  })

  test("goes to the forehand on the blade's side", () => {
    const side = (hand: string) =>
      branchesOf(breakaway({}, { "shooter.hand": hand })).find(({ name }) => name === "deke to the forehand")!.legs[1]!
        .y
    expect(side("left")).toBeLessThan(0)
    expect(side("right")).toBeGreaterThan(0)
  })
})

// seen to fail: an end of the search weighed with nothing where the clearance stays as it was
test("under a set of assumptions that once broke it the sums of the shipped breakaway stay finite", () => {
  const read = readExperiment("experiments/breakaway-start.yaml")
  if ("problems" in read) throw new Error(read.problems[0]!.text)
  const { experiment } = read
  const key = seedKey(experiment.seed)
  const settings = experiment.points.slice(0, 10).map((point) => point.settings)
  const set = assumptionSets(assumedKeys(experiment), key)[15]!
  const scene = compileScene(settings.map((pose) => withSettings(pose, { quantities: set })))
  const e = engine(scene, 16)
  for (let r = 0; r < 32; r += 1) expect(fireBatches(e, key, r, 0, 1, 16).sums.every(Number.isFinite)).toBe(true)
})
