import { describe, expect, test } from "vitest"
import { type Overrides, readExperimentText } from "../../../src/experiments/read/read-experiment.ts"

const DEPTHS = "sweep: { goalie.depth: [1 m, 2 m] }"

function resultOf(body: string, overrides: Overrides = {}) {
  return readExperimentText("depth.yaml", `question: How deep?\n${body}`, overrides)
}

function read(body: string, overrides: Overrides = {}) {
  const result = resultOf(body, overrides)
  return "experiment" in result ? result.experiment : result
}

function messagesOf(body: string, overrides: Overrides = {}): string[] {
  const result = resultOf(body, overrides)
  return "problems" in result ? result.problems.map((problem) => problem.text) : []
}

describe("when a run ends", () => {
  test("a half-width is of the save rate unless file or flag say that it is of the difference", () => {
    const body = `${DEPTHS}\nuntil: { half-width: 1 %`
    expect(read(`${body} }`)).not.toHaveProperty("judged")
    expect(read(`${body}, of: save rate }`)).not.toHaveProperty("judged")
    expect(read(`${body}, of: Difference }`)).toMatchObject({ judged: "difference", halfWidth: 0.01 })
    expect(read(`${body} }`, { halfWidthOf: "difference" })).toHaveProperty("judged", "difference")
    expect(read(`${body}, of: difference }`, { halfWidthOf: "save rate" })).not.toHaveProperty("judged")
    const flags = { halfWidth: "0.3 %", halfWidthOf: "difference" }
    expect(read(DEPTHS, flags)).toMatchObject({ judged: "difference", shots: 400_000 })
  })

  // seen to fail: a difference waited for where every point is its own baseline; the flag alone passed over
  test.each<[string, string, string]>([
    [
      "shots against the ceiling",
      "shots: 5000\nuntil: { half-width: 1 %, most: 9000 }",
      "Cannot read depth.yaml:3:1 as until.most must be the same as shots, 5000, or left out: current value is 9000 (both are the ceiling)",
    ],
    [
      "a half-width of nothing",
      "until: { half-width: 0 % }",
      "Cannot read depth.yaml:2:10 as until.half-width must be between 0.01 % and 20 %: current value is 0 %",
    ],
    [
      "a half-width of something else",
      "until: { half-width: 1 %, of: diference }",
      "Cannot read depth.yaml:2:27 as until.of must be one of save rate or difference: current value is diference (did you mean difference?)",
    ],
    [
      "the half-width of a difference where each point is its own baseline",
      "sweep: { play.distance: [5 m, 9 m] }\nuntil: { half-width: 1 %, of: difference }",
      "Cannot read depth.yaml:3:1 as until.of must be save rate where no point has another as its baseline: current value is difference (sweep or compare something of the goalie)",
    ],
  ])("is refused in one clear message for %s", (_name, body, message) => {
    expect(messagesOf(body)).toEqual([message])
  })

  test.each<[string, Overrides, string]>([
    [
      "whose half-width, without one",
      { halfWidthOf: "difference" },
      "Cannot read --half-width-of difference as until.of must be left out where no half-width is wanted: current value is difference (give --half-width 0.5%)",
    ],
  ])("passes the same checks as a flag: %s", (_name, overrides, message) => {
    expect(messagesOf(DEPTHS, overrides)).toEqual([message])
  })
})
