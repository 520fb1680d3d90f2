import { describe, expect, test } from "vitest"
import type { Origin } from "../../../src/models/plays/origin.ts"
import { compileScene } from "../../../src/models/plays/scene.ts"
import { withSettings } from "../../../src/models/settings.ts"
import { chooseLandings, LANDING_STRIDE } from "../../../src/sim/landing/choose-landings.ts"
import { landingGrid } from "../../../src/sim/landing/landing-grid.ts"
import type { Scene } from "../../../src/sim/pose.ts"
import { fillUniforms, PLAY, SHOOTER } from "../../../src/sim/random/streams.ts"
import {
  DRAW_AIM_1,
  DRAW_AIM_2,
  DRAW_AZIMUTH,
  DRAW_ELEVATION,
  makeShots,
  SHOOTER_DRAWS,
  SHOT_MOUTH_Y,
  SHOT_MOUTH_Z,
  SHOT_STRIDE,
  shotBatch,
} from "../../../src/sim/shots.ts"
import { AIM_KIND, AIM_RECTANGLE, ERROR_AZIMUTH, STRATUM_STRIDE } from "../../../src/sim/strata.ts"
import { KEY, playing } from "../../engine/scenes.ts"

const PLACES: Origin[] = [
  { kind: "spot", label: "slot", weight: 2, x: 6, y: 0 },
  { kind: "spot", label: "dot", weight: 1, x: 5, y: 6 },
]

const SCENES: readonly (readonly [string, Scene])[] = [
  ["one spot", compileScene([playing({ "play.distance": 6 })])],
  ["a reading shooter and two goalies", compileScene([0.5, 2].map((depth) => playing({ "goalie.depth": depth })))],
  ["two spots", compileScene([withSettings(playing({}), { origins: PLACES })])],
  ["a pass", compileScene([playing({}, { "play.kind": "cross-ice pass" })])],
]

const COUNT = 65_536

/** Strata and uniforms of aim of independent shots. */
function chosen({ strata }: Scene) {
  const landings = new Float64Array(COUNT * LANDING_STRIDE)
  const uniforms = new Float64Array(COUNT * SHOOTER_DRAWS)
  const stratum = new Uint32Array(COUNT)
  fillUniforms(KEY, 0, PLAY, 0, COUNT, LANDING_STRIDE, landings)
  fillUniforms(KEY, 0, SHOOTER, 0, COUNT, SHOOTER_DRAWS, uniforms)
  chooseLandings(landingGrid(strata), landings, COUNT, stratum, uniforms)
  return { stratum, uniforms }
}

/** Standard normal distance of a chi-squared of counts from what is expected; parts of fewer than 5 left out. */
function distance(counts: ArrayLike<number>, expected: (i: number) => number): number {
  let [squares, parts] = [0, 0]
  for (let i = 0; i < counts.length; i++) {
    if (expected(i) < 5) continue
    squares += (counts[i]! - expected(i)) ** 2 / expected(i)
    parts++
  }
  return (squares - (parts - 1)) / Math.sqrt(2 * Math.max(1, parts - 1))
}

describe("choosing shots by where they land", () => {
  // seen red: allotments left out of a cell's shares; the share short of a cut taken for the share in a column
  test.each(SCENES)("takes every stratum as often as its allotment says: %s", (_, scene) => {
    const counts = new Float64Array(scene.strata.count)
    for (const s of chosen(scene).stratum) counts[s]! += 1
    expect(distance(counts, (s) => COUNT * scene.strata.allotment[s]!)).toBeLessThan(4)
  })

  // seen red: the second normal added in place of subtracted; the first left inside its cell as a uniform
  test.each(SCENES)("leaves aimed point and error uniform and independent of each other: %s", (_, scene) => {
    // each pair of the four on 8 x 8 parts, over all strata and in the likeliest of them
    const { stratum, uniforms } = chosen(scene)
    const likeliest = scene.strata.allotment.indexOf(Math.max(...scene.strata.allotment))
    const draws = [DRAW_AIM_1, DRAW_AZIMUTH, DRAW_AIM_2, DRAW_ELEVATION]
    for (const only of [false, true])
      for (const [a, first] of draws.entries())
        for (const second of draws.slice(a + 1)) {
          const counts = new Float64Array(64)
          let all = 0
          for (let i = 0; i < COUNT; i++) {
            if (only && stratum[i] !== likeliest) continue
            const u = i * SHOOTER_DRAWS
            counts[8 * Math.floor(8 * uniforms[u + first]!) + Math.floor(8 * uniforms[u + second]!)]! += 1
            all++
          }
          expect(distance(counts, () => all / 64)).toBeLessThan(4)
        }
  })

  // seen red: angles across that rise the other way than the error in azimuth
  test("puts shots of nearly one coordinate side by side across the mouth, and one above the other", () => {
    // 8192 shots from 6 m in 64 groups of 128 by their coordinate: within a group of the middle they spread by a few cm
    const scene = SCENES[0]![1]
    const count = 8192
    const batch = shotBatch(scene, count, false, "scrambled Sobol points")
    makeShots(scene, KEY, 0, 0, count, batch)
    const landings = batch.spread!.landings
    const spreads = [SHOT_MOUTH_Y, SHOT_MOUTH_Z].map((column, axis) => {
      const shots = Array.from({ length: count }, (_, i) => i)
        // up is told from what goes to the middle of the mouth
        .filter((i) => axis === 0 || Math.abs(landings[i * LANDING_STRIDE + 1]! - 0.5) < 0.1)
        .sort((i, j) => landings[i * LANDING_STRIDE + 1 + axis]! - landings[j * LANDING_STRIDE + 1 + axis]!)
      const middle = shots.slice(Math.floor(0.49 * shots.length), Math.floor(0.51 * shots.length))
      const places = middle.map((i) => batch.shot[i * SHOT_STRIDE + column]!)
      const mean = places.reduce((sum, place) => sum + place, 0) / places.length
      return Math.sqrt(places.reduce((sum, place) => sum + (place - mean) ** 2, 0) / places.length)
    })
    expect(spreads[0]).toBeLessThan(0.05)
    expect(spreads[1]).toBeLessThan(0.05)
  })

  test("aims and errs at a point as well: no spread at all leaves one stratum with one aimed point", () => {
    const scene = SCENES[0]![1]
    const table = scene.strata.table.slice()
    const still = { ...scene.strata, table }
    for (let s = 0; s < still.count; s++) {
      table.set([AIM_RECTANGLE, 0, 0, 0.3, 0.3], s * STRATUM_STRIDE + AIM_KIND)
      table.set([0, 0], s * STRATUM_STRIDE + ERROR_AZIMUTH)
    }
    const { stratum, uniforms } = chosen({ ...scene, strata: still })
    expect(uniforms.every((u) => u > 0 && u < 1)).toBe(true)
    const counts = new Float64Array(still.count)
    for (const s of stratum) counts[s]! += 1
    expect(distance(counts, (s) => COUNT * still.allotment[s]!)).toBeLessThan(4)
  })
})
