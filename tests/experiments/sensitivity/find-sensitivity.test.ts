import { describe, expect, test } from "vitest"
import { readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import { answerOf } from "../../../src/experiments/report/answer.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import { runExperiment } from "../../../src/experiments/run/run-experiment.ts"

const FILE = `
question: What counts?
goalie: { stance: set, depth: 1.2 m }
play: { kind: straight shot, distance: 8 m }
sensitivity:
  over: [goalie.reaction_median, goalie.leak, goalie.mask_restitution]
  sets: 8
  shots: 256
shots: 512
seed: northlake sensitivity
`

async function run(text: string, workers = 1, interrupted?: () => boolean): Promise<RunResults> {
  const read = readExperimentText("what-counts.yaml", text)
  if ("problems" in read) throw new Error(read.problems.map((problem) => problem.text).join("; "))
  const options = { version: "test", workers, assumptions: false, pictures: false }
  return runExperiment(read.experiment, interrupted === undefined ? options : { ...options, interrupted })
}

describe("a run that asks what its result hangs on", () => {
  // seen red: changes given to the wrong quantity; a tenth better taken as a tenth worse
  test("finds the same on one thread and two: ranked effects, a gain for what is trained alone", async () => {
    const { sensitivity, points } = await run(FILE)
    expect((await run(FILE, 2)).sensitivity).toEqual(sensitivity)
    const { effects, values, mean } = sensitivity!
    expect(values).toBe(8 * 5)
    expect(effects.map(({ total }) => total.mean)).toEqual(effects.map(({ total }) => total.mean).sort((a, b) => b - a))
    expect(effects[0]?.behind).toBeNull()
    const of = (key: string) => effects.find((effect) => effect.key === key)!
    // how a puck comes off the mask does not decide whether it is saved
    expect(of("goalie.mask_restitution").total.mean).toBe(0)
    expect(of("goalie.reaction_median").gain!.change.low).toBeGreaterThan(0)
    expect(of("goalie.reaction_median").gain!.to).toBeCloseTo(0.9 * 0.185, 12)
    expect(of("goalie.leak").gain).toBeNull()
    // over the ranges the save rate is near that of their middle
    expect(Math.abs(mean - points[0]!.estimates.save_rate!.mean)).toBeLessThan(0.02)
  })

  test("asks nothing when the file does not, and leaves it out when interrupted", async () => {
    const plain = FILE.replace(/sensitivity:[\s\S]*?\nshots/, "shots")
    expect((await run(plain)).sensitivity).toBeUndefined()
    expect((await run(FILE, 1, () => true)).sensitivity).toBeUndefined()
  })

  test("of a design has a row for every point", async () => {
    const design = FILE.replace(/sensitivity:[\s\S]*?\nshots/, "shots").concat(
      "design: { kind: latin hypercube, points: 5, over: { goalie.depth: { from: 0.5 m, to: 2 m }, goalie.arm_speed: } }",
    )
    const results = await run(design.replace("depth: 1.2 m", "catches: left"))
    expect(results.points.length).toBe(5)
    expect(results.curves).toEqual([])
    expect(answerOf(results).headline).toMatch(/^Over 5 points of a latin hypercube design the save rate runs from \d+/)
  })
})
