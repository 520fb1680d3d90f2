import { describe, expect, test } from "vitest"
import { depthPath } from "../../src/models/positioning/depth-path.ts"
import type { Settings } from "../../src/models/settings.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import * as T from "../../src/sim/tally.ts"
import { apart, compileScene, EXACT, fired, playing, saveRate, sum } from "./scenes.ts"

type Quantities = Parameters<typeof playing>[0]
type Choices = Parameters<typeof playing>[1]

function rush(quantities: Quantities, choices: Choices = {}): Settings {
  const spot = { "play.distance": 9, "play.angle": -0.6, "goalie.depth": 1.5, "goalie.leaves_start_at": 21 }
  return playing({ ...spot, ...quantities }, { "play.kind": "rush", ...choices })
}

function latePass(quantities: Quantities, choices: Choices = {}): Settings {
  const passer = { "play.pass_from_distance": 9, "play.pass_from_angle": -0.6 }
  const receiver = { "play.distance": 7, "play.angle": 0.6 }
  return rush({ ...passer, ...receiver, ...quantities }, { "play.kind": "late pass", ...choices })
}

const PATHS = ["hold", "inside out", "outside in"]
const onGoal = (tallies: readonly T.Tally[], pose = 0) => sum(tallies, T.ON_GOAL_SUM, pose)

describe("a rush", () => {
  // seen to fail: the start depth of the depth path taken for the pose's own
  test("down the middle against a goalie who holds is the straight shot from where it ends", () => {
    const ahead = { ...EXACT, "play.angle": 0 }
    const carried = fired(compileScene([rush(ahead)]), 1024)
    const straight = fired(compileScene([rush(ahead, { "play.kind": "straight shot" })]), 1024)
    expect(sum(carried, T.SAVED)).toBeCloseTo(sum(straight, T.SAVED), 5)
    expect(sum(carried, T.NOT_SET)).toBe(0)
  })

  test("that crawls leaves every path time to be in place: the straight shot again", () => {
    const slow = { ...EXACT, "play.angle": 0, "play.carry_speed": 0.2, "play.carry_speed_spread": 0 }
    const straight = fired(compileScene([rush(slow, { "play.kind": "straight shot" })]), 512)
    const paths = PATHS.map((path) => rush({ ...slow, "goalie.in_place_at": 10 }, { "goalie.depth_path": path }))
    const tallies = fired(compileScene(paths), 512)
    for (const pose of PATHS.keys()) {
      expect(sum(tallies, T.NOT_SET, pose)).toBe(0)
      // within the millimetre that is not worth a step
      expect(sum(tallies, T.SAVED, pose) / sum(straight, T.SAVED)).toBeCloseTo(1, 4)
    }
  })

  test("has the same numbers from either wing, lanes by name mirrored", () => {
    const mirrored = ([lane, side]: readonly [string, number]) =>
      compileScene([
        rush({ ...EXACT, "play.angle": 0.5 * side }, { "play.lane": lane, "goalie.depth_path": "outside in" }),
      ])
    const [left, right] = (
      [
        ["left wing", -1],
        ["right wing", 1],
      ] as const
    ).map((one) => fired(mirrored(one), 2048))
    const [a, b] = [saveRate(left!), saveRate(right!)]
    // glove and blocker differ: travel, which they do not enter, is equal
    expect(sum(left!, T.TRAVEL_SUM) / onGoal(left!)).toBeCloseTo(sum(right!, T.TRAVEL_SUM) / onGoal(right!), 1)
    expect(Math.abs(a.mean - b.mean)).toBeLessThan(0.1)
  })

  // the same shots, n = 2,048: what is compared is the goalie's way alone
  test("finds a goalie who comes out in one push more often set than one who backs in, the less the faster it is", () => {
    const late = [5, 9].map((speed) => {
      const poses = PATHS.map((path) =>
        rush({ "play.carry_speed": speed, "play.angle": 0 }, { "goalie.depth_path": path }),
      )
      const tallies = fired(compileScene(poses), 2048)
      return PATHS.map((_, pose) => sum(tallies, T.NOT_SET, pose) / onGoal(tallies, pose))
    })
    expect(late[0]![1]).toBeLessThan(0.05)
    expect(late[0]![2]).toBeGreaterThan(0.95)
    expect(late[1]![1]).toBeGreaterThan(late[0]![1]!)
  })
})

