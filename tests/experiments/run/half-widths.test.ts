import { beforeAll, describe, expect, test } from "vitest"
import { warningsOf } from "../../../src/experiments/report/warnings.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import { tableOf } from "../../../src/experiments/write/table.ts"
import type { Estimate } from "../../../src/sim/estimate.ts"
import { widened } from "../../../src/sim/statistics/widened.ts"
import { northlake, run } from "./unfinished-run.ts"

const DEPTHS = `question: How far out for a shot from 9 m?
play: { distance: 9 m }
sweep:
  goalie.depth: [0.8 m, 1 m, 1.4 m]
baseline: { goalie.depth: 0.8 m }
seed: northlake stopping
charts: []
`
const half = ({ low, high }: Estimate): number => 0.5 * (high - low)
const until = (rule: string) => run({}, northlake({}, `${DEPTHS}${rule}\n`))

describe("a run until a half-width is known", () => {
  let difference: RunResults
  let rate: RunResults
  let ceiling: RunResults
  beforeAll(async () => {
    difference = await until("until: { half-width: 0.5 %, of: difference, most: 16384 }")
    rate = await until("until: { half-width: 0.5 %, most: 16384 }")
    ceiling = await until("until: { half-width: 0.2 %, of: difference, most: 8192 }")
  })

  // seen to fail: judged by the save rates whatever the file says
  test("of the difference stops at the first count at which every difference is known, before the rates are", () => {
    expect(difference).toMatchObject({ stoppedBy: "half-width", shots: 4096 })
    for (const { differences } of difference.points) expect(half(differences.save_rate!)).toBeLessThanOrEqual(0.005)
    expect(Math.max(...difference.points.map(({ estimates }) => half(estimates.save_rate!)))).toBeGreaterThan(0.005)
    expect(rate).toMatchObject({ stoppedBy: "half-width", shots: 8192 })
  })

  // seen to fail: every point fired until the last is known; pairs compared by all shots of each
  test("of the rate lets a known point take no more, and compares two by the shots that both have met", async () => {
    const near = northlake(
      {},
      `${DEPTHS.replace("0.8 m, 1 m", "0 m, 1 m").replace("0.8 m }", "1.4 m }")}until: { half-width: 0.7 % }\n`,
    )
    const found = await run({}, near)
    const counts = found.points.map(({ shots }) => shots)
    const [least, most] = [Math.min(...counts), Math.max(...counts)]
    expect(found).toMatchObject({ stoppedBy: "half-width", shots: most })
    expect(least).toBeLessThan(most)
    for (const { estimates, shots } of found.points) {
      expect(half(estimates.save_rate!)).toBeLessThanOrEqual(0.007)
      expect(estimates.save_rate!.n).toBe(shots)
    }
    const [few, many] = await Promise.all([least, most].map((shots) => run({}, { ...near, halfWidth: null, shots })))
    for (const [index, { shots, estimates, differences }] of found.points.entries()) {
      const alike = (shots === least ? few : many)!.points[index]!
      expect(estimates.save_rate).toEqual(widened(alike.estimates.save_rate!, 0, 1))
      // the baseline is known first
      expect(differences.save_rate).toEqual(widened(few!.points[index]!.differences.save_rate!, -1, 1))
    }
    expect(found.curves[0]!.probabilityBest).toEqual(few!.curves[0]!.probabilityBest)
  })

  // seen to fail: the end of the run written at every point
  test("says at each point what stopped it: a near depth is known where a far one is at the ceiling", () => {
    expect(ceiling).toMatchObject({ stoppedBy: "ceiling", shots: 8192 })
    expect(ceiling.points.map(({ stoppedBy }) => stoppedBy)).toEqual(["half-width", "half-width", "ceiling"])
    const column = tableOf(ceiling).columns.find(({ name }) => name === "stopped_by")
    expect(column!.values).toEqual(["half-width", "half-width", "ceiling"])
    const far = (100 * half(ceiling.points[2]!.differences.save_rate!)).toFixed(2)
    expect(warningsOf(ceiling)[0]!.text).toContain(
      `with ± ${far} points where ± 0.20 was wanted of every difference from the baseline`,
    )
  })

  // seen to fail: the differences left as for a fixed count
  test("has intervals three hundredths wider than the same shots fired for their own sake", async () => {
    const fixed = await until("shots: 4096")
    expect(fixed.points[0]).not.toHaveProperty("stoppedBy")
    expect(tableOf(fixed).columns.map(({ name }) => name)).not.toContain("stopped_by")
    fixed.points.forEach(({ estimates, differences }, index) => {
      const waited = difference.points[index]!
      expect(waited.estimates.save_rate).toEqual(widened(estimates.save_rate!, 0, 1))
      expect(waited.differences.save_rate).toEqual(widened(differences.save_rate!, -1, 1))
    })
    const [waited, alike] = [difference.curves[0]!, fixed.curves[0]!]
    expect(waited.best).toEqual(widened(alike.best, 0.8, 1.4))
    expect(waited.plateau.width).toEqual(widened(alike.plateau.width, 0, 1.4 - 0.8))
    expect(waited.missed).toEqual(alike.missed.map(({ by, change }) => ({ by, change: widened(change, -1, 1) })))
    expect(waited.probabilityBest).toEqual(alike.probabilityBest)
  })
})
