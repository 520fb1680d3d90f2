import { expect, test } from "vitest"
import { chartsOf } from "../../../src/experiments/charts/charts-of.ts"
import { CHART_KINDS, type ChartKind } from "../../../src/experiments/experiment.ts"
import { readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import { undrawnByFile, undrawnOf, undrawnText } from "../../../src/experiments/report/undrawn.ts"
import { doubtsOf, warningsOf } from "../../../src/experiments/report/warnings.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import { depthAlone, depthByDistance, depthByPassSpeed, stanceByCase } from "../fixture-results.ts"

/** Names of files of each kind of chart. */
const FILES: Readonly<Record<ChartKind, string>> = {
  curve: "curve",
  "heat map": "heat-map",
  "puck's eye": "pucks-eye",
  "reach map": "reach-map",
  "goal map": "goal-map",
  bars: "bars",
  "goals saved": "goals-saved",
  "plan view": "plan-view",
  "open net": "open-net",
  "angle error": "angle-error",
}

function asking(results: RunResults, charts: readonly ChartKind[] = CHART_KINDS): RunResults {
  const points = results.experiment.points.map((point) => ({
    ...point,
    settings: { ...point.settings, choices: { ...point.settings.choices, "reference.cue": "none" as const } },
  }))
  const { puckEye, reachMaps, goalMaps } = depthByDistance()
  const pictures = { puckEye, reachMaps, goalMaps, plans: [], openNets: [], angles: [] }
  return { ...results, ...pictures, experiment: { ...results.experiment, points, charts } }
}

// seen to fail: a curve of choices passed over in silence, and a heat map said of one swept key
test("a run says of every kind of chart that it was not drawn, and of no other", () => {
  const lone = { ...depthAlone(), points: [] }
  const plain = depthByPassSpeed()
  const spread = { ...plain, experiment: { ...plain.experiment, design: { kind: "sobol" as const, points: 65 } } }
  for (const results of [depthAlone(), plain, spread, stanceByCase(), lone].map((one) => asking(one))) {
    const drawn = chartsOf(results).map(({ name }) => name)
    const missing = CHART_KINDS.filter((kind) => !drawn.includes(FILES[kind]))
    expect(undrawnOf(results).map(({ chart }) => chart)).toEqual(missing)
    expect(missing.length).toBeGreaterThan(0)
  }
})

test("a chart that was not drawn is a warning of the run with its reason", () => {
  const results = asking(stanceByCase(), ["bars", "curve", "heat map"])
  const texts = warningsOf(results).flatMap(({ kind, text }) => (kind === "ChartNotDrawn" ? [text] : []))
  expect(texts).toEqual([
    'The chart "curve" was not drawn as it needs a swept quantity that is a number. Sweep one, or ask for bars',
    'The chart "heat map" was not drawn as it needs two swept settings. Sweep a second one, or ask for bars',
  ])
})

test("pictures that the caller did not want found are no lack", () => {
  const { plans, openNets, angles, ...rest } = asking(depthAlone(), ["plan view", "open net", "curve"])
  expect([plans, openNets, angles]).toEqual([[], [], []])
  expect(doubtsOf(rest).filter(({ kind }) => kind === "ChartNotDrawn")).toEqual([])
})

test("a file is told of its charts before a shot, and not of those it did not ask for", () => {
  const read = (more: string) => {
    const result = readExperimentText("one.yaml", `question: Why?\nplay: { kind: straight shot }\n${more}`)
    if ("problems" in result) throw new Error(result.problems[0]!.text)
    return result.experiment
  }
  const asked = undrawnByFile(read("charts: [curve, angle error, goals saved, puck's eye]"))
  expect(asked.map(({ chart }) => chart)).toEqual(["curve", "angle error", "goals saved"])
  expect(undrawnText(asked[1]!, "will be")).toBe(
    'The chart "angle error" will not be drawn as it needs a goalie who goes by a cue. Set reference.cue',
  )
  expect(read("").charts).toEqual(["puck's eye"])
  expect(undrawnByFile(read(""))).toEqual([])
})
