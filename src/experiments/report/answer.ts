import type { Quantity } from "../../models/parameter.ts"
import { QUANTITIES } from "../../models/settings.ts"
import type { Estimate } from "../../sim/estimate.ts"
import type { Experiment, Swept } from "../experiment.ts"
import type { AssumptionRange, Crossing, CurveFinding, PointResult, RunResults } from "../results.ts"
import {
  baselineFor,
  capital,
  comparedWith,
  decimalsOf,
  inFileUnit,
  keyName,
  namedValue,
  percent,
  percentWithInterval,
  plain,
  pointsWithSpreads,
  rateOf,
  valueText,
  withUnit,
} from "./words.ts"

/** What one curve, group of alternatives or lone point says. */
export interface Finding {
  /** Case, spot and other swept values; "" where there is only one. */
  readonly group: string
  readonly verdict: "best" | "flat" | "edge" | "alone"
  readonly sentence: string
  /** The same in a few words, for a headline over several groups. */
  readonly short: string
  /** The point the sentence is about, for tables and shots to see. */
  readonly point: PointResult
}

export interface Answer {
  /** The first finding, or what all of them share: one sentence that can stand alone. */
  readonly headline: string
  readonly findings: readonly Finding[]
  /** Where curves cross, and what the numbers cannot tell. */
  readonly notes: readonly string[]
}

type SweptQuantity = Swept & { readonly kind: "quantity" }

/** A plateau at least this wide, m, on a sweep of lengths means that the place does not matter. */
export const FLAT_LENGTH = 0.6

/** The answer of a run in sentences, each with sampling and assumption spread. */
export function answerOf(results: RunResults): Answer {
  const findings = results.curves.length > 0 ? curveFindings(results) : groupFindings(results)
  const notes = [
    ...(results.crossings ?? []).map((crossing) => crossingNote(results.experiment, crossing)),
    ...signNotes(results, findings),
  ]
  return { headline: headlineOf(results, findings), findings, notes }
}

function headlineOf(results: RunResults, findings: readonly Finding[]): string {
  if (findings.length === 0) return "No shot on goal was sampled, so there is no answer"
  if (findings.length === 1) return findings[0]!.sentence
  if (findings.every(({ verdict }) => verdict === "flat")) {
    return `It does not matter here, in none of the ${findings.length} groups: ${findings[0]!.sentence}`
  }
  const swept = results.experiment.sweep.find(({ key }) => key === results.curves[0]?.key)
  const isAlone = findings.every(({ verdict }) => verdict === "alone")
  const opening = isAlone ? "Save rate" : swept === undefined ? "Best" : `Best ${keyName(swept.key)}`
  return `${opening}: ${findings.map(({ group, short }) => `${group}: ${short}`).join("; ")}`
}

function shortBest(swept: SweptQuantity, curve: CurveFinding, verdict: Finding["verdict"]): string {
  const best = numberText(swept, curve.best.mean, true)
  if (verdict === "flat") return `${best}, but it hardly matters`
  return verdict === "edge" ? `${best} or beyond, at the edge of the sweep` : best
}

function curveFindings(results: RunResults): Finding[] {
  return results.curves.flatMap((curve) => {
    const at = results.experiment.sweep.findIndex(({ key }) => key === curve.key)
    const swept = results.experiment.sweep[at]
    if (swept === undefined || swept.kind === "choice") return []
    const nearest = pointsOf(results, curve, at).toSorted((a, b) => away(a, at, curve) - away(b, at, curve))[0]
    return nearest === undefined ? [] : [curveFinding(results, { curve, swept, at, nearest })]
  })
}

interface Line {
  readonly curve: CurveFinding
  readonly swept: SweptQuantity
  /** Place of the swept quantity in the sweep. */
  readonly at: number
  /** Swept point nearest the best. */
  readonly nearest: PointResult
}

function away(point: PointResult, at: number, curve: CurveFinding): number {
  return Math.abs(Number(point.swept[at]) - curve.best.mean)
}

function pointsOf(results: RunResults, curve: CurveFinding, at: number): PointResult[] {
  const others = JSON.stringify(curve.others ?? [])
  return results.points.filter(
    (point) =>
      rateOf(point) !== null &&
      point.case === curve.case &&
      point.spot === curve.spot &&
      JSON.stringify(point.swept.filter((_, place) => place !== at)) === others,
  )
}

