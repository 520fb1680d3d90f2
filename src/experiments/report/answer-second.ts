import type { Estimate } from "../../sim/estimate.ts"
import { casesAreAlternatives } from "../decision.ts"
import type { Experiment } from "../experiment.ts"
import { PER_ATTEMPTS } from "../measures.ts"
import type { PointResult, RunResults } from "../results.ts"
import { type Finding, fittedList, isTold, type Summary } from "./finding.ts"
import { plain, whereText } from "./words.ts"

const KEY = "second_goal_rate"
/** Of goals in {@link PER_ATTEMPTS} attempts. */
const DECIMALS = 2

/**
 * Alternatives compared by the goals scored on second shots, in {@link PER_ATTEMPTS} attempts: the one that spares most first. Null
 * for a run that is not about them.
 */
export function secondShotSummary(results: RunResults): Summary | null {
  const { experiment } = results
  if (experiment.measures[0] !== KEY || !casesAreAlternatives(experiment)) return null
  const base = experiment.points[experiment.baselineOf?.[0] ?? experiment.baseline]!.case
  const compared = results.points.filter(
    (point) => point.spot === "all" && point.case !== base && point.differences[KEY] !== undefined,
  )
  const names = [...new Set(compared.map((point) => point.case))]
  if (names.length === 0) return null
  const rivals = names
    .map((name) => compared.filter((point) => point.case === name))
    .toSorted((a, b) => totalOf(a) - totalOf(b))
  const findings = rivals.map((points): Finding => {
    const sentence = `${points[0]!.case} against ${base}: ${points.map((point) => differenceText(experiment, point)).join(", ")}`
    const told = points.some((point) => isTold(point.differences[KEY]!))
    return { group: points[0]!.case, verdict: told ? "best" : "flat", measure: KEY, sentence, point: points[0]! }
  })
  return { headline: headline(experiment, base, rivals), findings }
}

function headline(experiment: Experiment, base: string, rivals: readonly (readonly PointResult[])[]): string {
  const isToldAt = (point: PointResult): boolean => isTold(point.differences[KEY]!)
  const told = rivals.filter((points) => points.every(isToldAt))
  const partly = rivals.filter((points) => points.some(isToldAt) && !told.includes(points))
  const never = rivals.filter((points) => !points.some(isToldAt))
  const names = (some: readonly (readonly PointResult[])[]): string => some.map((points) => points[0]!.case).join(", ")
  const parts = told.map((points) => {
    const ends = points.length > 1 ? [points[0]!, points.at(-1)!] : points
    return `${points[0]!.case} ${ends.map((point) => differenceText(experiment, point)).join(", ")}`
  })
  if (partly.length > 0) parts.push(`told apart somewhere: ${names(partly)}`)
  if (never.length > 0) parts.push(`${partly.length > 0 ? "nowhere" : "not told apart"}: ${names(never)}`)
  return fittedList(`Goals on second shots in ${PER_ATTEMPTS} attempts, against ${base}: `, parts)
}

/** "0.07 fewer [0.04, 0.10] from 6 m". */
function differenceText(experiment: Experiment, point: PointResult): string {
  const { mean, low, high } = point.differences[KEY]!
  const decimals = decimalsOfTold(point.differences[KEY]!)
  const number = (value: number): string => plain(PER_ATTEMPTS * value, decimals)
  const range = mean < 0 ? `[${number(-high)}, ${number(-low)}]` : `[${number(low)}, ${number(high)}]`
  const where = experiment.sweep.map((swept, at) => whereText(swept, point.swept[at]!)).join(" ")
  const doubt = isTold(point.differences[KEY]!) ? "" : " (not told apart)"
  return `${number(Math.abs(mean))} ${mean < 0 ? "fewer" : "more"} ${range} ${where}`.trimEnd() + doubt
}

/** Two decimals, more where an interval without zero would print an end as zero. */
function decimalsOfTold(difference: Estimate): number {
  if (!isTold(difference)) return DECIMALS
  const isShown = (decimals: number): boolean =>
    [difference.low, difference.high].every((end) => Number((PER_ATTEMPTS * end).toFixed(decimals)) !== 0)
  return [DECIMALS, DECIMALS + 1].find(isShown) ?? DECIMALS + 2
}

function totalOf(points: readonly PointResult[]): number {
  return points.reduce((sum, point) => sum + point.differences[KEY]!.mean, 0)
}
