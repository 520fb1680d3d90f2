import { expect, test } from "vitest"
import { goalsSavedChart } from "../../../src/experiments/charts/goals-saved.ts"
import { COLOURS, SAVED_FILL } from "../../../src/experiments/charts/look.ts"
import { svgOf } from "../../../src/experiments/charts/render.ts"
import { GOALS_SAVED } from "../../../src/experiments/measures.ts"
import { answerOf } from "../../../src/experiments/report/answer.ts"
import { goalsSavedOf } from "../../../src/experiments/report/goals-saved.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import { depthByDistance, estimate, handsByDistance, stanceByCase } from "../fixture-results.ts"
import { lost, overlaps, textBoxes } from "./text-boxes.ts"

/** A run with invented goals saved: so many at each point, half-width 0.2, assumptions half and twice as many. */
function withSaved(results: RunResults, saved: (index: number) => number): RunResults {
  const points = results.points.map((point) => {
    const value = saved(point.index)
    const [low, high] = [0.5 * value, 2 * value].toSorted((a, b) => a - b)
    return {
      ...point,
      estimates: { ...point.estimates, [GOALS_SAVED]: estimate(value, 0.2) },
      assumptions: { ...point.assumptions, [GOALS_SAVED]: { low: low!, high: high!, sets: 64 } },
    }
  })
  return { ...results, points }
}

const HANDS = withSaved(handsByDistance(), (index) => (index < 3 ? 0 : [-1.25, 0.5, 0.1][index - 3]!))

// seen to fail: own baselines kept
test("goalsSavedOf() leaves out what is its own baseline, and puts a lone alternative over the places it is met", () => {
  const { groups, shown, of } = goalsSavedOf(HANDS)
  expect(groups.map(({ name }) => name)).toEqual(["hands tucked"])
  expect(groups[0]!.rows.map(({ label }) => label)).toEqual(["from 5 m", "from 8 m", "from 12 m"])
  expect([shown, of]).toEqual([3, 3])
})

// seen to fail: left in the order of the file
test("goalsSavedOf() puts alternatives without an order of their own in that of what they save, in every group alike", () => {
  const stances = withSaved(stanceByCase(), (index) => [1, 0, 3, 2, 2.5, 0, 1, 2][index]!)
  const { groups } = goalsSavedOf(stances)
  expect(groups.map(({ name }) => name)).toEqual(["slot", "sharp angle"])
  // 3.5, 4 and 4 over both: equals keep the file's order
  for (const { rows } of groups) expect(rows.map(({ label }) => label)).toEqual(["narrow", "butterfly", "upright"])
})

// seen to fail: the first places of the axis taken
test("goalsSavedOf() of a long sweep keeps both ends of every line, and says how many it left out", () => {
  const { groups, shown, of } = goalsSavedOf(withSaved(depthByDistance(), (index) => index))
  expect([shown <= 24, of]).toEqual([true, 48])
  for (const { rows } of groups) {
    expect(rows[0]!.point.swept[0]).toBe(0)
    expect(rows.at(-1)!.point.swept[0]).toBe(2.4)
  }
})

// seen to fail: the numbers set at the end of each bar, where they met the next line
test("goalsSavedChart() prints every value with both spreads, no text touching another or the edge of the page", async () => {
  for (const results of [HANDS, withSaved(depthByDistance(), (index) => index - 20)]) {
    const svg = await svgOf(goalsSavedChart(results)!)
    const boxes = textBoxes(svg)
    expect(overlaps(boxes)).toEqual([])
    expect(lost(svg, boxes)).toEqual([])
  }
  const texts = textBoxes(await svgOf(goalsSavedChart(HANDS)!)).map(({ text }) => text)
  for (const text of ["\u22121.25", "\u22121.45 to \u22121.05", "assumptions \u22122.50 to \u22120.63", "+0.50"])
    expect(texts).toContain(text)
})

// seen to fail: hollow where the assumptions hold zero
test("goalsSavedChart() draws hollow what may be no difference, and tells gain from loss without colour", () => {
  const spec = JSON.stringify(goalsSavedChart(HANDS)!.spec)
  const bars = [...spec.matchAll(/"type":"rect","fill":"(#\w+)"/g)].map(([, fill]) => fill)
  expect(bars).toEqual([SAVED_FILL.lost.fill, SAVED_FILL.saved.fill, COLOURS.snow])
  expect(goalsSavedChart(depthByDistance())).toBeNull()
})

// seen to fail: only the first of the places in the sentence, and with the largest alone in the headline, which lost
test("the answer speaks of goals saved where the file lists them first, and adds them where it lists them later", () => {
  const first = { ...HANDS, experiment: { ...HANDS.experiment, measures: [GOALS_SAVED, "save_rate"] } }
  expect(answerOf(first).headline).toBe(
    "Goals saved per 100 attempts, against hands beside at the same distance: hands tucked \u22121.25 [\u22121.45, \u22121.05; assumptions \u22122.50 to \u22120.63] from 5 m, +0.50 [0.30, 0.70; assumptions 0.25 to 1.00] from 8 m, +0.10 [\u22120.10, 0.30; assumptions 0.05 to 0.20] from 12 m (not told apart)",
  )
  expect(answerOf(first).findings[0]!.sentence).toContain("+0.50 [0.30, 0.70; assumptions 0.25 to 1.00] from 8 m")
  const later = { ...HANDS, experiment: { ...HANDS.experiment, measures: ["save_rate", GOALS_SAVED] } }
  expect(answerOf(later).headline).toMatch(/^More is saved with hands beside/)
  expect(answerOf(later).findings.at(-1)!.measure).toBe(GOALS_SAVED)
})
