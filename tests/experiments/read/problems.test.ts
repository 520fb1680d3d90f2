import { describe, expect, test } from "vitest"
import { PROBLEM_KINDS, type Problem } from "../../../src/experiments/read/problem.ts"
import { type Overrides, readExperimentText } from "../../../src/experiments/read/read-experiment.ts"

function problemsOf(text: string, overrides: Overrides = {}): readonly Problem[] {
  const result = readExperimentText("depth.yaml", text, overrides)
  return "problems" in result ? result.problems : []
}

/** The whole messages of a file whose first line is a sound question. */
function messagesOf(body: string, overrides: Overrides = {}): string[] {
  return problemsOf(`question: How deep?\n${body}`, overrides).map((problem) => problem.text)
}

describe("one clear message for", () => {
  // mutation seen red: columns counted from 0
  test.each<[string, string, string]>([
    [
      "a value out of range, with the unit most likely meant",
      "goalie:\n  depth: 12 m",
      "Cannot read depth.yaml:3:3 as goalie.depth must be between 0 m and 8 m: current value is 12 m (did you mean 12 ft?)",
    ],
    [
      "a value far out of range, with no unit that nobody meant",
      "play.distance: 800 m",
      "Cannot read depth.yaml:2:1 as play.distance must be between 1 m and 55 m: current value is 800 m",
    ],
    [
      "a value in seconds of what is written in milliseconds",
      "goalie.reaction_median: 170 s",
      "Cannot read depth.yaml:2:1 as goalie.reaction_median must be between 0.05 s and 1 s: current value is 170 s (did you mean 170 ms?)",
    ],
    [
      "places of shots in a play that has its own",
      "play:\n  kind: two-on-one\n  from: [{ distance: 6 m, angle: 0 deg }]",
      "Cannot read depth.yaml:4:3 as play.from must be left out of the play two-on-one: current value is a list (give play.distance and play.angle)",
    ],
    [
      "a misspelt key",
      "goalie: { dpeth: 1.2 m }",
      "Cannot read depth.yaml:2:11 as goalie.dpeth must be a known key: current value is 1.2 m (did you mean goalie.depth?)",
    ],
    [
      "a key under no section",
      "stature: 1.9 m",
      "Cannot read depth.yaml:2:1 as stature must be a known key: current value is 1.9 m (did you mean goalie.stature?)",
    ],
    [
      "a misspelt section",
      "gaolie:\n  depth: 1 m",
      "Cannot read depth.yaml:2:1 as gaolie must be a known key: current value is a mapping (did you mean goalie?)",
    ],
    [
      "a section that is one word",
      "shooter: professional",
      "Cannot read depth.yaml:2:1 as shooter must be a mapping of keys to values: current value is professional",
    ],
    [
      "a missing unit",
      "goalie.depth: 1.2",
      "Cannot read depth.yaml:2:1 as goalie.depth must be a length with its unit such as 1.2 m, 120 cm, 4 ft or 6 ft 2 in: current value is 1.2 (write the unit: 1.2 m, 1.2 cm, 1.2 mm, 1.2 ft or 1.2 in)",
    ],
    [
      "a unit of something else",
      "play: { distance: 8 s }",
      "Cannot read depth.yaml:2:9 as play.distance must be a length with its unit such as 1.2 m, 120 cm, 4 ft or 6 ft 2 in: current value is 8 s (s does not measure that)",
    ],
    [
      "a unit nobody knows",
      "play: { angle: 8 degs }",
      "Cannot read depth.yaml:2:9 as play.angle must be an angle with its unit such as 12 deg or 0.2 rad: current value is 8 degs (did you mean deg?)",
    ],
    [
      "words where a number belongs",
      "goalie.depth: far out",
      "Cannot read depth.yaml:2:1 as goalie.depth must be a length with its unit such as 1.2 m, 120 cm, 4 ft or 6 ft 2 in: current value is far out",
    ],
    [
      "a list where one value belongs",
      "goalie.depth: [1 m, 2 m]",
      "Cannot read depth.yaml:2:1 as goalie.depth must be a length with its unit such as 1.2 m, 120 cm, 4 ft or 6 ft 2 in: current value is a list",
    ],
    [
      "a key with nothing behind it",
      "goalie.stature:",
      "Cannot read depth.yaml:2:1 as goalie.stature must be a length with its unit such as 1.2 m, 120 cm, 4 ft or 6 ft 2 in: current value is nothing",
    ],
    [
      "a name that is none of the choices",
      "goalie: { hands: besides }",
      "Cannot read depth.yaml:2:11 as goalie.hands must be one of stance, beside, tucked or projected: current value is besides (did you mean beside?)",
    ],
    [
      "a key written twice",
      "goalie:\n  depth: 1 m\n  depth: 2 m",
      "Cannot read depth.yaml:4:3 as goalie.depth must be written once: current value is 2 m as well as 1 m (it stands in line 3 already)",
    ],
    [
      "a section written twice",
      "goalie: { depth: 1 m }\ngoalie: { stance: set }",
      "Cannot read depth.yaml:3:1 as goalie must be written once: current value is a mapping as well as a mapping (it stands in line 2 already)",
    ],
    [
      "a part of a range written twice",
      "sweep: { goalie.depth: { from: 1 m, to: 2 m, step: 1 m, step: 1 m } }",
      "Cannot read depth.yaml:2:57 as goalie.depth.step must be written once: current value is 1 m as well as 1 m (it stands in line 2 already)",
    ],
    [
      "a key written nested and dotted",
      "goalie: { depth: 1 m }\ngoalie.depth: 2 m",
      "Cannot read depth.yaml:3:1 as goalie.depth must be written once: current value is 2 m as well as 1 m (it stands in line 2 already)",
    ],
    [
      "a tab",
      "goalie:\n\tdepth: 1 m",
      "Cannot read depth.yaml:3:1 as indentation must be made of spaces: current value is a tab (use two spaces a level)",
    ],
    [
      "an empty sweep",
      "sweep: { goalie.depth: [] }",
      "Cannot read depth.yaml:2:10 as goalie.depth must be swept over at least one value: current value is no value",
    ],
    [
      "a reversed sweep",
      "sweep: { goalie.depth: { from: 2 m, to: 1 m, step: 0.1 m } }",
      "Cannot read depth.yaml:2:10 as goalie.depth must be swept from the lower value to the higher: current value is from 2 m to 1 m (swap from and to)",
    ],
    [
      "a step of nothing",
      "sweep: { goalie.depth: { from: 1 m, to: 2 m, step: 0 m } }",
      "Cannot read depth.yaml:2:46 as goalie.depth.step must be above 0: current value is 0 m (leave the key out to hold it still)",
    ],
    [
      "a step backwards",
      "sweep: { goalie.depth: { from: 1 m, to: 2 m, step: -1 cm } }",
      "Cannot read depth.yaml:2:46 as goalie.depth.step must be above 0: current value is -1 cm (swap from and to)",
    ],
    [
      "a sweep of a million values",
      "sweep: { goalie.depth: { from: 0 m, to: 2 m, step: 0.002 mm } }",
      "Cannot read depth.yaml:2:46 as goalie.depth.step must be swept over at most 100,000 values: current value is 1,000,001 values (take a larger step)",
    ],
    [
      "sweeps that multiply to too many points",
      "sweep:\n  goalie.depth: { from: 0 m, to: 2 m, steps: 1001 }\n  play.distance: { from: 5 m, to: 9 m, steps: 1001 }",
      "Cannot read depth.yaml:2:1 as sweep must be an experiment of at most 100,000 points: current value is 1,002,001 points (cases and swept values multiply) (take larger steps)",
    ],
    [
      "a sweep that is neither list nor range",
      "sweep: { goalie.depth: 1 m }",
      "Cannot read depth.yaml:2:10 as goalie.depth must be a list of values or a range such as { from: , to: , step: }: current value is 1 m",
    ],
    [
      "a range with both step and steps",
      "sweep: { goalie.depth: { from: 0 m, to: 1 m, step: 0.5 m, steps: 3 } }",
      "Cannot read depth.yaml:2:10 as goalie.depth must be a range with from, to and either step or steps: current value is from, to, step, steps",
    ],
    [
      "one bad value in a swept list",
      "sweep: { goalie.depth: [1 m, 99 m, 2 m] }",
      "Cannot read depth.yaml:2:30 as goalie.depth must be between 0 m and 8 m: current value is 99 m",
    ],
    [
      "the same value twice in a sweep",
      "sweep: { goalie.depth: [1 m, 100 cm] }",
      "Cannot read depth.yaml:2:10 as goalie.depth must be a list that holds each value once: current value is 100 cm twice",
    ],
    [
      "lists of unequal length in lockstep",
      "together:\n  - { goalie.depth: [1 m, 2 m], play.distance: [8 m] }",
      "Cannot read depth.yaml:3:33 as play.distance must be as long as goalie.depth in the same group: 2 values: current value is 1 value",
    ],
    [
      "a key swept both alone and in lockstep",
      "sweep: { goalie.depth: [1 m] }\ntogether: [{ goalie.depth: [1 m] }]",
      "Cannot read depth.yaml:3:14 as goalie.depth must be swept once: current value is swept again",
    ],
    [
      "a case without a name",
      "compare: [{ goalie.hands: beside }]",
      "Cannot read depth.yaml:2:11 as compare.name must be given: current value is a case without a name",
    ],
    [
      "two cases of one name",
      "compare: [{ name: a }, { name: a }]",
      "Cannot read depth.yaml:2:26 as compare.name must be a name of its own: current value is a again",
    ],
    [
      "a key that is swept and compared",
      "sweep: { goalie.depth: [1 m] }\ncompare: [{ name: a, goalie.depth: 2 m }]",
      "Cannot read depth.yaml:3:22 as goalie.depth must be left to the sweep: current value is 2 m in case a (sweep it or compare it)",
    ],
    [
      "a baseline value the sweep does not reach",
      "sweep: { goalie.depth: [1 m, 2 m] }\nbaseline: { goalie.depth: 1.5 m }",
      "Cannot read depth.yaml:3:13 as baseline.goalie.depth must be one of the swept values 1 m or 2 m: current value is 1.5 m",
    ],
    [
      "a baseline key that is not swept",
      "sweep: { goalie.depth: [1 m] }\nbaseline: { goalie.stance: set }",
      "Cannot read depth.yaml:3:13 as baseline.goalie.stance must be a swept key: goalie.depth: current value is set",
    ],
    [
      "a baseline case nobody compares",
      "compare: [{ name: a }]\nbaseline: { case: b }",
      "Cannot read depth.yaml:3:13 as baseline.case must be one of a: current value is b",
    ],
    [
      "a baseline whose values in lockstep never meet",
      "together: [{ goalie.depth: [1 m, 2 m], play.distance: [8 m, 9 m] }]\nbaseline: { goalie.depth: 1 m, play.distance: 9 m }",
      "Cannot read depth.yaml:3:1 as baseline must be a point of the experiment: current value is values that never stand together",
    ],
    [
      "a number with a thousands comma",
      "shots: 40,000",
      "Cannot read depth.yaml:2:1 as shots must be a whole number from 100 to 1,073,741,824: current value is 40,000 (write 40000)",
    ],
    [
      "an unknown measure",
      "measures: [save rat]",
      "Cannot read depth.yaml:2:12 as measures must be made of known measures: current value is save rat (did you mean save rate?)",
    ],
    [
      "an unknown chart",
      "charts: [curves]",
      "Cannot read depth.yaml:2:10 as charts must be one of curve, heat map, puck's eye, reach map, goal map, bars, goals saved, plan view, open net or angle error: current value is curves (did you mean curve?)",
    ],
    [
      "a list of places beside a single spot",
      "play: { distance: 8 m, from: [{ distance: 8 m, angle: 0 deg }] }",
      "Cannot read depth.yaml:2:9 as play.distance must be left out where play.from lists the places: current value is 8 m (keep one of the two)",
    ],
    [
      "a swept distance beside a list of places",
      "play.from: [{ distance: 8 m, angle: 0 deg }]\nsweep: { play.distance: [8 m] }",
      "Cannot read depth.yaml:3:10 as play.distance must be left unswept where play.from lists the places: current value is a sweep (keep one of the two)",
    ],
    [
      "a place that is half polar",
      "play.from: [{ distance: 8 m }]",
      "Cannot read depth.yaml:2:13 as play.from must be distance and angle, or x and y, or corners, or nearest, farthest, from and to: current value is distance",
    ],
    [
      "a place behind the shooter's reach of the net",
      "play.from: [{ x: 0.2 m, y: 0.1 m }]",
      "Cannot read depth.yaml:2:13 as play.from must be 1 m to 55 m from the centre of the goal line and not behind it: current value is (0.2 m, 0.1 m)",
    ],
    [
      "a polygon with two corners",
      "play.from: [{ corners: [[5 m, 0 m], [6 m, 0 m]] }]",
      "Cannot read depth.yaml:2:15 as play.from.corners must be a list of at least three corners, each [x, y]: current value is a list",
    ],
    [
      "a wedge the wrong way round",
      "play.from: [{ nearest: 9 m, farthest: 5 m, from: 0 deg, to: 9 deg }]",
      "Cannot read depth.yaml:2:13 as play.from must be a wedge from nearest up to farthest and from one angle up to the other: current value is the other way round",
    ],
    [
      "places that are never used",
      "play.from: [{ distance: 8 m, angle: 0 deg, weight: 0 }]",
      "Cannot read depth.yaml:2:1 as play.from must be places of which at least one has a weight above 0: current value is only weights of 0",
    ],
    [
      "a goalie file and a word",
      "goalie: none\ngoalie.file: tall.yaml",
      "Cannot read depth.yaml:2:1 as goalie must be given once: current value is none as well as file: tall.yaml (keep one of the two)",
    ],
    [
      "a depth beside a level of depth",
      "goalie: { depth: 1 m }\nsweep: { goalie.depth_level: [base, aggressive] }",
      "Cannot read depth.yaml:3:10 as goalie.depth_level must be left out where goalie.depth says how far out: current value is a list (keep one of the two)",
    ],
    [
      "two YAML documents",
      "---\nquestion: again",
      "Cannot read depth.yaml:2:1 as the file must be YAML: current value is text that is not: Source contains multiple documents (keep one experiment in a file)",
    ],
  ])("%s", (_name, body, message) => {
    // a goalie file that is missing adds its own message; all others come alone
    expect(messagesOf(body).filter((text) => !text.includes("an existing file"))).toEqual([message])
  })

  test("a question that is a number, and one that is missing", () => {
    expect(problemsOf("question: 42").map((problem) => problem.text)).toEqual([
      "Cannot read depth.yaml:1:1 as question must be text: current value is 42",
    ])
    expect(problemsOf("why: because").map((problem) => problem.text)).toEqual([
      "Cannot read depth.yaml:1:1 as question must be given in one sentence: current value is nothing",
    ])
  })

  test("a file that is a list", () => {
    expect(problemsOf("- question: x").map((problem) => problem.kind)).toEqual(["wrong type"])
  })

  test("text that is no YAML", () => {
    expect(problemsOf("question: [1, 2").map((problem) => problem.kind)).toEqual(["not YAML"])
    expect(problemsOf("question: how: deep").map((problem) => problem.kind)).toEqual(["not YAML"])
  })

  // mutation seen red: the ceiling on aliases switched off
  test("aliases that stand for billions of values, and for none", () => {
    const layers = ["a: &a [x, x, x, x, x, x, x, x, x, x]"]
    for (const [from, to] of ["ab", "bc", "cd", "de", "ef", "fg", "gh", "hi", "ij"].map((pair) => [...pair])) {
      layers.push(`${to}: &${to} [${Array.from({ length: 10 }, () => `*${from}`).join(", ")}]`)
    }
    expect(problemsOf(`question: x\n${layers.join("\n")}`).map((problem) => problem.kind)).toEqual(["too many aliases"])
    expect(problemsOf("question: *nobody").map((problem) => problem.kind)).toEqual(["too many aliases"])
  })
})

