import type { Quantity } from "../../models/parameter.ts"
import { QUANTITIES } from "../../models/settings.ts"
import type { Estimate } from "../../sim/estimate.ts"
import type { Experiment, Swept } from "../experiment.ts"
import { measureOf, VERSUS_BASELINE } from "../measures.ts"
import { type Rated, ratedBy } from "../rated.ts"
import type { AssumptionRange, CurveFinding, PointResult, RunResults } from "../results.ts"
import {
  alikeTogether,
  type Detail,
  type Finding,
  fittedParts,
  groupName,
  groupWhere,
  isTold,
  linesOf,
  ratedPoints,
  type Summary,
} from "./finding.ts"
import { measureText } from "./measure-text.ts"
import {
  baselineFor,
  capital,
  comparedWith,
  decimalsApart,
  decimalsOf,
  inFileUnit,
  keyName,
  percentWithInterval,
  plain,
  pointsWithSpreads,
  spreadsText,
  withUnit,
} from "./words.ts"

export type SweptQuantity = Swept & { readonly kind: "quantity" }

/** A plateau at least this wide, m, on a sweep of depths means that the place does not matter. */
export const FLAT_LENGTH = 0.6
/** The same for other quantities, as a part of the sweep. */
const FLAT_PART = 0.4

/** One curve with its axis. */
export interface Found {
  readonly curve: CurveFinding
  readonly swept: SweptQuantity
  /** Place of the swept quantity in the sweep. */
  readonly at: number
  /** Swept point nearest the best. */
  readonly nearest: PointResult
}

/** The best place of every curve along a decision, what it saves and gains. */
export function bestSummary(results: RunResults): Summary {
  const found = foundCurves(results)
  const findings = found.map((one) => bestFinding(results, one))
  if (findings.length < 2) return { headline: findings[0]?.sentence ?? "There is no curve to answer from", findings }
  const name = keyName(found[0]!.swept.key)
  if (found.every((one) => verdictOf(one) === "flat" && isWhole(one)))
    return {
      headline: `It does not matter here, in none of the ${found.length} groups: ${findings[0]!.sentence}`,
      findings,
    }
  return {
    headline: fittedParts(
      `Best ${name}${ratedBy(results.experiment) === "goal_rate" ? ", for the fewest goals" : ""}: `,
      (detail) => parts(results.experiment, found, detail),
    ),
    findings,
  }
}

/** What the curve of each case says, for a sentence that has begun. */
export function bestParts(results: RunResults, detail: Detail): string[] {
  return parts(results.experiment, foundCurves(results), detail)
}

/** "1.6 m [1.5, 1.6] from 5 m" for each curve; curves that say the same share one part. */
function parts(experiment: Experiment, found: readonly Found[], detail: Detail): string[] {
  return alikeTogether(
    found.map((one) => {
      const { curve, swept } = one
      const where = groupWhere(experiment, curve.case, curve.spot, swept, curve.others ?? [])
      return [shortBest(one, detail), where]
    }),
  )
}

function foundCurves(results: RunResults): Found[] {
  const points = ratedPoints(results)
  return results.curves.flatMap((curve) => {
    const at = results.experiment.sweep.findIndex(({ key }) => key === curve.key)
    const swept = results.experiment.sweep[at]
    if (swept === undefined || swept.kind === "choice") return []
    const line = linesOf(points, at).find(
      (one) =>
        one.case === curve.case &&
        one.spot === curve.spot &&
        JSON.stringify(one.others) === JSON.stringify(curve.others ?? []),
    )
    const away = (point: PointResult): number => Math.abs(Number(point.swept[at]) - curve.best.mean)
    const nearest = line?.points.toSorted((a, b) => away(a) - away(b))[0]
    return nearest === undefined ? [] : [{ curve, swept, at, nearest }]
  })
}