function curveFinding(results: RunResults, found: Line): Finding {
  const { curve, swept, nearest } = found
  const verdict = verdictOf(found)
  const group = groupName(results.experiment, curve.case, curve.spot, swept, curve.others ?? [])
  const name = keyName(swept.key)
  const spread = withSpreads(swept, curve.best, curve.bestAssumptions)
  const rate = nearest.estimates.save_rate
  const gain = gainText(results, nearest)
  const tail = rate === undefined ? "" : `: save rate ${percentWithInterval(rate)}${gain}`
  const opening = group === "" ? "" : `${capital(group)}: `
  const short = shortBest(swept, curve, verdict)
  const say = (text: string): Finding => ({ group, verdict, short, sentence: capital(opening + text), point: nearest })
  if (verdict === "flat") {
    const { from, to } = curve.plateau
    const range = `${numberText(swept, from, false)} to ${numberText(swept, to, true)}`
    return say(
      `it does not matter here: any ${name} from ${range} is within half a point of the best, ${spread}${tail}`,
    )
  }
  if (verdict === "edge") {
    const place = numberText(swept, Number(nearest.swept[found.at]), true)
    const advice = isLimit(swept, Number(nearest.swept[found.at]))
      ? "the end of the scale"
      : "the edge of the sweep; widen it"
    return say(`no best ${name} inside the range: the save rate is highest at ${place}, ${advice}${tail}`)
  }
  return say(`best ${name} ${spread}${tail}`)
}

/** Flat over 60 cm of a length or over the whole sweep; at the edge; or a best inside. */
function verdictOf({ curve, swept, nearest, at }: Line): Finding["verdict"] {
  const values = swept.values
  const span = Math.max(...values) - Math.min(...values)
  const width = curve.plateau.to - curve.plateau.from
  const enough = swept.dimension === "length" && swept.key === ("goalie.depth" as string) ? FLAT_LENGTH : span
  if (span > 0 && width >= Math.min(enough, span) - 1e-9) return "flat"
  return isEdge(swept, Number(nearest.swept[at])) ? "edge" : "best"
}

/** Whether a value is the first or last of its sweep. */
export function isEdge(swept: SweptQuantity, value: number): boolean {
  return value === Math.min(...swept.values) || value === Math.max(...swept.values)
}

/** Whether a value cannot be passed: depth 0 is the goal line. */
function isLimit(swept: SweptQuantity, value: number): boolean {
  const quantity: Quantity | undefined = QUANTITIES[swept.key]
  return quantity !== undefined && (value <= quantity.least || value >= quantity.most)
}

/** "1.3 m (sampling 1.2 to 1.4; assumptions 0.9 to 1.7)". */
function withSpreads(swept: SweptQuantity, estimate: Estimate, assumptions: AssumptionRange | null): string {
  const decimals = decimalsFor(swept, estimate)
  const number = (value: number): string => numberText(swept, value, false, decimals)
  const sampling = `sampling ${number(estimate.low)} to ${number(estimate.high)}`
  const range = assumptions === null ? "" : `; assumptions ${number(assumptions.low)} to ${number(assumptions.high)}`
  return `${numberText(swept, estimate.mean, true, decimals)} (${sampling}${range})`
}

/** Decimals of the sweep, at least one, and one more where they would hide the interval. */
function decimalsFor(swept: SweptQuantity, { low, high }: Estimate): number {
  const decimals = Math.max(1, decimalsOf(swept))
  const width = Math.abs(inFileUnit(swept, high) - inFileUnit(swept, low))
  return width > 0 && width < 1.5 * 10 ** -decimals ? decimals + 1 : decimals
}

function numberText(
  swept: SweptQuantity,
  value: number,
  unit: boolean,
  decimals: number = Math.max(1, decimalsOf(swept)),
): string {
  const text = plain(inFileUnit(swept, value), decimals)
  return unit ? withUnit(text, swept.unit) : text
}

