import type { Dimension } from "../../models/parameter.ts"
import { axisOf, isDecision } from "../decision.ts"
import type { Experiment } from "../experiment.ts"
import type { Measure } from "../measures.ts"
import type { PointResult, RunResults } from "../results.ts"
import type { SweptQuantity } from "./answer-best.ts"
import {
  type Detail,
  type Finding,
  fittedParts,
  groupName,
  groupWhere,
  type Line,
  linesOf,
  type Summary,
} from "./finding.ts"
import { changeText, measureText, printOf } from "./measure-text.ts"
import { capital, inFileUnit, namedValue, plain, pointText, spreadsText, whereText, withUnit } from "./words.ts"

/** Step a person thinks in, SI, by dimension: "for each 0.5 m"; a fifth of the sweep for the others. */
const STEPS: Partial<Record<Dimension, number>> = { length: 0.5, angle: Math.PI / 18 }

/** How one measure changes along the axis, in each line of the sweep, or what it is at each point where there is none. */
export function trendSummary(results: RunResults, measure: Measure): Summary {
  const { experiment } = results
  const at = axisOf(experiment.sweep)
  const whole = results.points.filter((point) => point.spot === "all")
  const points = (whole.length > 0 ? whole : results.points).filter((point) => measured(measure, point) !== null)
  const swept = experiment.sweep[at]
  if (points.length === 0) return { headline: "", findings: [] }
  if (swept === undefined || swept.kind === "choice") return listSummary(experiment, measure, points)
  const lines = linesOf(points, at)
  const findings = lines.map((line) => trendFinding(experiment, measure, swept, at, line))
  const headline = fittedParts(`${measure.title}: `, (detail) =>
    lines.map((line) => {
      const where = groupWhere(experiment, line.case, line.spot, swept, line.others)
      return `${where === "" ? "" : `${where} `}${fromTo(measure, swept, at, line, detail)}`
    }),
  )
  return { headline, findings }
}

/** "43.2 % on the goal line to 69.0 % at depth 2.5 m, +5.2 points for each 0.5 m". */
function fromTo(measure: Measure, swept: SweptQuantity, at: number, { points }: Line, detail: Detail): string {
  const [first, last] = [points[0]!, points.at(-1)!]
  const place = (point: PointResult): string =>
    `${textOf(measure, point, detail)} ${whereText(swept, Number(point.swept[at]))}`
  if (first === last) return place(first)
  return `${place(first)}, ${place(last)}${perStep(measure, swept, at, first, last)}`
}

/** Mean change for one step of the axis; only of what the goalie decides, where a step can be taken. */
function perStep(measure: Measure, swept: SweptQuantity, at: number, first: PointResult, last: PointResult): string {
  const span = Number(last.swept[at]) - Number(first.swept[at])
  const step = STEPS[swept.dimension] ?? span / 5
  if (!isDecision(swept.key) || span < step) return ""
  const change = ((measured(measure, last)! - measured(measure, first)!) * step) / span
  return `, ${changeText(measure, change, measure.unit === "share" ? 0 : 1)} for each ${stepText(swept, step)}`
}

function stepText(swept: SweptQuantity, step: number): string {
  return withUnit(String(Number((step / swept.unitFactor).toPrecision(2))), swept.unit)
}

function trendFinding(experiment: Experiment, measure: Measure, swept: SweptQuantity, at: number, line: Line): Finding {
  const group = groupName(experiment, line.case, line.spot, swept, line.others)
  const opening = group === "" ? `${measure.title}: ` : `${capital(group)}: ${measure.title.toLowerCase()} `
  const steps = stepsOf(measure, swept, at, line)
  const sentence = `${opening}${fromTo(measure, swept, at, line, "both")}${steps}`
  return { group, verdict: "alone", measure: measure.key, sentence, point: line.points.at(-1)! }
}

/** "; step by step 0 to 0.5 m +3.9, 0.5 to 1 m +4.4": swept values a step apart, as far as the sweep holds them. */
function stepsOf(measure: Measure, swept: SweptQuantity, at: number, { points }: Line): string {
  const step = STEPS[swept.dimension]
  if (step === undefined || !isDecision(swept.key)) return ""
  const value = (point: PointResult): number => Number(point.swept[at])
  const { factor, decimals } = printOf(measure)
  const pieces: string[] = []
  for (let from = points[0]!; ; ) {
    const to = points.find((point) => Math.abs(value(point) - value(from) - step) < 1e-6)
    if (to === undefined) break
    const change = (measured(measure, to)! - measured(measure, from)!) * factor
    const plus = change > 0 ? "+" : ""
    pieces.push(`to ${withUnit(String(inFileUnit(swept, value(to))), swept.unit)} ${plus}${plain(change, decimals)}`)
    from = to
  }
  return pieces.length < 2 ? "" : `; step by step, ${pieces.join(", ")}`
}

/** Without an axis: the value of each point. */
function listSummary(experiment: Experiment, measure: Measure, points: readonly PointResult[]): Summary {
  const name = (point: PointResult): string =>
    points.length === 1
      ? ""
      : `${point.case !== "" || experiment.sweep.length !== 1 ? pointText(experiment, point.index) : namedValue(experiment.sweep[0]!, point.swept[0]!)} `
  const headline = fittedParts(`${measure.title}: `, (detail) =>
    points.map((point) => `${name(point)}${textOf(measure, point, detail)}`),
  )
  const findings = points.map(
    (point): Finding => ({
      group: points.length === 1 ? "" : pointText(experiment, point.index),
      verdict: "alone",
      measure: measure.key,
      sentence: capital(`${name(point)}${measure.title.toLowerCase()} ${textOf(measure, point, "both")}`),
      point,
    }),
  )
  return { headline, findings }
}

/** The value of a measure at a point; null where it has none. */
export function measured(measure: Measure, point: PointResult): number | null {
  const value = measure.kind === "exact" ? point.exact[measure.key] : point.estimates[measure.key]?.mean
  return value === undefined || !Number.isFinite(value) ? null : value
}

/** A value with its interval where it was sampled, and the assumption range where one was drawn. */
function textOf(measure: Measure, point: PointResult, detail: Detail): string {
  const estimate = point.estimates[measure.key]
  const text = measureText(measure, measured(measure, point)!)
  if (measure.kind === "exact" || estimate === undefined || detail === "none") return text
  const { factor, decimals } = printOf(measure)
  const range = detail === "both" ? point.assumptions[measure.key] : null
  return `${text} ${spreadsText(estimate, range, (value) => plain(value * factor, decimals))}`
}
