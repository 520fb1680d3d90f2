import { beforeAll, describe, expect, test } from "vitest"
import { openNetChart } from "../../../src/experiments/charts/open-net.ts"
import { svgOf } from "../../../src/experiments/charts/render.ts"
import type { Experiment } from "../../../src/experiments/experiment.ts"
import { OPEN_NET_KEYS } from "../../../src/experiments/measures.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import { openNetCurve, openNetShares } from "../../../src/experiments/run/open-net.ts"
import { openNetLines } from "../../../src/experiments/run/open-net-points.ts"
import { runExperiment } from "../../../src/experiments/run/run-experiment.ts"
import { tableOf } from "../../../src/experiments/write/table.ts"
import { INDEPENDENT_DRAWS } from "../../../src/sim/sampler.ts"
import { KEY, playing } from "../../engine/scenes.ts"
import { pointsOnly, shipped } from "../../golden/shipped.ts"
import { lost, overlaps, textBoxes } from "../charts/text-boxes.ts"

const PASS = shipped().find(({ name }) => name === "open-net-on-the-pass")!

function run(experiment: Experiment, pictures = true): Promise<RunResults> {
  return runExperiment({ ...experiment, shots: 512 }, { version: "test", workers: 1, assumptions: false, pictures })
}

describe("a run that asks for the open net", () => {
  let results: RunResults
  beforeAll(async () => {
    // the slow and the quick push, near the net and far out
    results = await run(pointsOnly(PASS, [0, 2, 6, 8]))
  }, 300_000)

  // seen to fail: the estimates left out of the points
  test("has its three measures with intervals at every point, in columns that carry their unit", () => {
    for (const { estimates } of results.points)
      for (const key of OPEN_NET_KEYS) {
        const { low, mean, high, n } = estimates[key]!
        expect(low < mean && mean < high).toBe(true)
        expect(n).toBe(128)
      }
    const names = tableOf(results).columns.map(({ name }) => name)
    for (const key of OPEN_NET_KEYS) expect(names).toContain(`${key}_low`)
    expect(OPEN_NET_KEYS.filter((key) => key.endsWith("_s"))).toEqual(["open_net_time_s"])
  })

  // seen to fail: the slow push drawn with the numbers of the quick one
  test("finds less open net with a quicker push, where the goalie has far to go", () => {
    const at = (name: string) =>
      results.points.find((point) => point.case === name && point.swept[0] === 1.5)!.estimates.open_at_release!
    expect(at("slow push").low).toBeGreaterThan(at("quick push").high)
    for (const { estimates } of results.points)
      expect(estimates.open_most!.mean).toBeGreaterThanOrEqual(estimates.open_at_release!.mean)
  })

  // seen to fail: the curve's instants from the start of the play
  test("draws curves whose mean at the release is the measure's own", () => {
    for (const { index, at, mean, low, high } of results.openNets!) {
      const release = at.indexOf(0)
      expect(mean[release]).toBeCloseTo(results.points[index]!.estimates.open_at_release!.mean, 6)
      expect(at.every((t, i) => i === 0 || t > at[i - 1]!)).toBe(true)
      expect(mean.every((share, i) => low[i]! <= high[i]! && share >= 0 && share <= 1)).toBe(true)
    }
  })

  // seen to fail: names at the heights of their lines
  test("draws a panel for each depth and a line for each push, no text on another", async () => {
    const svg = await svgOf(openNetChart(results)!)
    const boxes = textBoxes(svg)
    expect(overlaps(boxes)).toEqual([])
    expect(lost(svg, boxes)).toEqual([])
    const texts = boxes.map(({ text }) => text)
    for (const name of ["Slow push", "Quick push", "release", "pass"])
      expect(texts.filter((text) => text === name)).toHaveLength(2)
    expect(texts).toContain("Depth 1.5 m")
    expect(texts).toContain("Time from the release, s")
  })

  // seen to fail: the first line's start drawn for all
  test("draws the start of the pass of every line where passes start at times of their own", async () => {
    const [slow, quick] = results.openNets!.filter(({ panel }) => panel === "depth 0.3 m")
    const drawn = (openNets: NonNullable<RunResults["openNets"]>) => svgOf(openNetChart({ ...results, openNets })!)
    const uprights = (svg: string) => svg.match(/stroke-dasharray="3,3"/g)!.length
    const apart = await drawn([slow!, { ...quick!, starts: slow!.starts / 2 }])
    expect(uprights(apart)).toBe(2)
    expect(textBoxes(apart).filter(({ text }) => text === "pass")).toHaveLength(2)
    const near = await drawn([slow!, { ...quick!, starts: slow!.starts + 0.02 }])
    expect(uprights(near)).toBe(2)
    expect(overlaps(textBoxes(near))).toEqual([])
    expect(uprights(await drawn([slow!, quick!]))).toBe(1)
  })
})

test("a run that does not list the open net does not look for it, and a play without a move has none", async () => {
  const few = { ...pointsOnly(PASS, [0]), measures: ["save_rate"], charts: [] }
  const { points, openNets } = await run(few, false)
  expect(points[0]!.estimates.open_at_release).toBeUndefined()
  expect(openNets).toBeUndefined()
  const straight = playing({}, { "play.kind": "straight shot" })
  expect(openNetShares(straight, KEY, INDEPENDENT_DRAWS)).toBeNull()
  expect(openNetCurve(straight, KEY, INDEPENDENT_DRAWS)).toBeNull()
})

// behind the goal line no puck sees the mouth; seen to fail with the share there taken as all of it
test("a wrap-around opens the net only once the puck is round the post", () => {
  const { at, mean } = openNetCurve(playing({}, { "play.kind": "wrap-around" }), KEY, INDEPENDENT_DRAWS)!
  // the curve begins where one shot in twenty has
  expect(mean[0]).toBeLessThan(7 / 128)
  expect(mean[at.indexOf(0)]).toBeGreaterThan(0)
})

// seen to fail: the first of too many places taken
test("openNetLines() draws a line for each place of a file without cases, the first and the last among them", () => {
  const many = shipped().find(({ name }) => name === "play-of-our-own")!
  const lines = openNetLines(many)
  expect(lines.map(({ panel }) => panel)).toEqual(lines.map(() => ""))
  expect(lines[0]!.label).toBe("the goal line")
  expect(lines.at(-1)!.label).toBe("depth 2.2 m")
  expect(lines.length).toBe(5)
})