describe("a late pass", () => {
  // seen to fail: the velocity of the glide dropped when the push across begins
  test("finds a goalie who backs in later across the longer the stop takes that comes first", () => {
    const backing = { "goalie.start_depth": 4, "goalie.depth": 1.5, "movement.glide_speed": 2, "play.carry_speed": 9 }
    const poses = [60, 2].map((braking) =>
      latePass({ ...backing, "movement.glide_braking": braking }, { "goalie.depth_path": "outside in" }),
    )
    const tallies = fired(compileScene(poses), 1024)
    const margin = (pose: number) => sum(tallies, T.MARGIN_SUM, pose) / onGoal(tallies, pose)
    expect(margin(1)).toBeLessThan(margin(0) - 0.1)
  })

  test("with time without end is the straight shot from the receiver whatever the path", () => {
    const slow = { ...EXACT, "play.receive_time": 3, "play.receive_spread": 0, "play.pass_speed_spread": 0 }
    const straight = fired(compileScene([latePass(slow, { "play.kind": "straight shot" })]), 512)
    const tallies = fired(compileScene(PATHS.map((path) => latePass(slow, { "goalie.depth_path": path }))), 512)
    for (const pose of PATHS.keys()) expect(sum(tallies, T.SAVED, pose)).toBeCloseTo(sum(straight, T.SAVED), 5)
  })

  // seed KEY, n = 256 an arm, |z| < 4 on independent errors though the shots are shared
  test("and a rush: the plain referee and the conditional estimator agree on every path", () => {
    const path = (name: string) => ({ "goalie.depth_path": name })
    const scenes = [
      [rush({}, path("outside in"))],
      [latePass({}, path("inside out")), latePass({}, path("outside in"))],
    ]
    for (const scene of scenes.map((poses) => compileScene(poses))) {
      const [conditional, plain] = [fired(scene, 256), fired(scene, 256, decidePlain)]
      for (const pose of scene.poses.keys()) {
        const [a, b] = [saveRate(conditional, pose), saveRate(plain, pose)]
        expect(apart(a, b)).toBeLessThan(4)
        const stood = Math.abs(sum(conditional, T.STOOD, pose) - sum(plain, T.STOOD, pose))
        expect(stood / onGoal(plain, pose)).toBeLessThan(0.006)
      }
    }
  })
})

describe("what tells the angle on the way", () => {
  const NO_REFERENCE = { "reference.back_in_error": 0, "reference.post_error": 0, "reference.step_out_error": 0 }

  // seen to fail: the cue's spread added where it is zero
  test("changes nothing where it is never wrong", () => {
    for (const [path, cue] of [
      ["inside out", "post"],
      ["outside in", "backing in"],
    ] as const)
      for (const play of [rush, latePass]) {
        const poses = [
          play({}, { "goalie.depth_path": path }),
          play(NO_REFERENCE, { "goalie.depth_path": path, "reference.cue": cue }),
        ]
        const tallies = fired(compileScene(poses), 256)
        expect(sum(tallies, T.SAVED, 1)).toBeCloseTo(sum(tallies, T.SAVED, 0), 6)
      }
  })

  test("grows with the way backed: less is saved the more it drifts, on the same shots", () => {
    const drifts = [0, 0.1, 0.3]
    const poses = drifts.map((drift) =>
      rush(
        { "reference.back_in_error": drift, "play.angle": 0, "play.carry_speed": 5 },
        { "goalie.depth_path": "outside in", "reference.cue": "backing in" },
      ),
    )
    const tallies = fired(compileScene(poses), 2048)
    const rates = drifts.map((_, pose) => saveRate(tallies, pose).mean)
    expect(rates[0]).toBeGreaterThan(rates[1]!)
    expect(rates[1]).toBeGreaterThan(rates[2]! + 0.02)
  })
})

describe("a depth path", () => {
  test("starts on the goal line, out, or where the goalie plays, and backs in until the carry ends", () => {
    const [hold, out, back] = PATHS.map((path) => depthPath(latePass({}, { "goalie.depth_path": path }), 1.5))
    expect(hold).toEqual({ start: 1.5, leavesAt: 21, inPlaceAt: 0 })
    expect(out).toEqual({ start: 0, leavesAt: 21, inPlaceAt: 0 })
    expect(back!.start).toBe(4)
    expect(back!.inPlaceAt).toBeCloseTo(9, 12)
  })
})