describe("readExperiment()", () => {
  test("reports all problems of a file at once, from top to bottom", () => {
    const problems = problemsOf(
      [
        "question: 1",
        "goalie: { depth: 12 m, hands: high }",
        "play: { distance: 8 }",
        "sweep: { goalie.depht: [1 m] }",
        "shots: many",
        "charts: [pie]",
        "colour: red",
      ].join("\n"),
    )
    expect(problems.map((problem) => [problem.line, problem.kind])).toEqual([
      [1, "wrong type"],
      [2, "out of range"],
      [2, "unknown name"],
      [3, "missing unit"],
      [4, "unknown key"],
      [5, "not a number"],
      [6, "unknown name"],
      [7, "unknown key"],
    ])
    for (const problem of problems) expect(PROBLEM_KINDS).toContain(problem.kind)
  })

  test("does not blame a baseline for a sweep that has its own problem", () => {
    const body = "sweep: { goalie.depth: [1 m, 99 m] }\nbaseline: { goalie.depth: 1 m }"
    expect(messagesOf(body)).toHaveLength(1)
  })

  test("follows an alias and points at where it stands", () => {
    expect(messagesOf("play: { distance: &far 99 m }\nsweep: { play.distance: [*far] }")).toEqual([
      "Cannot read depth.yaml:2:9 as play.distance must be between 1 m and 55 m: current value is 99 m (did you mean 99 ft?)",
      "Cannot read depth.yaml:3:26 as play.distance must be between 1 m and 55 m: current value is 99 m (did you mean 99 ft?)",
    ])
  })
})

