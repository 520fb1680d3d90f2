import { describe, expect, test } from "vitest"
import type { Experiment } from "../../../src/experiments/experiment.ts"
import { readExperimentText } from "../../../src/experiments/read/read-experiment.ts"

const HEAD = "question: Does it matter?\nshots: 1024\n"
const SHOT_OR_PASS = `compare:
  - { name: shot, play.kind: rush, play.distance: 9 m, play.angle: -35 deg }
  - { name: pass, play.kind: late pass, play.distance: 7 m, play.angle: 35 deg }
`
const PATHS = `together:
  goalie.depth_path: [outside in, inside out]
  reference.cue: [backing in, post]
`

function read(text: string): Experiment {
  const result = readExperimentText("e.yaml", HEAD + text)
  if ("problems" in result) throw new Error(result.problems.map((problem) => problem.text).join("\n"))
  return result.experiment
}

function problemsOf(text: string): string {
  const result = readExperimentText("e.yaml", HEAD + text)
  return "problems" in result ? result.problems.map((problem) => problem.text).join("\n") : ""
}

describe("interaction:", () => {
  // seen red: a key in lockstep with the change taken for a circumstance of its own
  test("finds the four points of a change in two cases, whatever moves in lockstep with the change", () => {
    const text = `${SHOT_OR_PASS}${PATHS}interaction: { change: goalie.depth_path, between: [shot, pass] }\n`
    const { interactions, points } = read(text)
    expect(interactions).toEqual([
      {
        name: "",
        key: "goalie.depth_path",
        from: "outside in",
        to: "inside out",
        between: ["shot", "pass"],
        of: [{ where: "", points: [0, 1, 2, 3] }],
      },
    ])
    expect(points.map((point) => `${point.case} ${point.swept[0]}`)).toEqual([
      "shot outside in",
      "shot inside out",
      "pass outside in",
      "pass inside out",
    ])
  })

  test("has one for each value of what else is swept, and takes its two values from the file", () => {
    const sweep = `sweep:
  goalie.depth_path: [hold, inside out, outside in]
  play.carry_speed: [5 m/s, 8 m/s]
`
    const entry = "{ change: goalie.depth_path, from: outside in, to: inside out, between: [pass, shot] }"
    const [first] = read(`${SHOT_OR_PASS}${sweep}interaction: [${entry}]\n`).interactions!
    expect(first!.between).toEqual(["pass", "shot"])
    expect(first!.of.map(({ where }) => where)).toEqual(["carry speed 5 m/s", "carry speed 8 m/s"])
    expect(first!.of[0]!.points).toEqual([8, 7, 2, 1])
  })

  test("takes a swept key of two values for the circumstances", () => {
    const sweep = "sweep:\n  goalie.depth: [1 m, 2 m]\n  play.distance: [6 m, 12 m]\n"
    const [first] = read(`${sweep}interaction: { change: goalie.depth, between: play.distance }\n`).interactions!
    expect(first).toMatchObject({ from: "1 m", to: "2 m", between: ["distance 6 m", "distance 12 m"] })
    expect(first!.of).toEqual([{ where: "", points: [0, 1, 2, 3] }])
  })

  test("names what is wrong: a key that is not swept, a value, cases that are none", () => {
    const wrong = (entry: string) => problemsOf(`${SHOT_OR_PASS}${PATHS}interaction: ${entry}\n`)
    expect(wrong("{ between: [shot, pass] }")).toContain("interaction.change must be given")
    expect(wrong("{ change: goalie.depth, between: [shot, pass] }")).toContain(
      "interaction.change must be one of the swept keys goalie.depth_path or reference.cue: current value is goalie.depth",
    )
    expect(wrong("{ change: goalie.depth_path, from: hold, between: [shot, pass] }")).toContain(
      "one of the swept values",
    )
    expect(wrong("{ change: goalie.depth_path, between: [shot, pas] }")).toContain("interaction.between must be one of")
    expect(wrong("{ change: goalie.depth_path, between: shot }")).toContain("two of the compared cases")
    expect(wrong("{ change: goalie.depth_path }")).toContain("interaction.between must be two of the compared cases")
  })
})
