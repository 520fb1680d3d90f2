import { describe, expect, test } from "vitest"
import type { Experiment } from "../../../src/experiments/experiment.ts"
import { type Overrides, readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import { TRAINABLE } from "../../../src/experiments/sensitivity/training.ts"
import { QUANTITIES, type QuantityKey } from "../../../src/models/settings.ts"

function read(body: string, overrides: Overrides = {}): Experiment {
  const result = readExperimentText("train.yaml", `question: What counts?\n${body}`, overrides)
  if ("problems" in result) throw new Error(result.problems.map((problem) => problem.text).join("\n"))
  return result.experiment
}

/** What the remedy of a design shows. */
const EXAMPLE = "design: { kind: sobol, points: 64, over: { goalie.depth: { from: 0 m, to: 2 m }, goalie.stature: } }"

function messagesOf(body: string): string[] {
  const result = readExperimentText("train.yaml", `question: What counts?\n${body}`)
  return "problems" in result ? result.problems.map((problem) => problem.text) : []
}

describe("sensitivity:", () => {
  test("over a list takes each quantity's plausible range, and one from the file where it stands", () => {
    const { sensitivity } = read(
      "sensitivity: { over: [goalie.drop_time, { goalie.depth: { from: 3 ft, to: 6 ft } }, goalie.arm_speed] }",
    )
    const { low, high } = QUANTITIES["goalie.drop_time"]
    expect(sensitivity).toMatchObject({ of: "save_rate", over: "listed", shots: 4096 })
    expect(sensitivity?.ranges[0]).toEqual({ key: "goalie.drop_time", low, high })
    expect(sensitivity?.ranges[1]?.low).toBeCloseTo(0.9144, 9)
    expect(sensitivity?.ranges[1]?.high).toBeCloseTo(1.8288, 9)
    expect(sensitivity?.ranges.length).toBe(3)
  })

  test("over a mapping may be nested, and nothing after a key means its plausible range", () => {
    const { sensitivity } = read(
      "sensitivity:\n  of: goal rate\n  sets: 32\n  over:\n    goalie: { arm_speed: , depth: { from: 1 m, to: 2 m } }",
    )
    expect(sensitivity).toMatchObject({ of: "goal_rate", sets: 32 })
    expect(sensitivity?.ranges.map(({ key }) => key)).toEqual(["goalie.arm_speed", "goalie.depth"])
  })

  // seen red: what moves on the ice kept for a straight shot
  test("over training leaves out skating where the goalie stands still, and takes it where a pass moves the goalie", () => {
    const keys = (body: string) => read(body).sensitivity!.ranges.map(({ key }) => key as string)
    const still = keys("play: { kind: straight shot }\nsensitivity: { over: training }")
    expect(still).toContain("goalie.reaction_median")
    expect(still.filter((key) => key.startsWith("movement."))).toEqual([])
    expect(keys("play: { kind: cross-ice pass }\nsensitivity: { over: training }")).toContain("movement.t_push_speed")
  })

  test("over assumptions takes what has a range and the file leaves alone", () => {
    const { sensitivity } = read("goalie.arm_speed: 5 m/s\nsensitivity: { over: assumptions }")
    const keys: string[] = sensitivity!.ranges.map(({ key }) => key)
    expect(keys.length).toBeGreaterThan(40)
    expect(keys).not.toContain("goalie.arm_speed")
    expect(keys).not.toContain("goalie.depth")
  })

  // seen red: sets doubled
  test("keeps to so few values that a usual run takes a third of a minute, whatever the number of quantities", () => {
    for (const over of ["training", "[goalie.arm_speed, goalie.drop_time]"]) {
      const { ranges, sets } = read(`sensitivity: { over: ${over} }`).sensitivity!
      expect(Number.isInteger(Math.log2(sets))).toBe(true)
      expect(sets * (ranges.length + 2)).toBeLessThanOrEqual(1200)
    }
    // among a hundred assumptions fewer shots behind each value make up for more values
    const { ranges, sets, shots } = read("sensitivity: { over: assumptions }").sensitivity!
    expect(sets).toBeGreaterThanOrEqual(32)
    expect(sets * (ranges.length + 2) * shots).toBeLessThanOrEqual(4_800_000)
  })
})

describe("design:", () => {
  const DESIGN =
    "design: { kind: sobol, points: 16, over: { goalie.depth: { from: 0 m, to: 2 m }, goalie.arm_speed: } }"

  test("reads the example that its problems show", () => {
    expect(read(EXAMPLE).points).toHaveLength(64)
  })

  // seen red: the unit box not stretched over the range
  test("spreads points over all ranges at once, evenly over each, and the seed moves them", () => {
    const { sweep, points, design } = read(DESIGN)
    expect(design).toEqual({ kind: "sobol", points: 16 })
    expect(points.length).toBe(16)
    const depths = points.map(({ settings }) => settings.quantities["goalie.depth"])
    expect(new Set(depths.map((depth) => Math.floor(depth * 8))).size).toBe(16)
    const speeds = points.map(({ settings }) => settings.quantities["goalie.arm_speed"])
    const { low, high } = QUANTITIES["goalie.arm_speed"]
    expect(Math.min(...speeds)).toBeGreaterThanOrEqual(low)
    expect(Math.max(...speeds)).toBeLessThanOrEqual(high)
    expect(sweep.map(({ key }) => key as string)).toEqual(["goalie.depth", "goalie.arm_speed"])
    expect(read(DESIGN, { seed: "another" }).points[0]?.swept).not.toEqual(points[0]?.swept)
  })

  test("of a latin hypercube takes any number of points, and crosses with compared cases", () => {
    const body = DESIGN.replace("sobol, points: 16", "latin hypercube, points: 11")
    const cases = "compare: [{ name: set }, { name: wide, goalie.stance: butterfly }]"
    const { points } = read(`${body}\n${cases}`)
    expect(points.length).toBe(22)
    expect(points[0]?.swept).toEqual(points[11]?.swept)
  })
})

describe("one clear message for", () => {
  test.each<[string, string, string]>([
    [
      "a sensitivity over nothing",
      "sensitivity: { of: save rate }",
      "Cannot read train.yaml:2:1 as sensitivity.over must be given: training, assumptions, a list of quantities or a mapping of quantities to ranges: current value is nothing",
    ],
    [
      "a misspelt word",
      "sensitivity: { over: trainng }",
      "Cannot read train.yaml:2:16 as sensitivity.over must be training, assumptions, a list of quantities or a mapping of quantities to ranges: current value is trainng (did you mean training?)",
    ],
    [
      "a misspelt quantity",
      "sensitivity: { over: [goalie.arm_sped, goalie.drop_time] }",
      "Cannot read train.yaml:2:23 as goalie.arm_sped must be a known key: current value is goalie.arm_sped (did you mean goalie.arm_speed?)",
    ],
    [
      "a choice of the person's own without a range",
      "sensitivity: { over: [goalie.depth, goalie.drop_time] }",
      "Cannot read train.yaml:2:23 as goalie.depth must be given with its range, such as { from: , to: }, as nothing is assumed about it: current value is no range",
    ],
    [
      "one quantity alone",
      "sensitivity: { over: [goalie.drop_time] }",
      "Cannot read train.yaml:2:16 as sensitivity.over must be at least two quantities: current value is goalie.drop_time",
    ],
    [
      "a quantity twice",
      "sensitivity: { over: [goalie.drop_time, goalie.drop_time] }",
      "Cannot read train.yaml:2:41 as goalie.drop_time must be varied once: current value is varied again",
    ],
    [
      "a range from high to low",
      "sensitivity: { over: { goalie.depth: { from: 2 m, to: 1 m }, goalie.drop_time: } }",
      "Cannot read train.yaml:2:24 as goalie.depth must be a range from a lower value to a higher: current value is from 2 m to 1 m (swap from and to)",
    ],
    [
      "a range beyond the limits",
      "sensitivity: { over: { goalie.depth: { from: 1 m, to: 12 m }, goalie.drop_time: } }",
      "Cannot read train.yaml:2:51 as goalie.depth.to must be between 0 m and 8 m: current value is 12 m (did you mean 12 ft?)",
    ],
    [
      "half a range",
      "sensitivity: { over: { goalie.depth: { from: 1 m }, goalie.drop_time: } }",
      "Cannot read train.yaml:2:24 as goalie.depth must be a range such as { from: , to: }: current value is a mapping",
    ],
    [
      "sets that are no power of two",
      "sensitivity: { over: training, sets: 100 }",
      "Cannot read train.yaml:2:32 as sensitivity.sets must be a power of two: current value is 100 (write 64 or 128)",
    ],
    [
      "a measure it cannot ask of",
      "sensitivity: { of: net covered, over: training }",
      "Cannot read train.yaml:2:16 as sensitivity.of must be one of save rate, goal rate, on goal rate, position rate or reach rate: current value is net covered",
    ],
    [
      "a key it does not know",
      "sensitivity: { over: training, set: 64 }",
      "Cannot read train.yaml:2:32 as sensitivity.set must be a known key: current value is 64 (did you mean sensitivity.sets?)",
    ],
    [
      "a sensitivity that is one word",
      "sensitivity: training",
      "Cannot read train.yaml:2:1 as sensitivity must be a mapping of keys to values: current value is training",
    ],
    [
      "a design that is one word",
      "design: sobol",
      `Cannot read train.yaml:2:1 as design must be a mapping of keys to values: current value is sobol (such as ${EXAMPLE})`,
    ],
    [
      "a design without its number of points",
      "design: { kind: sobol, over: [goalie.arm_speed, goalie.drop_time] }",
      `Cannot read train.yaml:2:1 as design.points must be given: current value is nothing (such as ${EXAMPLE})`,
    ],
    [
      "a design beside a sweep",
      "sweep: { goalie.depth: [1 m] }\ndesign: { kind: sobol, points: 8, over: [goalie.arm_speed, goalie.drop_time] }",
      "Cannot read train.yaml:3:1 as design must be left out where keys are swept: current value is a mapping (keep one of the two)",
    ],
    [
      "a design of an unknown kind",
      "design: { kind: sobel, points: 8, over: [goalie.arm_speed, goalie.drop_time] }",
      "Cannot read train.yaml:2:11 as design.kind must be one of latin hypercube or sobol: current value is sobel (did you mean sobol?)",
    ],
  ])("%s", (_, body, message) => {
    expect(messagesOf(body)).toEqual([message])
  })

  test("every mistake of both at once, in the order of the file", () => {
    const found = messagesOf(
      [
        "sensitivity: { of: saves, over: [goalie.dept, goalie.drop_time], sets: 3 }",
        "design: { kind: sobol, over: { goalie.depth: { from: 1, to: 2 m } } }",
      ].join("\n"),
    )
    expect(found.map((text) => text.replace(/ must .*/, ""))).toEqual([
      "Cannot read train.yaml:2:16 as sensitivity.of",
      "Cannot read train.yaml:2:34 as goalie.dept",
      "Cannot read train.yaml:2:66 as sensitivity.sets",
      "Cannot read train.yaml:3:1 as design.points",
      "Cannot read train.yaml:3:48 as goalie.depth.from",
    ])
  })
})

describe("what can be trained", () => {
  test("is a quantity with a range and a better side inside its limits, each once, with a name of its own", () => {
    const keys: QuantityKey[] = TRAINABLE.map(({ key }) => key)
    expect(new Set(keys).size).toBe(keys.length)
    expect(new Set(TRAINABLE.map(({ name }) => name)).size).toBe(keys.length)
    for (const { key, better } of TRAINABLE) {
      const { low, high, least, most, value } = QUANTITIES[key]
      expect([key, high > low]).toEqual([key, true])
      const step = better === "less" ? 0.9 * value : 1.1 * value
      expect([key, step >= least && step <= most]).toEqual([key, true])
    }
  })
})