function bestFinding(results: RunResults, found: Found): Finding {
  const { curve, swept, nearest } = found
  const verdict = verdictOf(found)
  const group = groupName(results.experiment, curve.case, curve.spot, swept, curve.others ?? [])
  const rated = ratedBy(results.experiment)
  const rate = nearest.estimates[rated]
  const seen = seenText(results, nearest)
  const tail =
    rate === undefined
      ? ""
      : `: ${measureOf(rated)!.title.toLowerCase()} ${percentWithInterval(rate)}${gainText(results, nearest)}${seen}`
  const opening = group === "" ? "" : `${capital(group)}: `
  const sentence = capital(`${opening}${verdictText(found, verdict, rated)}${tail}`)
  return { group, verdict, measure: rated, sentence, point: nearest }
}

export function verdictText(found: Found, verdict: Finding["verdict"], rated: Rated): string {
  const { curve, swept, nearest, at } = found
  const name = keyName(swept.key)
  const best = withSpreads(swept, curve.best, curve.bestAssumptions)
  if (verdict === "flat") {
    if (isWhole(found))
      return `it does not matter here: any ${name} ${rangeText(found)} is within half a point of the best, ${best}`
    return `it does not matter here ${betweenText(found)}: any ${name} there is within half a point of the best, ${best}`
  }
  if (verdict === "edge") {
    const place = numberText(swept, Number(nearest.swept[at]), true)
    const advice = isLimit(swept, Number(nearest.swept[at]))
      ? "the end of the scale"
      : "the edge of the sweep; widen it"
    return `no best ${name} inside the range: ${rated === "save_rate" ? "the save rate is highest" : "fewest goals go in"} at ${place}, ${advice}`
  }
  return `best ${name} ${best}`
}

export function rangeText({ curve, swept }: Found): string {
  return `from ${numberText(swept, curve.plateau.from, false)} to ${numberText(swept, curve.plateau.to, true)}`
}

function betweenText({ curve, swept }: Found): string {
  return `between ${numberText(swept, curve.plateau.from, false)} and ${numberText(swept, curve.plateau.to, true)}`
}

export function shortBest(found: Found, detail: Detail): string {
  const { curve, swept, nearest, at } = found
  const verdict = verdictOf(found)
  if (verdict === "flat") {
    if (isWhole(found)) return "it does not matter"
    return detail === "none" ? `any ${rangeText(found).replace("from ", "of ")}` : `anywhere ${betweenText(found)}`
  }
  if (verdict === "edge") {
    const value = Number(nearest.swept[at])
    const place = numberText(swept, value, true)
    if (isLimit(swept, value)) return `${place}, the end of the scale`
    return `${place} or ${value === Math.min(...swept.values) ? "less" : "more"}, the edge of the sweep`
  }
  if (detail === "none") return numberText(swept, curve.best.mean, true)
  const decimals = decimalsFor(swept, curve.best)
  const number = (value: number): string => numberText(swept, value, false, decimals)
  const spreads = spreadsText(curve.best, detail === "both" ? curve.bestAssumptions : null, number)
  return `${numberText(swept, curve.best.mean, true, decimals)} ${spreads}`
}

/** Flat over 60 cm of depth, or over much of another sweep; at the edge; or a best inside. */
export function verdictOf({ curve, swept, nearest, at }: Found): Finding["verdict"] {
  const width = curve.plateau.to - curve.plateau.from
  const span = spanOf(swept)
  const enough = swept.key === ("goalie.depth" as string) ? Math.min(FLAT_LENGTH, span) : FLAT_PART * span
  if (span > 0 && width >= enough - 1e-9) return "flat"
  return isEdge(swept, Number(nearest.swept[at])) ? "edge" : "best"
}

/** Whether a curve is flat, so that its best place is one of many. */
export function isFlat(results: RunResults, curve: CurveFinding): boolean {
  const found = foundCurves(results).find((one) => one.curve === curve)
  return found !== undefined && verdictOf(found) === "flat"
}

