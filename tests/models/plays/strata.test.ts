import { describe, expect, test } from "vitest"
import { allot, MOST_WEIGHT } from "../../../src/models/plays/allotment.ts"
import { branchShares } from "../../../src/models/plays/branch-shares.ts"
import { branchesOf } from "../../../src/models/plays/branches.ts"
import type { Origin } from "../../../src/models/plays/origin.ts"
import { buildStrata } from "../../../src/models/plays/strata.ts"
import { worldOf } from "../../../src/models/plays/world.ts"
import { defaultSettings, type Settings, withSettings } from "../../../src/models/settings.ts"
import type { Openness } from "../../../src/sim/mouth-grid.ts"
import {
  AIM,
  AIM_KIND,
  AIM_NORMAL,
  AIM_RECTANGLE,
  EARLY_READ,
  ERROR_AZIMUTH,
  ERROR_ELEVATION,
  HURRIED,
  ORIGIN,
  RELEASE_HEIGHT,
  SHOT_TYPE,
  SPEED_LEAST,
  SPEED_MEAN,
  SPEED_SD,
  SPOT,
  STEEPEST_AIM,
  STRATUM_STRIDE,
  type Strata,
} from "../../../src/sim/strata.ts"
import { POST_RADIUS } from "../../../src/sim/world.ts"

const PLACES: Origin[] = [
  { kind: "spot", label: "slot", weight: 2, x: 6, y: 0 },
  { kind: "spot", label: "left circle", weight: 1, x: 7, y: 6 },
]

/** Pose 0 leaves the left of the mouth open, pose 1 the right. */
const sides: Openness = (pose, _x, _y, _z, grid) =>
  Float64Array.from({ length: grid.columns * grid.rows }, (_, i) =>
    i % grid.columns >= grid.columns / 2 === (pose === 0) ? 1 : 0,
  )

function playing(choices: Record<string, string>, quantities: Record<string, number> = {}): Settings {
  return withSettings(defaultSettings(), { choices, quantities, origins: PLACES })
}

function build(settings: Settings, poses = 2, openness: Openness = sides) {
  return strataOf(
    Array.from({ length: poses }, () => settings),
    openness,
  )
}

function strataOf(poses: readonly Settings[], openness: Openness) {
  const branches = poses.length === 0 ? [] : branchesOf(poses[0]!)
  return buildStrata(
    poses,
    branches,
    branchShares(poses, () => []),
    () => openness,
  )
}

function row(strata: Strata, pose: number): Float64Array {
  return strata.share.subarray(pose * strata.count, (pose + 1) * strata.count)
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0)
}

