import type { Estimate } from "../../sim/estimate.ts"
import { casesAreAlternatives, isGoalies } from "../decision.ts"
import type { Experiment } from "../experiment.ts"
import { VERSUS_BASELINE } from "../measures.ts"
import { ratedBy, signOf } from "../rated.ts"
import type { AssumptionRange, PointResult, RunResults } from "../results.ts"
import { type Detail, type Finding, fittedParts, isTold, ratedPoints, type Summary } from "./finding.ts"
import { capital, comparedWith, plain, spreadsText, valueText, whereText } from "./words.ts"

/** Half a point: closer alternatives are called alike. */
export const ALIKE = 0.005

/** One alternative against the one it is compared with, wherever both meet the same circumstances. */
interface Rival {
  readonly name: string
  readonly base: string
  readonly points: readonly PointResult[]
}

/** Alternatives (cases, or choices of the goalie) against the baseline's at each value of what nobody can choose. */
export function compareSummary(results: RunResults): Summary {
  const rivals = rivalsOf(results)
  const findings = rivals.map((rival) => compareFinding(results.experiment, rival))
  if (findings.length === 0) return { headline: "There is nothing to compare with the baseline", findings }
  return { headline: fittedParts("", (detail) => headlineParts(results.experiment, rivals, detail)), findings }
}

function rivalsOf(results: RunResults): Rival[] {
  const { experiment } = results
  const rivals = new Map<string, Rival>()
  for (const point of ratedPoints(results)) {
    const base = experiment.points[comparedWith(experiment, point.index)]
    if (base === undefined || base.index === point.index || point.differences[ratedBy(experiment)] === undefined)
      continue
    const names = { name: alternativeName(experiment, point), base: alternativeName(experiment, base) }
    if (names.name === names.base) continue
    const id = JSON.stringify(names)
    rivals.set(id, { ...names, points: [...(rivals.get(id)?.points ?? []), point] })
  }
  return [...rivals.values()]
}

/** What the goalie does differently: the compared case and the names of the swept choices. */
function alternativeName(experiment: Experiment, point: Pick<PointResult, "case" | "swept">): string {
  const choices = experiment.sweep.flatMap((swept, at) =>
    swept.kind === "choice" && isGoalies(swept.key) ? [valueText(swept, point.swept[at]!)] : [],
  )
  return [casesAreAlternatives(experiment) ? point.case : "", ...choices].filter((part) => part !== "").join(", ")
}

/** The circumstances of a point: "from 5 m". */
function circumstance(experiment: Experiment, point: PointResult): string {
  const values = experiment.sweep.flatMap((swept, at) =>
    swept.kind === "choice" && isGoalies(swept.key) ? [] : [whereText(swept, point.swept[at]!)],
  )
  const other = casesAreAlternatives(experiment) || point.case === "" ? [] : [`in ${point.case}`]
  return [...other, ...(point.spot === "all" ? [] : [`from ${point.spot}`]), ...values].join(" ")
}

function compareFinding(experiment: Experiment, rival: Rival): Finding {
  const widest = rival.points.toSorted((a, b) => Math.abs(meanOf(experiment, b)) - Math.abs(meanOf(experiment, a)))[0]!
  const isAlike = Math.abs(meanOf(experiment, widest)) < ALIKE
  const verdict = isAlike ? "flat" : "best"
  const sentence = capital(rivalText(experiment, rival, rival.points, "both"))
  return { group: rival.name, verdict, measure: ratedBy(experiment), sentence, point: widest }
}

function headlineParts(experiment: Experiment, rivals: readonly Rival[], detail: Detail): string[] {
  let winner = ""
  return rivals.map((rival, at) => {
    const text = rivalText(experiment, rival, tellingPoints(experiment, rival), detail)
    const [opening, rest] = text.split(" than with ", 2)
    if (rest === undefined || opening !== winner) {
      winner = rest === undefined ? "" : opening!
      return at === 0 ? capital(text) : text
    }
    return `than with ${rest}`
  })
}

/** First, last, and the largest difference where it is neither. */
function tellingPoints(experiment: Experiment, { points }: Rival): PointResult[] {
  const largest = points.toSorted((a, b) => Math.abs(meanOf(experiment, b)) - Math.abs(meanOf(experiment, a)))[0]!
  return points.filter((point, at) => at === 0 || at === points.length - 1 || point === largest)
}

/** "more is saved with A than with B: 2.1 points [1.8, 2.4; assumptions 1.0 to 3.0] from 6 m, ...". */
function rivalText(experiment: Experiment, rival: Rival, points: readonly PointResult[], detail: Detail): string {
  const { name, base } = rival
  const goals = ratedBy(experiment) === "goal_rate"
  const means = rival.points.map((point) => meanOf(experiment, point))
  const list = (sign: 1 | -1, always: boolean): string =>
    points.map((point) => differenceText(experiment, point, sign, always, detail)).join(", ")
  if (means.every((mean) => Math.abs(mean) < ALIKE)) {
    return `${name} and ${base} differ by less than half a point everywhere: ${list(1, true)}`
  }
  const better = goals ? "fewer goals go in" : "more is saved"
  const [more, less] = goals ? ([-1, 1] as const) : ([1, -1] as const)
  if (means.every((mean) => mean >= 0)) return `${better} with ${name} than with ${base}: ${list(more, false)}`
  if (means.every((mean) => mean <= 0)) return `${better} with ${base} than with ${name}: ${list(less, false)}`
  return `${goals ? "goals with " : ""}${name} against ${base}: ${list(1, true)}`
}

function differenceText(
  experiment: Experiment,
  point: PointResult,
  sign: 1 | -1,
  isSigned: boolean,
  detail: Detail,
): string {
  const rated = ratedBy(experiment)
  const difference = flipped(point.differences[rated]!, sign)
  const range = point.assumptions[`${rated}${VERSUS_BASELINE}`]
  const number = (value: number): string => plain(value * 100, 1)
  const shown = detail === "both" && range !== undefined ? flipped(range, sign) : null
  const plus = isSigned && difference.mean >= 0.0005 ? "+" : ""
  const spreads = detail === "none" ? "" : ` ${spreadsText(difference, shown, number)}`
  const doubt = isTold(point.differences[rated]!) ? "" : " (not told apart)"
  return `${plus}${number(difference.mean)} points${spreads} ${circumstance(experiment, point)}`.trimEnd() + doubt
}

function flipped<Range extends Estimate | AssumptionRange>(range: Range, sign: 1 | -1): Range {
  if (sign === 1) return range
  const mean = "mean" in range ? { mean: -range.mean } : {}
  return { ...range, ...mean, low: -range.high, high: -range.low }
}

/** How much better a point is than the one it is compared with. */
function meanOf(experiment: Experiment, point: PointResult): number {
  const rated = ratedBy(experiment)
  return signOf(rated) * (point.differences[rated]?.mean ?? 0)
}
