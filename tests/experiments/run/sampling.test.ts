import { describe, expect, test } from "vitest"
import { type Experiment, samplingOf } from "../../../src/experiments/experiment.ts"
import { type Overrides, readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import { reportOf } from "../../../src/experiments/report/report.ts"
import { differencesOf, identityOf } from "../../../src/experiments/run/checkpoint-identity.ts"
import { runExperiment } from "../../../src/experiments/run/run-experiment.ts"
import { manifestOf } from "../../../src/experiments/write/manifest.ts"
import { compileScene } from "../../../src/models/plays/scene.ts"
import { defaultSettings } from "../../../src/models/settings.ts"
import { INDEPENDENT_DRAWS, SAMPLERS, SCRAMBLED_POINTS, USUAL_SAMPLER } from "../../../src/sim/sampler.ts"
import { shotBatch } from "../../../src/sim/shots.ts"

const POINTS = `sampling: ${SCRAMBLED_POINTS}`
const DRAWS = `sampling: ${INDEPENDENT_DRAWS}`

function read(body: string, overrides: Overrides = {}): Experiment {
  const result = readExperimentText("depth.yaml", `question: How deep?\n${body}`, overrides)
  if ("problems" in result) throw new Error(result.problems.map(({ text }) => text).join("\n"))
  return result.experiment
}

const OPTIONS = { version: "0", workers: 1, assumptions: false, pictures: false }
const FACTS = { fileHash: "", durationSeconds: 0, hardware: "", workers: 1, stoppedBy: "shots" }

describe("where draws come from", () => {
  // seen red: USUAL_SAMPLER set to independent draws
  test("is the points where nobody says", () => {
    expect(USUAL_SAMPLER).toBe(SCRAMBLED_POINTS)
    const unsaid = read("shots: 512")
    expect(samplingOf(unsaid)).toBe(SCRAMBLED_POINTS)
    expect(identityOf(unsaid, "0")).toEqual(identityOf(read(`shots: 512\n${POINTS}`), "0"))
    expect(shotBatch(compileScene([defaultSettings()]), 16).spread).not.toBeNull()
  })

  // seen red: the flag passed over
  test("is what the file says, and the flag more than the file", () => {
    expect(SAMPLERS.map((name) => samplingOf(read(`sampling: ${name}`)))).toEqual([...SAMPLERS])
    expect(samplingOf(read("sampling: Scrambled sobol points"))).toBe(SCRAMBLED_POINTS)
    expect(samplingOf(read(POINTS, { sampling: INDEPENDENT_DRAWS }))).toBe(INDEPENDENT_DRAWS)
    expect(samplingOf(read(DRAWS, { sampling: SCRAMBLED_POINTS }))).toBe(SCRAMBLED_POINTS)
  })

  test("is one of two by name", () => {
    expect(() => read("sampling: scrambled Sobol point")).toThrow(
      "Cannot read depth.yaml:2:1 as sampling must be one of scrambled Sobol points or independent draws: current value is scrambled Sobol point (did you mean scrambled Sobol points?)",
    )
  })

  // seen red: left out of the identity
  test("cannot change in an unfinished run", () => {
    const [points, draws] = [read(POINTS), read(DRAWS)].map((experiment) => identityOf(experiment, "0"))
    expect(differencesOf(points!, draws!)).toEqual(["sampling (scrambled Sobol points, now independent draws)"])
    expect(differencesOf(points!, identityOf(read(POINTS), "0"))).toEqual([])
  })

  // seen red: the engine of the run's tasks made without its sampler
  test("is told by manifest and report, with what has no dimension, and decides the shots", async () => {
    const [points, draws, rebounds] = await Promise.all(
      [POINTS, DRAWS, `${POINTS}\nplay.rebounds: played`].map((line) =>
        runExperiment(read(`shots: 512\n${line}`), OPTIONS),
      ),
    )
    const rate = (results: typeof points) => results!.points[0]!.estimates.save_rate!.mean
    expect(rate(points)).not.toBe(rate(draws))
    expect(JSON.parse(manifestOf(points!, FACTS, []))).toMatchObject({
      sampling: SCRAMBLED_POINTS,
      pointDimensions: 30,
      independentDrawsBeyond: 0,
    })
    expect(JSON.parse(manifestOf(draws!, FACTS, []))).toMatchObject({ sampling: INDEPENDENT_DRAWS })
    expect(JSON.parse(manifestOf(draws!, FACTS, []))).not.toHaveProperty("pointDimensions")
    expect(JSON.parse(manifestOf(rebounds!, FACTS, [])).independentDrawsBeyond).toBeGreaterThan(0)
    const said = "each shot is a point of the Sobol&#39; sequence in 30 dimensions"
    const fallsBack = /the \d+ draws of a shot beyond these dimensions/
    expect(reportOf(points!, [])).toContain(said)
    expect(reportOf(points!, [])).not.toMatch(fallsBack)
    expect(reportOf(rebounds!, [])).toMatch(fallsBack)
    expect(reportOf(draws!, [])).not.toContain(said)
  })
})
