import { expect, test } from "vitest"
import { planViewChart } from "../../../src/experiments/charts/plan-view.ts"
import { svgOf } from "../../../src/experiments/charts/render.ts"
import type { PlanPicture } from "../../../src/experiments/results.ts"
import { RINK_PRESETS } from "../../../src/models/rink/presets.ts"
import { depthAlone } from "../fixture-results.ts"

const moments = Array.from({ length: 61 }, (_, i) => ({
  at: -2 + (2.15 * i) / 60,
  x: 1,
  y: 0.5 - i / 60,
  heading: 0,
  isSet: i < 20,
}))

function plan(setAgain: number | null, index = 0, ways = 1): PlanPicture {
  const [wing, slot] = [
    { x: 12, y: 6 },
    { x: 8, y: -4 },
  ]
  return {
    index,
    ways,
    title: "depth 1.1 m",
    subtitle: "",
    rink: Object.values(RINK_PRESETS)[0]!,
    mouthHalfWidth: 0.9144,
    halfStance: 0.4,
    course: {
      name: "spot",
      share: 1,
      legs: [
        { does: "carry", from: { x: 20, y: 7 }, to: wing, starts: -2, ends: -1 },
        { does: "pass", from: wing, to: slot, starts: -0.9, ends: -0.1 },
      ],
      shot: slot,
      goalie: moments,
      leavesSet: setAgain === null ? null : -0.7,
      setAgain,
    },
  }
}

// mutations seen red: legs counted from 0, and the goalie's lateness told as a lead
test("planViewChart() numbers each leg on the ice and in time, marks the release, and says how late the goalie is", async () => {
  const chart = planViewChart({ ...depthAlone(), plans: [plan(0.12), plan(null)] })
  const svg = await svgOf(chart!)
  const texts = [...svg.matchAll(/<text[^>]*>(.*?)<\/text>/gs)].map(([, inner]) => inner!)
  for (const wanted of ["1 carry", "2 pass", "release", "moving, not set", "set throughout"])
    expect(texts).toContain(wanted)
  expect(texts.some((text) => text.includes("set 120 ms too late"))).toBe(true)
  expect(chart!.description).toContain("the goalie set throughout")
})

test("planViewChart() is null for a run without plans", () => {
  expect(planViewChart(depthAlone())).toBeNull()
})

// seen to fail: the subtitle silent about points and branches that are left out
test("planViewChart() says which of how many points it shows, and that branches are left out", () => {
  const words = (plans: PlanPicture[], points: number): string => {
    const results = depthAlone()
    const experiment = { ...results.experiment, points: results.experiment.points.slice(0, points) }
    return JSON.stringify(planViewChart({ ...results, experiment, plans })!.spec)
  }
  expect(words([plan(0.1, 0), plan(0.1, 6)], 13)).toContain("2 of 13 points: the goal line; depth 1.2 m")
  expect(words([plan(0.1, 0), plan(0.1, 1)], 2)).not.toContain(" of 2 points")
  expect(words([plan(0.1, 0, 3), plan(0.1, 0, 3)], 1)).toContain("2 of the 3 ways their plays go")
})
