import { axisOf } from "../decision.ts"
import type { DesignPoint, Experiment } from "../experiment.ts"
import { namedValue, valueText } from "../report/words.ts"

/** Panels of the picture at most, and lines of one. */
const MOST_PANELS = 4
const MOST_LINES = 5

/** One line of the picture of the open net. */
export interface OpenNetLine {
  readonly index: number
  /** What its panel shares: "" where there is one panel. */
  readonly panel: string
  readonly label: string
}

/**
 * Points whose open net is drawn: a line for each case, a panel for each value of what is swept; of a file without cases a
 * line for each place along the axis. Of too many the first, the last and others between.
 */
export function openNetLines(experiment: Experiment): OpenNetLine[] {
  const { sweep, points, cases } = experiment
  const axis = cases.length > 1 ? -1 : axisOf(sweep)
  const lone = cases.length > 1 || axis >= 0 ? axis : sweep.length - 1
  const panelOf = (point: DesignPoint): string =>
    sweep.flatMap((swept, at) => (at === lone ? [] : [namedValue(swept, point.swept[at]!)])).join(", ")
  const labelOf = (point: DesignPoint): string => {
    const swept = sweep[lone]
    if (swept === undefined) return point.case
    return swept.kind === "choice" ? valueText(swept, point.swept[lone]!) : namedValue(swept, point.swept[lone]!)
  }
  const lines = points.map((point) => ({ index: point.index, panel: panelOf(point), label: labelOf(point) }))
  const panels = evenly([...new Set(lines.map(({ panel }) => panel))], MOST_PANELS)
  const labels = evenly([...new Set(lines.map(({ label }) => label))], MOST_LINES)
  return lines.filter(({ panel, label }) => panels.includes(panel) && labels.includes(label))
}

function evenly<Value>(values: readonly Value[], most: number): Value[] {
  if (values.length <= most) return [...values]
  return Array.from({ length: most }, (_, i) => values[Math.round((i * (values.length - 1)) / (most - 1))]!)
}
