import { describe, expect, test } from "vitest"
import { readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import { answerOf } from "../../../src/experiments/report/answer.ts"
import { runExperiment } from "../../../src/experiments/run/run-experiment.ts"

const TEXT = `question: Does it matter?
sweep: { goalie.depth: [0.5 m, 1.5 m], play.distance: [5 m, 12 m] }
interaction:
  - { name: as it is, change: goalie.depth, between: play.distance }
  - { name: turned, change: goalie.depth, from: 1.5 m, to: 0.5 m, between: play.distance }
measures: [save rate]
shots: 2048
seed: interactions
`

describe("an interaction of a run", () => {
  // seed interactions, n = 2,048 a point; seen red: the effects taken in the other order
  test("is the difference of the two effects, with an interval of its own, and is said first", async () => {
    const read = readExperimentText("e.yaml", TEXT)
    if ("problems" in read) throw new Error(read.problems[0]!.text)
    const options = { version: "test", workers: 1, assumptions: false, pictures: false }
    const results = await runExperiment(read.experiment, options)
    const [one, turned] = results.interactions!
    const rate = (index: number) => results.points[index]!.estimates.save_rate!.mean
    expect(one!.effects[0].mean).toBeCloseTo(rate(1) - rate(0), 12)
    expect(one!.effects[1].mean).toBeCloseTo(rate(3) - rate(2), 12)
    expect(one!.difference.mean).toBeCloseTo(one!.effects[1].mean - one!.effects[0].mean, 12)
    expect(turned!.difference.mean).toBeCloseTo(-one!.difference.mean, 12)
    expect(one!.difference.low).toBeLessThan(one!.difference.mean)
    expect(one!.assumptions).toBeNull()
    expect([one!.sincePrevious, turned!.sincePrevious]).toEqual([null, null])
    const { headline, findings } = answerOf(results)
    expect(headline).toMatch(
      /^As it is: 1\.5 m instead of 0\.5 m is worth \d+\.\d points \[.*\] more in distance (5|12) m/,
    )
    expect(findings[0]!.sentence).toContain("a difference of")
  })
})