/** ", +2.4 points on the goal line [2.1, 2.7]", and whether that can be told from nothing. */
function gainText(results: RunResults, point: PointResult): string {
  const base = comparedWith(results.experiment, point.index)
  const difference = point.differences.save_rate
  if (difference === undefined) return ""
  const name = baselineFor(results.experiment, point.index)
  if (base === point.index) return ", which is the baseline"
  const [number, ...rest] = pointsWithSpreads(difference, point.assumptions.save_rate_vs_baseline).split(" points")
  const sentence = `, ${number} points on ${name}${rest.join(" points")}`
  return isTold(difference) ? sentence : `${sentence}, which cannot be told from no difference`
}

/** Whether an interval of a difference leaves out zero. */
export function isTold(difference: Estimate): boolean {
  return difference.low > 0 || difference.high < 0
}

function groupName(
  experiment: Experiment,
  theCase: string,
  spot: string,
  swept: Swept,
  others: readonly (number | string)[],
): string {
  const rest = experiment.sweep.filter((one) => one !== swept)
  const names = others.map((value, at) => (rest[at] === undefined ? String(value) : namedValue(rest[at], value)))
  return [theCase, spot === "all" ? "" : spot, ...names].filter((part) => part !== "").join(", ")
}

/** Without a curve: the best alternative of each case and spot. */
function groupFindings(results: RunResults): Finding[] {
  const rated = results.points.filter((point) => rateOf(point) !== null)
  const whole = rated.filter((point) => point.spot === "all")
  const points = whole.length > 0 ? whole : rated
  const groups = new Map<string, PointResult[]>()
  for (const point of points) {
    const group = [point.case, point.spot === "all" ? "" : point.spot].filter((part) => part !== "").join(", ")
    groups.set(group, [...(groups.get(group) ?? []), point])
  }
  return [...groups].map(([group, members]) => groupFinding(results, group, members))
}

function groupFinding(results: RunResults, group: string, members: readonly PointResult[]): Finding {
  const rate = (point: PointResult): Estimate => rateOf(point)!
  const best = members.reduce((top, point) => (rate(point).mean > rate(top).mean ? point : top))
  const opening = group === "" ? "" : `${group}: `
  const tail = `save rate ${percentWithInterval(rate(best))}${members.length > 1 ? gainText(results, best) : ""}`
  if (members.length === 1)
    return {
      group,
      verdict: "alone",
      short: percent(rate(best).mean),
      sentence: capital(`${opening}${tail}`),
      point: best,
    }
  const worst = Math.min(...members.map((point) => rate(point).mean))
  const names = results.experiment.sweep.map(
    (swept, at) => `${keyName(swept.key)} ${valueText(swept, best.swept[at]!)}`,
  )
  if (rate(best).mean - worst <= 0.005) {
    const sentence = `${opening}it does not matter here: all ${members.length} are within half a point; highest ${names.join(", ")}, ${tail}`
    return { group, verdict: "flat", short: "it hardly matters", sentence: capital(sentence), point: best }
  }
  return {
    group,
    verdict: "best",
    short: names.join(", "),
    sentence: capital(`${opening}best ${names.join(", ")}: ${tail}`),
    point: best,
  }
}

function crossingNote(experiment: Experiment, crossing: Crossing): string {
  const [one, other] = crossing.cases
  const swept = experiment.sweep.find(({ key }) => key === crossing.key)
  if (crossing.at === null || swept === undefined || swept.kind === "choice") {
    return `${capital(one)} and ${other} do not cross in this range`
  }
  const place = withSpreads(swept, crossing.at, crossing.assumptions)
  return `${capital(one)} and ${other} cross at ${keyName(swept.key)} ${place}`
}

/** A difference that sampling settles and assumptions do not. */
function signNotes(results: RunResults, findings: readonly Finding[]): string[] {
  return findings.flatMap(({ point, group }) => {
    const difference = point.differences.save_rate
    const range = point.assumptions.save_rate_vs_baseline
    const isOwn = comparedWith(results.experiment, point.index) === point.index
    if (isOwn || difference === undefined || range === undefined || !isTold(difference)) return []
    if (range.low > 0 || range.high < 0) return []
    const where = group === "" ? "" : `${capital(group)}: `
    return [
      capital(
        `${where}more shots will not settle the sign of the difference: within the assumptions it is ${plain(range.low * 100, 1)} to ${plain(range.high * 100, 1)} points`,
      ),
    ]
  })
}
