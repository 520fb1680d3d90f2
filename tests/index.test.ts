import { fileURLToPath } from "node:url"
import { expect, test } from "vitest"
import * as library from "../src/index.ts"

const FILE = fileURLToPath(new URL("../experiments/depth-straight-shots.yaml", import.meta.url))

test("the library reads, runs and answers an experiment as its first comment shows", async () => {
  const read = library.readExperiment(FILE, { shots: "512", set: ["play.distance=8 m"] })
  if ("problems" in read) throw new Error(read.problems.map((problem) => problem.text).join("\n"))
  const results = await library.runExperiment(read.experiment, { version: "mine", workers: 1, assumptions: false })
  expect(library.answerOf(results).headline).toMatch(/depth/i)
  const { mean, low, high } = results.points[0]!.estimates.save_rate!
  expect(low).toBeLessThan(mean)
  expect(mean).toBeLessThan(high)
})

test("the library runs a scene by hand: settings to scene, scene to tallies, tallies to an estimate", () => {
  const settings = library.withSettings(library.defaultSettings(), { quantities: { "play.distance": 10 } })
  const scene = library.compileScene([settings])
  const { replicates, batches, batch } = library.planShots(512)
  const e = library.engine(scene, batch)
  const tallies = Array.from({ length: replicates }, (_, r) =>
    library.fireBatches(e, library.seedKey("by hand"), r, 0, batches, batch),
  )
  expect(tallies).toHaveLength(32)
  expect(library.boxOfPlay(settings).net_covered).toBeGreaterThan(0.3)
})

test("every parameter's source is in the library's bibliography", () => {
  for (const { source } of Object.values(library.QUANTITIES))
    expect(source === "choice" || source === "assumption" || source in library.SOURCES, source).toBe(true)
})