describe("flags", () => {
  test.each<[string, Overrides, string]>([
    [
      "a value out of range",
      { set: ["goalie.depth=12 m"] },
      "Cannot read --set goalie.depth=12 m as goalie.depth must be between 0 m and 8 m: current value is 12 m (did you mean 12 ft?)",
    ],
    [
      "no equals sign",
      { set: ["goalie.depth"] },
      "Cannot read --set goalie.depth as --set must be key=value such as goalie.depth=1 m: current value is goalie.depth",
    ],
    [
      "a key nobody knows",
      { set: ["goalie.dept=1 m"] },
      "Cannot read --set goalie.dept=1 m as goalie.dept must be a known key: current value is goalie.dept=1 m (did you mean goalie.depth?)",
    ],
    [
      "a key that every case sets",
      { set: ["goalie.hands=beside"] },
      "Cannot read --set goalie.hands=beside as goalie.hands must be a key that no compared case sets: current value is beside (case a sets it)",
    ],
    [
      "a key in lockstep",
      { set: ["play.distance=8 m"] },
      "Cannot read --set play.distance=8 m as play.distance must be a key that is not swept together with others: current value is 8 m",
    ],
    [
      "too few shots",
      { shots: "3" },
      "Cannot read --shots 3 as shots must be a whole number from 100 to 1,073,741,824: current value is 3",
    ],
    [
      "a half-width of half",
      { halfWidth: "0.5" },
      "Cannot read --half-width 0.5 as until.half-width must be between 0.0001 and 0.2: current value is 0.5 (did you mean 0.5 %?)",
    ],
    ["an empty seed", { seed: "" }, "Cannot read --seed  as seed must be text: current value is empty text"],
  ])("pass the same checks: %s", (_name, overrides, message) => {
    const body =
      "compare: [{ name: a, goalie.hands: tucked }]\ntogether: [{ play.distance: [8 m, 9 m], play.angle: [0 deg, 1 deg] }]"
    expect(messagesOf(body, overrides)).toEqual([message])
  })
})