describe("buildStrata()", () => {
  test("gives every pose shares that sum to 1, and an allotment that does, for each aim policy", () => {
    // mutation seen to fail: hurried share not taken off the aimed ones
    for (const aim of ["reads", "zones", "corners", "point"]) {
      const { strata, spots } = build(playing({ "shooter.aim": aim }))
      expect(spots).toEqual(["slot", "left circle"])
      expect(sum(row(strata, 0))).toBeCloseTo(1, 12)
      expect(sum(row(strata, 1))).toBeCloseTo(1, 12)
      expect(sum(strata.allotment)).toBeCloseTo(1, 12)
      expect(strata.table).toHaveLength(strata.count * STRATUM_STRIDE)
    }
  })

  test("weighs no shot more than four times when two poses differ as they can", () => {
    // mutation seen to fail: allotment = mean share with three poses or more
    const { strata } = build(playing({}), 6, (pose, ...rest) => sides(pose === 0 ? 0 : 1, ...rest))
    for (let pose = 0; pose < 6; pose++)
      for (let i = 0; i < strata.count; i++)
        expect(row(strata, pose)[i]! / strata.allotment[i]!).toBeLessThanOrEqual(MOST_WEIGHT + 1e-9)
  })

  test("gives a blind shooter the same shares bit for bit, whatever the goalie leaves open", () => {
    const { strata } = build(playing({}, { "shooter.reading": 0 }))
    expect(row(strata, 0)).toEqual(row(strata, 1))
    const seeing = build(playing({}))
    expect(row(seeing.strata, 0)).not.toEqual(row(seeing.strata, 1))
  })

  test("does not look at the goalie for a blind shooter or a fixed policy", () => {
    const never: Openness = () => {
      throw new Error("looked")
    }
    build(playing({}, { "shooter.reading": 0 }), 2, never)
    build(playing({ "shooter.aim": "corners" }), 2, never)
    expect(() => build(playing({}), 2, never)).toThrow("looked")
  })

  test("looks once for each pose and place, from the puck or from the eyes", () => {
    const seen: number[][] = []
    const looking: Openness = (pose, x, y, z, grid, puckX, puckY) => {
      seen.push([pose, puckX, puckY, x, y, z])
      return sides(pose, x, y, z, grid, puckX, puckY)
    }
    build(playing({}), 2, looking)
    expect(seen).toEqual([
      [0, 6, 0, 6, 0, 0.02],
      [1, 6, 0, 6, 0, 0.02],
      [0, 7, 6, 7, 6, 0.02],
      [1, 7, 6, 7, 6, 0.02],
    ])
    seen.length = 0
    build(playing({ "shooter.reads_from": "eyes" }), 1, looking)
    expect(seen[0]!.slice(0, 3)).toEqual([0, 6, 0])
    expect(seen[0]![5]).toBe(1.6)
  })

  test("leaves out strata that no pose meets", () => {
    // mutation seen to fail: keep all
    const all = build(playing({ "shooter.aim": "zones" })).strata.count
    const some = build(playing({ "shooter.aim": "zones" }, { "shooter.zone_middle": 0, "shooter.hurried_share": 0 }))
    expect(all).toBe(2 * 7)
    expect(some.strata.count).toBe(2 * 5)
    expect(some.strata.allotment.every((share) => share > 0)).toBe(true)
  })

  test("writes the columns that the engine reads", () => {
    const { strata } = build(playing({ "shooter.aim": "point", "shooter.shot": "wrist" }, { "shooter.aim_y": 0.4 }))
    expect(strata.count).toBe(4)
    const at = (stratum: number, column: number) => strata.table[stratum * STRATUM_STRIDE + column]
    expect([0, 1, 2, 3].map((i) => at(i, SPOT))).toEqual([0, 0, 1, 1])
    expect([0, 1, 2, 3].map((i) => at(i, HURRIED))).toEqual([0, 1, 0, 1])
    expect([at(0, AIM_KIND), at(1, AIM_KIND)]).toEqual([AIM_RECTANGLE, AIM_NORMAL])
    expect([0, 1, 2, 3].map((i) => at(0, AIM + i))).toEqual([0.4, 0.4, 0.3, 0.3])
    expect([0, 1, 2, 3].map((i) => at(1, AIM + i))).toEqual([0, 0.5, 0.38, 0.3])
    expect([0, 1, 2, 3, 4, 5].map((i) => at(2, ORIGIN + i))).toEqual([7, 6, 7, 6, 7, 6])
    expect(at(0, SPEED_MEAN)).toBeCloseTo(26.5, 12)
    expect(at(0, SPEED_SD)).toBeCloseTo(3, 12)
    expect(at(0, SPEED_LEAST)).toBe(5)
    expect(at(0, RELEASE_HEIGHT)).toBe(0.02)
    expect(at(0, SHOT_TYPE)).toBe(1)
    expect(at(0, EARLY_READ)).toBeCloseTo(0.08, 12)
    // 1.7 deg, wrist shot, from 6 m, aimed 0.28 m up
    const azimuth = ((0.9 * 1.7 * Math.PI) / 180) * (1 + 0.75 * Math.exp(-1)) * (1 + 0.28 / Math.hypot(6, 0.4))
    expect(at(0, ERROR_AZIMUTH)).toBeCloseTo(azimuth, 12)
    expect(at(0, ERROR_ELEVATION)).toBeCloseTo(0.9 * azimuth, 12)
    expect(at(1, ERROR_ELEVATION)).toBeCloseTo((0.9 * 3.6 * Math.PI) / 180, 12)
    expect(at(0, STEEPEST_AIM)).toBe(0.4)
  })

  test("mirrors with the goalie's catching hand", () => {
    const glove = playing({ "shooter.aim": "zones" }, { "shooter.zone_low_glove": 9 })
    const other = withSettings(glove, { choices: { "goalie.catches": "right" } })
    const { strata } = strataOf([glove, other], sides)
    const likeliest = (pose: number) => row(strata, pose).indexOf(Math.max(...row(strata, pose).subarray(0, 6)))
    expect(strata.table[likeliest(0) * STRATUM_STRIDE + AIM]).toBeGreaterThan(0)
    expect(strata.table[likeliest(1) * STRATUM_STRIDE + AIM]).toBeLessThan(0)
  })

  test("aims inside the opening of the chosen goal, clear of the posts as they stand from each place", () => {
    // mutation seen to fail: the opening as from straight ahead; half the opening, without the puck
    const settings = playing({}, { "goal.mouth_width": 1.2, "goal.mouth_height": 0.9 })
    const world = worldOf(settings)
    const touch = 0.0381 + world[POST_RADIUS]!
    const { strata } = build(settings)
    const aimed = Array.from({ length: strata.count }, (_, i) => strata.table.subarray(i * STRATUM_STRIDE)).filter(
      (way) => way[HURRIED] === 0,
    )
    for (const spot of [0, 1]) {
      const ways = aimed.filter((way) => way[SPOT] === spot)
      const [x, y] = [ways[0]![ORIGIN]!, ways[0]![ORIGIN + 1]!]
      // distance of the line from (x, y) to (0, u) from the axis of the post at p
      const beside = (u: number, p: number): number => ((p - u) * x) / Math.hypot(x, u - y)
      const post = 0.6 + world[POST_RADIUS]!
      expect(beside(Math.max(...ways.map((way) => way[AIM + 1]!)), post)).toBeCloseTo(touch, 12)
      expect(beside(Math.min(...ways.map((way) => way[AIM]!)), -post)).toBeCloseTo(-touch, 12)
      expect(Math.min(...ways.map((way) => way[AIM + 2]!))).toBeCloseTo(0.0127, 12)
      const highest = Math.max(...ways.map((way) => way[AIM + 3]!))
      expect(highest).toBeLessThan(0.9 - 0.0127)
      expect(highest).toBeGreaterThan(0.9 - 0.0127 - 0.0381 * 0.2)
    }
  })

  test("aims at the whole opening from where no puck gets in without touching iron", () => {
    // mutation seen to fail: the edges taken as they come, the right of the left
    const beside: Origin = { kind: "spot", label: "", weight: 1, x: 0.05, y: 3 }
    const { strata } = strataOf([withSettings(playing({}), { origins: [beside] })], sides)
    const edges = Array.from({ length: strata.count }, (_, i) => strata.table[i * STRATUM_STRIDE + AIM + 1]!)
    expect(Math.max(...edges)).toBeCloseTo(0.9144 - 0.0381, 12)
  })

  test("cannot be asked without a pose", () => {
    expect(() => strataOf([], sides)).toThrow("Cannot build the strata as the number of poses must be > 0")
  })
})

describe("allot()", () => {
  test("is the mean share where no weight passes the most", () => {
    const allotment = allot(Float64Array.of(0.5, 0.5, 0.25, 0.75), 2)
    expect([...allotment]).toEqual([0.375, 0.625])
  })

  test("lifts a stratum that one pose of ten needs to a quarter of its share there", () => {
    const share = new Float64Array(20)
    for (let pose = 0; pose < 10; pose++) share.set(pose === 0 ? [0.2, 0.8] : [0, 1], pose * 2)
    const allotment = allot(share, 10)
    expect(allotment[0]).toBeCloseTo(0.05, 12)
    expect(sum(allotment)).toBeCloseTo(1, 12)
  })

  test("makes the greatest weight as small as it can be where six poses have nothing in common", () => {
    const share = new Float64Array(36)
    for (let pose = 0; pose < 6; pose++) share[pose * 6 + pose] = 1
    for (const one of allot(share, 6)) expect(one).toBeCloseTo(1 / 6, 12)
  })
})
