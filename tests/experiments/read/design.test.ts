import { describe, expect, test } from "vitest"
import type { DesignPoint, Experiment } from "../../../src/experiments/experiment.ts"
import { type Overrides, readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import { QUANTITIES } from "../../../src/models/settings.ts"

/** Reads a sound file below a question; a problem fails the test with its text. */
function read(body: string, overrides: Overrides = {}): Experiment {
  const result = readExperimentText("folder/depth.yaml", `question: How deep?\n${body}`, overrides)
  if ("problems" in result) throw new Error(result.problems.map((problem) => problem.text).join("\n"))
  return result.experiment
}

function sweptValues(experiment: Experiment): (readonly (number | string)[])[] {
  return experiment.points.map((point) => point.swept)
}

describe("a sweep", () => {
  // mutation seen red: rounding to the step's decimals left out, 0.30000000000000004 m instead of 0.3 m
  test("counts its steps without gathering error, and ends on the end", () => {
    const { sweep } = read("sweep: { goalie.depth: { from: 0 m, to: 2.5 m, step: 0.1 m } }")
    expect(sweep[0]?.values).toEqual(Array.from({ length: 26 }, (_, i) => Number((i / 10).toFixed(1))))
  })

  test("stops before an end that its steps miss", () => {
    expect(read("sweep: { goalie.depth: { from: 0 m, to: 1 m, step: 0.4 m } }").sweep[0]?.values).toEqual([0, 0.4, 0.8])
  })

  test("by steps has that many values with both ends", () => {
    expect(read("sweep: { goalie.depth: { from: 0 m, to: 1 m, steps: 5 } }").sweep[0]?.values).toEqual([
      0, 0.25, 0.5, 0.75, 1,
    ])
  })

  test("keeps the unit of the file for axes and columns, and SI for the values", () => {
    const [swept] = read("sweep: { goalie.depth: { from: 2 ft, to: 1.2192 m, step: 6 in } }").sweep
    expect(swept).toMatchObject({ kind: "quantity", unit: "ft", unitFactor: 0.3048, unitZero: 0 })
    const feet = swept?.values.map((value) => (value as number) / 0.3048)
    expect(feet?.map((value) => value.toFixed(9))).toEqual(
      ["2", "2.5", "3", "3.5", "4"].map((n) => Number(n).toFixed(9)),
    )
  })

  test("of names keeps their order", () => {
    expect(read("sweep: { goalie.hands: [tucked, beside] }").sweep[0]?.values).toEqual(["tucked", "beside"])
  })

  test("crosses keys, the first of the file fastest, and cases outermost", () => {
    const experiment = read(
      [
        "sweep: { goalie.depth: [1 m, 2 m], play.distance: [5 m, 9 m] }",
        "compare: [{ name: low }, { name: high, goalie.stance: upright }]",
      ].join("\n"),
    )
    const once = [
      [1, 5],
      [2, 5],
      [1, 9],
      [2, 9],
    ]
    expect(sweptValues(experiment)).toEqual([...once, ...once])
    expect(experiment.points.map((point) => point.case)).toEqual([...Array(4).fill("low"), ...Array(4).fill("high")])
    expect(experiment.points.map((point) => point.index)).toEqual([0, 1, 2, 3, 4, 5, 6, 7])
  })

  test("together moves keys in lockstep", () => {
    const experiment = read("together: [{ goalie.depth: [1 m, 2 m], goalie.stance: [set, butterfly] }]")
    expect(sweptValues(experiment)).toEqual([
      [1, "set"],
      [2, "butterfly"],
    ])
    expect(experiment.points[1]?.settings.choices["goalie.stance"]).toBe("butterfly")
    expect(experiment.points[1]?.settings.quantities["goalie.depth"]).toBe(2)
  })
})

describe("layers", () => {
  const depthOf = (point: DesignPoint | undefined): number | undefined => point?.settings.quantities["goalie.depth"]

  test("win in the order default, file, flag, case, sweep", () => {
    const body = "goalie: { stature: 1.7 m, mass: 80 kg }\ncompare: [{ name: a, goalie.mass: 90 kg }, { name: b }]"
    const { points, shared } = read(body, { set: ["goalie.stature=6 ft"] })
    expect(points[0]?.settings.quantities["goalie.mass"]).toBe(90)
    expect(points[1]?.settings.quantities["goalie.mass"]).toBe(80)
    expect(points[1]?.settings.quantities["goalie.stature"]).toBeCloseTo(1.8288, 12)
    expect(shared.quantities["play.distance"]).toBe(QUANTITIES["play.distance"].value)
  })

  test("a flag on a swept key holds it still and leaves the baseline sound", () => {
    const body =
      "sweep: { goalie.depth: [1 m, 2 m], play.distance: [5 m, 9 m] }\nbaseline: { goalie.depth: 1 m, play.distance: 9 m }"
    const { points, baseline } = read(body, { set: ["goalie.depth=1.5 m"] })
    expect(points.map(depthOf)).toEqual([1.5, 1.5])
    expect(baseline).toBe(1)
  })

  test("flags replace seed, shots and half-width", () => {
    const body = "seed: 7\nshots: 900"
    expect(read(body)).toMatchObject({ seed: "7", shots: 900, halfWidth: null })
    const changed = read(body, { seed: "other", shots: "500", halfWidth: "0.4 %" })
    expect(changed).toMatchObject({ seed: "other", shots: 500 })
    expect(changed.halfWidth).toBeCloseTo(0.004, 12)
  })

  test("an empty net is a choice like any other", () => {
    expect(read("goalie: none").points[0]?.settings.choices["play.goalie"]).toBe("none")
    const { points } = read("compare: [{ name: guarded }, { name: empty, goalie: none }]")
    expect(points.map((point) => point.settings.choices["play.goalie"])).toEqual(["present", "none"])
  })

  test("what the file says is listed, for the report", () => {
    const { setByFile, name } = read("goalie: { stance: set }\nsweep: { goalie.depth: [1 m] }")
    expect(setByFile).toEqual(["goalie.stance", "goalie.depth"])
    expect(name).toBe("depth")
  })
})

describe("places", () => {
  // mutation seen red: sine and cosine exchanged
  test("count distance and angle from the centre of the goal line, angles to the goalie's left", () => {
    const { points } = read(
      "play.from: [{ label: left, distance: 10 m, angle: 30 deg, weight: 3 }, { x: 5 m, y: -2 m }]",
    )
    const [left, right] = points[0]!.settings.origins
    expect(left).toMatchObject({ kind: "spot", label: "left", weight: 3 })
    expect(left?.kind === "spot" ? [left.x, left.y] : []).toEqual([expect.closeTo(8.660254, 6), expect.closeTo(5, 12)])
    expect(right).toEqual({ kind: "spot", label: "place 2", weight: 1, x: 5, y: -2 })
  })

  test("may be polygons and wedges", () => {
    const polygon = "{ label: slot, corners: [[4 m, -3 m], [4 m, 3 m], [9 m, 3 m]] }"
    const wedge = "{ nearest: 5 m, farthest: 9 m, from: -20 deg, to: 20 deg }"
    const [first, second] = read(`play: { from: [${polygon}, ${wedge}] }`).points[0]!.settings.origins
    expect(first).toMatchObject({
      kind: "polygon",
      corners: [
        [4, -3],
        [4, 3],
        [9, 3],
      ],
    })
    expect(second).toMatchObject({ kind: "wedge", nearest: 5, farthest: 9 })
    expect(second?.kind === "wedge" ? second.to : 0).toBeCloseTo(Math.PI / 9, 12)
  })

  test("of a case give way to a single spot and the other way round", () => {
    const spot = "{ name: spot, play.distance: 6 m }"
    const body = `play.from: [{ distance: 8 m, angle: 0 deg }]\ncompare: [{ name: places }, ${spot}]`
    expect(read(body).points.map((point) => point.settings.origins.length)).toEqual([1, 0])
  })
})

describe("the baseline", () => {
  test("is matched in what it leaves free, so that each distance has its own", () => {
    const { baseline, baselineOf } = read(
      "sweep: { goalie.depth: [1 m, 2 m], play.distance: [5 m, 9 m] }\nbaseline: { goalie.depth: 200 cm }",
    )
    expect(baseline).toBe(1)
    expect(baselineOf).toEqual([1, 1, 3, 3])
  })

  test("of a case is matched in the sweep", () => {
    const { baselineOf } = read(
      "sweep: { play.distance: [5 m, 9 m] }\ncompare: [{ name: a }, { name: b }]\nbaseline: { case: b }",
    )
    expect(baselineOf).toEqual([2, 3, 2, 3])
  })

  test("unwritten is the first case where the goalie stands nearest to the unswept depth", () => {
    const body = "goalie: { depth: 1.2 m }\nsweep: { goalie.depth: [0 m, 1 m, 2 m], play.distance: [5 m, 9 m] }"
    expect(read(body)).toMatchObject({ baseline: 1, baselineOf: [1, 1, 1, 4, 4, 4] })
  })

  test("unwritten is the first point where keys in lockstep never stand as today", () => {
    const body =
      "goalie: { depth: 2 m, stance: set }\ntogether: [{ goalie.depth: [1 m, 2 m], goalie.stance: [set, upright] }]"
    expect(read(body)).toMatchObject({ baseline: 0, baselineOf: [0, 0] })
  })
})

describe("measures and charts", () => {
  test("go by key, by words and by title", () => {
    const body = "measures: [save rate, box_area_m2, Box, box area, largest clear circle, added by reach]"
    expect(read(body).measures).toEqual(["save_rate", "box_area_m2", "clear_circle_m", "reach_rate"])
  })

  test("default to the usual ones, and no chart is a list of none", () => {
    expect(read("").measures).toContain("save_rate")
    expect(read("charts: []").charts).toEqual([])
    expect(read("charts: [Puck's eye]").charts).toEqual(["puck's eye"])
  })
})

test("an experiment crosses to a worker as it is", () => {
  const experiment = read("sweep: { goalie.depth: [1 m, 2 m] }")
  expect(structuredClone(experiment)).toEqual(experiment)
})
