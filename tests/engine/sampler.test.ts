import { describe, expect, test } from "vitest"
import { compileScene } from "../../src/models/plays/scene.ts"
import { withSettings } from "../../src/models/settings.ts"
import type { Scene } from "../../src/sim/pose.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import { INDEPENDENT_DRAWS, type Sampler, SCRAMBLED_POINTS } from "../../src/sim/sampler.ts"
import { engine, fireBatches } from "../../src/sim/sampling.ts"
import { makeShots, SHOT_STRIDE, shotBatch } from "../../src/sim/shots.ts"
import { drawsWithoutDimension, SPREAD_DIMENSIONS } from "../../src/sim/spread-draws.ts"
import * as T from "../../src/sim/tally.ts"
import { PUCK_DRAWS } from "../../src/sim/traffic/traffic.ts"
import { apart, KEY, playing, saveRate, sum } from "./scenes.ts"

const AREAS = [
  { kind: "wedge", label: "slot", weight: 2, nearest: 3, farthest: 7, from: -0.4, to: 0.4 },
  {
    kind: "polygon",
    label: "left",
    weight: 1,
    corners: [
      [4, 3],
      [8, 3],
      [6, 7],
    ],
  },
] as const

const SCENES: readonly (readonly [string, Scene])[] = [
  ["straight", compileScene([playing({ "play.distance": 6 })])],
  ["from areas", compileScene([withSettings(playing({}), { origins: AREAS })])],
  ["cross-ice", compileScene([playing({}, { "play.kind": "cross-ice pass" })])],
]

function fired(scene: Scene, sampler: Sampler, replicates: number, shots: number, decide?: typeof decidePlain) {
  const e = engine(scene, 16, sampler)
  return Array.from({ length: replicates }, (_, r) => fireBatches(e, KEY, r, 0, shots / 16, 16, decide))
}

describe("points of a scrambled sequence and independent draws", () => {
  // seen red: origins drawn by the coordinate that says how far across; the leak left without a dimension
  test.each(SCENES)("give one save rate and one share on goal: %s", (_, scene) => {
    // seed KEY, 32 replicates of 256 shots each way, |z| < 4
    const points = fired(scene, SCRAMBLED_POINTS, 32, 256)
    const draws = fired(scene, INDEPENDENT_DRAWS, 32, 256)
    for (const [above, below] of [
      [T.SAVED, T.ON_GOAL_SUM],
      [T.ON_GOAL_SUM, T.SHOTS_COUNTED],
      [T.STOOD, T.ON_GOAL_SUM],
    ] as const) {
      const [a, b] = [saveRate(points, 0, above, below), saveRate(draws, 0, above, below)]
      expect(apart(a, b)).toBeLessThan(4)
    }
  })

  // seen red: the reaction left without a dimension, so that every shot had the first's
  test("serve the plain referee alike", () => {
    // seed KEY, 16 replicates of 16 shots by the referee against 32 of 256, |z| < 4
    const [, scene] = SCENES[0]!
    const plain = saveRate(fired(scene, SCRAMBLED_POINTS, 16, 16, decidePlain))
    const conditional = saveRate(fired(scene, SCRAMBLED_POINTS, 32, 256))
    expect(apart(plain, conditional)).toBeLessThan(4)
  })

  // seen red: every batch scrambled anew
  test("know a save rate from far fewer shots where they are points", () => {
    // seed KEY, 48 replicates of 1024 shots each way: were they as good, a ratio of variances above 1.7 came 1 in 30 times
    const [, scene] = SCENES[0]!
    const [points, draws] = [SCRAMBLED_POINTS, INDEPENDENT_DRAWS].map(
      (sampler) => saveRate(fired(scene, sampler as Sampler, 48, 1024)).se ** 2,
    )
    expect(draws! / points!).toBeGreaterThan(1.7)
  })

  // seen red: points of a batch counted from 0 in each
  test("make the same shots however they are cut into batches", () => {
    const [, scene] = SCENES[1]!
    const whole = shotBatch(scene, 256, false, SCRAMBLED_POINTS)
    makeShots(scene, KEY, 4, 512, 256, whole)
    const part = shotBatch(scene, 64, false, SCRAMBLED_POINTS)
    for (const first of [512, 704, 576]) {
      makeShots(scene, KEY, 4, first, 64, part)
      const at = first - 512
      expect(part.shot).toEqual(whole.shot.subarray(at * SHOT_STRIDE, (at + 64) * SHOT_STRIDE))
      expect(part.stratum).toEqual(whole.stratum.subarray(at, at + 64))
    }
  })

  test("weigh every stratum as a sweep asks: shares over the allotment sum to the shots", () => {
    // a reading shooter in front of three depths: weights of a pose have mean 1; 32 replicates of 256, |z| < 4
    const scene = compileScene([0.5, 1.2, 2].map((depth) => playing({ "goalie.depth": depth })))
    const tallies = fired(scene, SCRAMBLED_POINTS, 32, 256)
    for (let pose = 0; pose < 3; pose++) {
      const counts = tallies.map((tally) => sum([tally], T.SHOTS_COUNTED, pose) / 256)
      const mean = counts.reduce((all, count) => all + count, 0) / 32
      const squares = counts.reduce((all, count) => all + (count - mean) ** 2, 0) / 31
      expect(Math.abs(mean - 1) / Math.sqrt(squares / 32 + 1e-12)).toBeLessThan(4)
    }
  })

  // seen red: two legs taken for one
  test("tell how many draws of a long play have no dimension", () => {
    expect(SPREAD_DIMENSIONS).toBe(30)
    expect(SCENES.map(([, scene]) => drawsWithoutDimension(scene))).toEqual([0, 0, 0])
    const [moves, branches, legs] = [1, 1, 4]
    const none = new Float64Array(0)
    const [long, still] = [Float64Array.from([moves, branches, legs]), Float64Array.from([0, branches, legs])]
    expect(drawsWithoutDimension({ play: long, traffic: none, rebound: none })).toBe(4)
    expect(drawsWithoutDimension({ play: still, traffic: none, rebound: none })).toBe(0)
    expect(drawsWithoutDimension({ play: long, traffic: Float64Array.from([1]), rebound: none })).toBe(4 + PUCK_DRAWS)
  })
})
