import { type ChartNeed, needOfFile } from "../chart-needs.ts"
import type { ChartKind, Experiment } from "../experiment.ts"
import type { RunResults } from "../results.ts"
import { goalsSavedOf } from "./goals-saved.ts"
import { rateOf } from "./words.ts"

/** Needs of a chart that only the run can tell. */
const SHOT_ON_GOAL: ChartNeed = {
  needs: "a save rate, and no shot was on goal",
  remedy: "Check where the shots come from and where they are aimed",
}
const GOALS_COMPARED: ChartNeed = {
  needs: "goals at a point and at its baseline, and no point has both",
  remedy: "Check the baseline and where the shots are aimed",
}
const MOVE: ChartNeed = {
  needs: "a goalie who is moved by the play before the shot",
  remedy: "Give a play with a pass or a carry, or ask for puck's eye",
}
const COURSE: ChartNeed = {
  needs: "a play with a usual course, and none has one",
  remedy: "Ask for puck's eye",
}

/** A chart that was asked for and not drawn, and why. */
export interface Undrawn extends ChartNeed {
  readonly chart: ChartKind
}

/** The charts that the file asks for and the run cannot fill, in the order of the file. */
export function undrawnOf(results: RunResults): Undrawn[] {
  const { experiment } = results
  return lacking(experiment, (chart) => needOfFile(chart, experiment) ?? needOfRun(chart, results))
}

/** Those of them that the file alone tells, before a shot is fired. */
export function undrawnByFile(experiment: Experiment): Undrawn[] {
  return lacking(experiment, (chart) => needOfFile(chart, experiment))
}

function lacking({ charts }: Experiment, needOf: (chart: ChartKind) => ChartNeed | null): Undrawn[] {
  return charts.flatMap((chart) => {
    const need = needOf(chart)
    return need === null ? [] : [{ chart, ...need }]
  })
}

/** What the run lacks; a picture that the caller did not want found is no lack. */
function needOfRun(chart: ChartKind, results: RunResults): ChartNeed | null {
  switch (chart) {
    case "curve":
    case "heat map":
    case "bars":
      return results.points.some((point) => rateOf(point) !== null) ? null : SHOT_ON_GOAL
    case "goals saved":
      return goalsSavedOf(results).shown > 0 ? null : GOALS_COMPARED
    case "plan view":
      return results.plans?.length === 0 ? COURSE : null
    case "open net":
      return results.openNets?.length === 0 ? MOVE : null
    case "angle error":
    case "puck's eye":
    case "reach map":
    case "goal map":
      return null
  }
}

/** Name of the chart, that it was or will not be drawn, why, and what to do. */
export function undrawnText({ chart, needs, remedy }: Undrawn, when: "was" | "will be" = "was"): string {
  return `The chart "${chart}" ${when === "was" ? "was not drawn" : "will not be drawn"} as it needs ${needs}. ${remedy}`
}
