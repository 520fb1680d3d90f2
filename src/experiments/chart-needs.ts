import { NO_CUE } from "../models/reference/parameters.ts"
import { axisOf } from "./decision.ts"
import type { ChartKind, Experiment } from "./experiment.ts"
import { comparedWith } from "./report/words.ts"

/** What a chart lacks, in the words of "as it needs ...", and what to do, as a sentence without its stop. */
export interface ChartNeed {
  readonly needs: string
  readonly remedy: string
}

/** What a file has to hold for a kind of chart, where it does not; null where the file can fill it. */
export function needOfFile(kind: ChartKind, experiment: Experiment): ChartNeed | null {
  const { sweep, points, design } = experiment
  switch (kind) {
    case "curve":
      return axisOf(sweep) >= 0
        ? null
        : { needs: "a swept quantity that is a number", remedy: "Sweep one, or ask for bars" }
    case "heat map":
      if (sweep.length < 2) return { needs: "two swept settings", remedy: "Sweep a second one, or ask for bars" }
      return design === undefined
        ? null
        : {
            needs: "a sweep, where a design fills no grid",
            remedy: "Ask for curve, which has a panel for each quantity",
          }
    case "goals saved":
      return points.some(({ index }) => comparedWith(experiment, index) !== index)
        ? null
        : { needs: "a point to compare with the baseline", remedy: "Sweep something, or name cases to compare" }
    case "angle error":
      return points.some(({ settings }) => settings.choices["reference.cue"] !== NO_CUE)
        ? null
        : { needs: "a goalie who goes by a cue", remedy: "Set reference.cue" }
    case "bars":
    case "puck's eye":
    case "reach map":
    case "goal map":
    case "plan view":
    case "open net":
      return null
  }
}