/** Whether the plateau is the whole sweep. */
function isWhole({ curve, swept }: Found): boolean {
  return curve.plateau.to - curve.plateau.from >= spanOf(swept) - 1e-9 || swept.values.length < 2
}

function spanOf(swept: SweptQuantity): number {
  return Math.max(...swept.values) - Math.min(...swept.values)
}

/** Whether a value is the first or last of its sweep. */
export function isEdge(swept: SweptQuantity, value: number): boolean {
  return value === Math.min(...swept.values) || value === Math.max(...swept.values)
}

/** Whether a value cannot be passed: depth 0 is the goal line. */
export function isLimit(swept: SweptQuantity, value: number): boolean {
  const quantity: Quantity | undefined = QUANTITIES[swept.key]
  return quantity !== undefined && (value <= quantity.least || value >= quantity.most)
}

/** "1.3 m (sampling 1.2 to 1.4; assumptions 0.9 to 1.7)". */
export function withSpreads(swept: SweptQuantity, estimate: Estimate, assumptions: AssumptionRange | null): string {
  const decimals = decimalsFor(swept, estimate)
  const number = (value: number): string => numberText(swept, value, false, decimals)
  const sampling = `sampling ${number(estimate.low)} to ${number(estimate.high)}`
  const range = assumptions === null ? "" : `; assumptions ${number(assumptions.low)} to ${number(assumptions.high)}`
  return `${numberText(swept, estimate.mean, true, decimals)} (${sampling}${range})`
}

/** Decimals of the sweep, at least one, and one more where they would hide the interval. */
export function decimalsFor(swept: SweptQuantity, { low, high }: Pick<Estimate, "low" | "high">): number {
  const decimals = leastDecimals(swept)
  const [from, to] = [inFileUnit(swept, low), inFileUnit(swept, high)].toSorted((a, b) => a - b) as [number, number]
  const isHidden = to > from && to - from < 1.5 * 10 ** -decimals
  return decimalsApart(from, to, isHidden ? decimals + 1 : decimals)
}

/** At least one, but none for an angle: nobody sets a pad to a tenth of a degree. */
function leastDecimals(swept: SweptQuantity): number {
  return Math.max(swept.dimension === "angle" ? 0 : 1, decimalsOf(swept))
}

function numberText(swept: SweptQuantity, value: number, unit: boolean, decimals = leastDecimals(swept)): string {
  const text = plain(inFileUnit(swept, value), decimals)
  return unit ? withUnit(text, swept.unit) : text
}

/** ", +2.4 points on the goal line [2.1, 2.7]", and whether that can be told from nothing. */
export function gainText(results: RunResults, point: PointResult): string {
  const base = comparedWith(results.experiment, point.index)
  const rated = ratedBy(results.experiment)
  const difference = point.differences[rated]
  if (difference === undefined) return ""
  const name = baselineFor(results.experiment, point.index)
  if (base === point.index) return ", which is the baseline"
  const [number, ...rest] = pointsWithSpreads(difference, point.assumptions[`${rated}${VERSUS_BASELINE}`]).split(
    " points",
  )
  const sentence = `, ${number} points on ${name}${rest.join(" points")}`
  return isTold(difference) ? sentence : `${sentence}, which cannot be told from no difference`
}

/** "; open to a puck 0.12 m² against 0.15 m²": the first exact measure the file lists, here and at the baseline. */
function seenText(results: RunResults, point: PointResult): string {
  const measure = results.experiment.measures.map(measureOf).find((one) => one?.kind === "exact")
  const base = results.points.find(
    (one) => one.index === comparedWith(results.experiment, point.index) && one.spot === point.spot,
  )
  const [here, there] = [point.exact[measure?.key ?? ""], base?.exact[measure?.key ?? ""]]
  if (measure === undefined || here === undefined || there === undefined || base?.index === point.index) return ""
  return `; ${measure.title.toLowerCase()} ${measureText(measure, here)} against ${measureText(measure, there)}`
}
