import { describe, expect, test } from "vitest"
import { angleErrorChart } from "../../../src/experiments/charts/angle-error.ts"
import { svgOf } from "../../../src/experiments/charts/render.ts"
import { readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import { anglePicturesOf } from "../../../src/experiments/run/angle-pictures.ts"
import { depthAlone } from "../fixture-results.ts"

const TEXT = `question: Puck or body?
goalie: { depth: 1.5 m }
play: { kind: straight shot, angle: 0 deg }
sweep: { reference.cue: [none, shooter's body], play.distance: [5 m, 8 m, 11 m, 13 m, 15 m] }
`

function pictures() {
  const read = readExperimentText("e.yaml", TEXT)
  if ("problems" in read) throw new Error(read.problems[0]!.text)
  return anglePicturesOf(read.experiment)
}

describe("the angle-error picture", () => {
  // seen to fail: points without a cue drawn as well
  test("is made of points whose goalie goes by a cue, four at most, the first and the last among them", () => {
    const found = pictures()
    expect(found.map(({ puck }) => puck.x)).toEqual([5, 8, 13, 15])
    // a right-hand blade has its body at the goalie's right: 0.9 m beside the puck
    expect(Math.abs(found[0]!.bias)).toBeCloseTo(1.5 * Math.sin(Math.atan(0.9 / 5)), 12)
    expect(found[0]!.biasAngle).toBeCloseTo(Math.sign(found[0]!.bias) * Math.atan(0.9 / 5), 12)
    expect(found[0]!.spread).toBe(0)
  })

  test("says how far off the line in centimetres, and tells the two lines apart by dashes", async () => {
    const chart = angleErrorChart({ ...depthAlone(), angles: pictures() })!
    expect(chart.name).toBe("angle-error")
    expect(chart.description).toContain("26.6 cm to the goalie's")
    const svg = await svgOf(chart)
    expect(svg).toContain("26.6 cm")
    expect(svg).toContain("where the goalie takes it to be")
    expect(svg).toMatch(/stroke-dasharray="9,6"/)
  })

  test("is none for a run without a cue", () => {
    expect(angleErrorChart(depthAlone())).toBeNull()
  })
})
