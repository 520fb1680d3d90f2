import { expect, test } from "vitest"
import type { Swept } from "../../../src/experiments/experiment.ts"
import { picturePoints, poseText } from "../../../src/experiments/run/picture-points.ts"
import { DEPTH, depthAlone, depthByDistance, handsByDistance, STANCE, stanceByCase } from "../fixture-results.ts"

test("picturePoints() takes the first, the last, the baseline and others well between along the depth", () => {
  const { experiment } = depthAlone()
  // depths 0 to 2.4 m by 0.2 m; mutation seen red: the first six
  const chosen = picturePoints(experiment, 6).map((index) => Number(experiment.points[index]!.swept[0]))
  expect([chosen[0], chosen.at(-1)]).toEqual([0, 2.4])
  const gaps = chosen.slice(1).map((depth, at) => depth - chosen[at]!)
  expect(Math.max(...gaps)).toBeLessThan(0.7)
})

test("picturePoints() holds the circumstances: one case of four distances, one distance of three", () => {
  const depths = depthByDistance().experiment
  expect(new Set(picturePoints(depths, 6).map((index) => depths.points[index]!.case)).size).toBe(1)
  const hands = handsByDistance().experiment
  expect(picturePoints(hands, 6).map((index) => hands.points[index]!.case)).toEqual(["hands beside", "hands tucked"])
})

test("picturePoints() shows two alternatives side by side at the same depths", () => {
  const { experiment } = depthAlone()
  const stance = { ...STANCE, values: ["set", "butterfly"] } as Swept
  const points = experiment.points.flatMap((point) =>
    stance.values.map((value, at) => ({ ...point, index: point.index * 2 + at, swept: [...point.swept, value] })),
  )
  const { baselineOf: _, ...rest } = experiment
  const crossed = { ...rest, sweep: [DEPTH, stance], points }
  const chosen = picturePoints(crossed, 6).map((index) => points[index]!.swept)
  expect(chosen.map(([, name]) => name)).toEqual(["set", "butterfly", "set", "butterfly", "set", "butterfly"])
  expect(chosen.map(([depth]) => depth).filter((_depth, at) => at % 2 === 0)).toEqual(
    chosen.map(([depth]) => depth).filter((_depth, at) => at % 2 === 1),
  )
})

test("poseText() names what the goalie does and never where the puck is", () => {
  expect(poseText(handsByDistance().experiment, 0)).toBe("hands beside")
  expect(poseText(depthAlone().experiment, 6)).toBe("depth 1.2 m")
  expect(poseText(stanceByCase().experiment, 1)).toBe("slot, stance set")
})
