import { describe, expect, test } from "vitest"
import { chartsOf, chartsWithoutShots } from "../../../src/experiments/charts/charts-of.ts"
import { drawHere } from "../../../src/experiments/charts/draw.ts"
import { openDrawing } from "../../../src/experiments/charts/drawing.ts"
import { reachMapChart } from "../../../src/experiments/charts/reach-map.ts"
import type { Experiment } from "../../../src/experiments/experiment.ts"
import { readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import type { Pictures } from "../../../src/experiments/run/pictures.ts"
import { type RunOptions, runExperiment } from "../../../src/experiments/run/run-experiment.ts"
import { depthAlone, depthByDistance } from "../fixture-results.ts"

const FILE = `question: How deep?
sweep: { goalie.depth: [0.5 m, 1.5 m] }
shots: 512
charts: [curve, puck's eye, reach map]
seed: northlake drawn
`

function asked(): Experiment {
  const read = readExperimentText("drawn.yaml", FILE)
  if ("problems" in read) throw new Error(read.problems[0]!.text)
  return read.experiment
}

function run(options: Pick<RunOptions, "probability" | "onPictures">): Promise<RunResults> {
  return runExperiment(asked(), { version: "0", workers: 1, assumptions: false, ...options })
}

describe("the thread that draws", () => {
  // seen to fail: the answers of two charts exchanged
  test("gives the bytes that this one does, of charts asked for at once", async () => {
    const drawing = openDrawing()!
    try {
      const charts = chartsOf(depthByDistance()).slice(0, 2)
      expect(charts.length).toBe(2)
      const there = await Promise.all(charts.map((chart) => drawing.draw(chart)))
      for (const [at, chart] of charts.entries()) {
        const here = await drawHere(chart)
        expect(there[at]!.svg === here.svg, chart.name).toBe(true)
        expect(Buffer.from(await there[at]!.png).equals(Buffer.from(await here.png)), chart.name).toBe(true)
      }
    } finally {
      await drawing.close()
    }
  })

  // seen to fail: the failure passed over, so that nobody's wait ended
  test("tells of a chart that cannot be drawn, and draws the next", async () => {
    const drawing = openDrawing()!
    try {
      const [chart] = chartsOf(depthAlone())
      const broken = { ...chart!, language: "vega-lite" as const, spec: {} }
      const [lost, drawn] = [drawing.draw(broken), drawing.draw(chart!)]
      await expect(lost).rejects.toThrow("Invalid specification")
      expect((await drawn).svg).toContain("<svg")
    } finally {
      await drawing.close()
    }
  })
})

// seen to fail: a chart that was asked for later waited for ever
test("a thread that has ended fails every chart, those asked for before and after", async () => {
  const drawing = openDrawing()!
  const [chart] = chartsOf(depthAlone())
  const before = drawing.draw(chart!)
  await drawing.close()
  await expect(before).rejects.toThrow("has ended")
  await expect(drawing.draw(chart!)).rejects.toThrow("has ended")
})

describe("charts that hang on no shot", () => {
  // seen to fail: the maps handed over without their last
  test("are known before the first shot, and are those of the finished run", async () => {
    let early: readonly string[] = []
    const onPictures = (pictures: Pictures) => {
      early = chartsWithoutShots({ experiment, ...pictures }).map((chart) => JSON.stringify(chart))
    }
    const experiment = asked()
    const results = await run({ onPictures })
    const late = chartsOf(results).filter(({ name }) => name !== "curve")
    expect(late.map(({ name }) => name)).toEqual(["pucks-eye", "reach-map"])
    // long texts: compared, not printed
    expect(late.map((chart, at) => JSON.stringify(chart) === early[at])).toEqual([true, true])
  })

  // seen to fail: chances found whether or not they were asked for
  test("show chances of a save where the run was asked for them", async () => {
    const [without, with_] = [await run({}), await run({ probability: true })]
    expect(without.reachMaps[0]).not.toHaveProperty("probability")
    expect(reachMapChart(without, { probability: true })).toBeNull()
    expect(chartsOf(with_, { probability: true }).map(({ name }) => name)).toContain("reach-map-probability")
    const { probability, milliseconds } = with_.reachMaps[0]!
    expect(probability!.length).toBe(milliseconds.length)
    expect(reachMapChart(depthByDistance(), { probability: true })).not.toBeNull()
  })
})
