import type { ChartKind } from "../experiment.ts"
import type { RunResults } from "../results.ts"
import { angleErrorChart } from "./angle-error.ts"
import type { Chart } from "./chart.ts"
import { choiceChart } from "./choice.ts"
import { type CurveOptions, curveChart } from "./curve.ts"
import { designCurveChart } from "./design-curve.ts"
import { goalMapChart } from "./goal-map.ts"
import { goalsSavedChart } from "./goals-saved.ts"
import { heatChart } from "./heat.ts"
import { openNetChart } from "./open-net.ts"
import { planViewChart } from "./plan-view.ts"
import { puckEyeChart } from "./puck-eye.ts"
import { reachMapChart } from "./reach-map.ts"
import { sensitivityChart } from "./sensitivity.ts"

export interface ChartOptions extends CurveOptions {
  /** Adds the reach map as save probability, where the run was asked for it. */
  readonly probability?: boolean
  /** What {@link chartsWithoutShots} gave for the same run: taken as it is. */
  readonly described?: readonly Chart[]
}

/** Every chart the file asked for and the run can fill, in its order; an empty list draws none. */
export function chartsOf(results: RunResults, options: ChartOptions = {}): Chart[] {
  const kinds = results.experiment.charts
  // what was asked beside the sweep comes first
  const first = sensitivityChart(results)
  return [first, ...[...new Set(kinds)].flatMap((kind) => drawn(kind, results, options))].filter(
    (chart) => chart !== null,
  )
}

/** The charts that hang on no shot, as they will be among all of them: they can be drawn while shots are fired. */
export function chartsWithoutShots(results: Pick<RunResults, "experiment" | "puckEye" | "reachMaps">): Chart[] {
  const { charts } = results.experiment
  return [
    charts.includes("puck's eye") ? puckEyeChart(results) : null,
    charts.includes("reach map") ? reachMapChart(results) : null,
  ].filter((chart) => chart !== null)
}

function drawn(kind: ChartKind, results: RunResults, options: ChartOptions): (Chart | null)[] {
  switch (kind) {
    case "curve":
      return [results.experiment.design === undefined ? curveChart(results, options) : designCurveChart(results)]
    case "heat map":
      return [heatChart(results)]
    case "bars":
      return [choiceChart(results)]
    case "goals saved":
      return [goalsSavedChart(results)]
    case "puck's eye":
      return [before("pucks-eye", options) ?? puckEyeChart(results)]
    case "reach map":
      return [
        before("reach-map", options) ?? reachMapChart(results),
        ...(options.probability === true ? [reachMapChart(results, options)] : []),
      ]
    case "goal map":
      return [goalMapChart(results)]
    case "plan view":
      return [planViewChart(results)]
    case "open net":
      return [openNetChart(results)]
    case "angle error":
      return [angleErrorChart(results)]
  }
}

function before(name: string, { described = [] }: ChartOptions): Chart | undefined {
  return described.find((chart) => chart.name === name)
}
