import { afterAll, describe, expect, test } from "vitest"
import { compileScene } from "../../src/models/plays/scene.ts"
import { defaultSettings, withSettings } from "../../src/models/settings.ts"
import type { Scene } from "../../src/sim/pose.ts"
import { INDEPENDENT_DRAWS } from "../../src/sim/sampler.ts"
import { engine, fireBatches } from "../../src/sim/sampling.ts"
import * as T from "../../src/sim/tally.ts"

interface Yardstick {
  fire(
    scene: Scene,
    key: readonly number[],
    replicates: number,
    batches: number,
    batch: number,
  ): { tallies: { sums: Float64Array; maps: Float64Array }[] }
  remove(): void
}

const module = new URL("../../benchmarks/yardstick.mjs", import.meta.url).href
const { buildYardstick, COLUMNS, STRIDE } = (await import(module)) as {
  buildYardstick(): Yardstick | null
  COLUMNS: readonly string[]
  STRIDE: number
}

const KEY = [7, 13] as const
const BATCH = 128
const yardstick = buildYardstick()

afterAll(() => yardstick?.remove())

/** Three depths, from the goal line out, and as many answers, at one place. */
function scene(distance: number, angle: number): Scene {
  const base = defaultSettings()
  return compileScene(
    [0, 0.9, 1.5].map((depth, i) =>
      withSettings(base, {
        quantities: { "goalie.depth": depth, "play.distance": distance, "play.angle": angle, "goalie.leak": 0.05 * i },
        choices: { "goalie.answer": ["by distance", "react", "block"][i]! },
      }),
    ),
  )
}

/** Columns of the engine's tally by name. */
const COLUMN = new Map<string, unknown>(Object.entries(T))

/** Largest difference of the two tallies in one column of the yardstick, over poses and spots, for each shot. */
function furthest(one: T.Tally, other: Float64Array, at: number): number {
  const columns = COLUMNS.length
  const column = at < columns ? (COLUMN.get(COLUMNS[at]!) as number) : T.BY_REGION + at - columns
  let worst = 0
  for (let row = 0; row < one.poses * one.spots; row++)
    worst = Math.max(worst, Math.abs(one.sums[row * T.TALLY_STRIDE + column]! - other[row * STRIDE + at]!))
  return worst / BATCH
}

/** Near and square, about the middle, far, and from the side. */
const PLACES = [
  [4, 0],
  [9, 0.3],
  [14, -0.5],
  [5, 1.2],
] as const

describe(yardstick === null ? "the yardstick (not run: there is no g++)" : "the yardstick", () => {
  // seen to fail: in either language, a limb's margin without its placement error, a part taken to stand still at key
  // phases, another step of the Philox key, a save only up to the plane of the goal line
  test.each(PLACES)("fires the shots of the engine from %f m at %f rad, to 1e-9 a shot", (distance, angle) => {
    if (yardstick === null) return
    const compiled = scene(distance, angle)
    const e = engine(compiled, BATCH, INDEPENDENT_DRAWS)
    const { tallies } = yardstick.fire(compiled, KEY, 2, 1, BATCH)
    expect(tallies.length).toBe(2)
    for (const [replicate, other] of tallies.entries()) {
      const tally = fireBatches(e, KEY, replicate, 0, 1, BATCH)
      expect(tally.sums[T.SAVED]!).toBeGreaterThan(0)
      for (let at = 0; at < STRIDE; at++) expect(furthest(tally, other.sums, at)).toBeLessThan(1e-9)
      expect(other.maps.length).toBe(tally.maps.length)
      for (const [i, goals] of tally.maps.entries()) expect(Math.abs(goals - other.maps[i]!) / BATCH).toBeLessThan(1e-9)
    }
  })
})
