import { wayToPost } from "../../models/positioning/way-to-post.ts"
import { ratedBy } from "../rated.ts"
import type { CurveFinding, PointResult, RunResults, Warning } from "../results.ts"
import { halfWidthAt } from "../run/half-widths.ts"
import { isEdge, isFlat, isLimit } from "./answer-best.ts"
import { type Idle, idleKeys } from "./changed-nothing.ts"
import { focusOf } from "./finding.ts"
import { type Undrawn, undrawnOf, undrawnText } from "./undrawn.ts"
import { capital, keyName, namedValue, percent, plain, pointText, rateOf, valueText } from "./words.ts"

/** What can be doubtful about a run; each is measured, explained and given an advice. */
export type Doubt =
  | ({ readonly kind: "ChangedNothing" } & Idle)
  | {
      readonly kind: "WideInterval"
      readonly point: string
      readonly rate: number
      readonly half: number
      readonly shots: number
      readonly wanted: number
    }
  | { readonly kind: "BestAtEdge"; readonly name: string; readonly places: readonly string[] }
  | { readonly kind: "UnreachableTargets"; readonly share: number; readonly point: string }
  | { readonly kind: "DepthLimited"; readonly points: number; readonly remark: string }
  | { readonly kind: "OffThePost"; readonly points: number; readonly point: string; readonly away: number }
  | { readonly kind: "AllSaved"; readonly point: string; readonly shots: number; readonly low: number }
  | { readonly kind: "NoShotOnGoal"; readonly point: string; readonly shots: number }
  | {
      readonly kind: "CeilingReached"
      /** What was wanted, in the words of a sentence: "" for the save rate. */
      readonly of: string
      readonly half: number
      readonly wanted: number
      readonly shots: number
    }
  | {
      readonly kind: "AssumptionsDecide"
      readonly name: string
      readonly places: readonly string[]
    }
  | ({ readonly kind: "ChartNotDrawn" } & Undrawn)

/** Half-width above which a save rate is called unsure, a share. */
export const WIDE = 0.01
/** Part of aimed places out of reach above which the result speaks of another shooter than the one described. */
const MANY_UNREACHABLE = 0.02

/** A skate this near is at the post: it may stand before it, on the line to a puck that is not yet down, m. */
const AT_THE_POST = 0.3

/** The doubts of a run as warnings, for its results and report. */
export function warningsOf(results: RunResults): Warning[] {
  return doubtsOf(results).map((doubt) => ({ kind: doubt.kind, text: doubtText(doubt) }))
}

/** Every doubt once: of many points the worst speaks for all. */
export function doubtsOf(results: RunResults): Doubt[] {
  return [
    ...idleKeys(results).map((idle) => ({ kind: "ChangedNothing" as const, ...idle })),
    ...wideInterval(results),
    ...ceilingReached(results),
    // where the file asks about another measure first, a best place for the save rate is no answer to doubt
    ...(focusOf(results.experiment).key === ratedBy(results.experiment)
      ? [...bestAtEdge(results), ...assumptionsDecide(results)]
      : []),
    ...unreachable(results),
    ...depthLimited(results),
    ...offThePost(results),
    ...allSaved(results),
    ...noShotOnGoal(results),
    ...undrawnOf(results).map((undrawn) => ({ kind: "ChartNotDrawn" as const, ...undrawn })),
  ]
}

/** What a doubt says: the measure, what it means, what to do. */
export function doubtText(doubt: Doubt): string {
  switch (doubt.kind) {
    case "ChangedNothing":
      return changedNothing(doubt)
    case "WideInterval": {
      const apart = plain(doubt.half * 100 * Math.SQRT2, 1)
      return `Save rate at ${doubt.point} is ${percent(doubt.rate)} ± ${plain(doubt.half * 100, 1)} points from ${thousands(doubt.shots)} shots; differences under about ${apart} points between independent runs cannot be seen. Raise shots to about ${thousands(doubt.wanted)} for ± 0.5`
    }
    case "BestAtEdge":
      return `The highest save rate is at ${doubt.name} ${doubt.places.join("; ")}, the edge of the sweep, so the best may lie beyond it. Widen the sweep`
    case "UnreachableTargets":
      return `${percent(doubt.share)} of the aimed places at ${doubt.point} cannot be reached at that speed, or only by a shot steeper than shooter.steepest_aim, and became the nearest place that can. Raise the shot speed or lower the aim, unless that is what shots from there are like`
    case "DepthLimited":
      return `${doubt.points} ${doubt.points === 1 ? "row" : "rows"} could not stand where the file says (${doubt.remark}); these rows are about the place taken. Read depth_taken_m, or end the sweep sooner`
    case "OffThePost":
      return `${doubt.points} ${doubt.points === 1 ? "row" : "rows"} of a post technique ${doubt.points === 1 ? "has" : "have"} the near skate away from the post it seals (${Math.round(100 * doubt.away)} cm at ${doubt.point}): before the goal line the goalie stands on the line from the middle of the goal to the puck. Raise goalie.depth until the skate is there, some 0.9 m at a sharp angle`
    case "AllSaved":
      return `Every one of ${thousands(doubt.shots)} shots at ${doubt.point} was saved; that shows a save rate of at least ${percent(doubt.low, 2)}, not of 100 %. Make the shots harder, or raise shots`
    case "NoShotOnGoal":
      return `None of ${thousands(doubt.shots)} shots at ${doubt.point} was on goal, so it has no save rate. Check where the shots come from and where they are aimed`
    case "CeilingReached":
      return `Sampling ended at the ceiling of ${thousands(doubt.shots)} shots a point with ± ${plain(doubt.half * 100, 2)} points where ± ${plain(doubt.wanted * 100, 2)} was wanted${doubt.of}. Raise the ceiling or accept the wider interval`
    case "AssumptionsDecide":
      return `The best ${doubt.name} is ${doubt.places.join("; ")}, so more shots will not make it surer. Measure your own goalie and shooter and write the values in the file`
    case "ChartNotDrawn":
      return undrawnText(doubt)
  }
}

function changedNothing({ key, from, to, whole }: Idle): string {
  const found = `${capital(keyName(key))} changed nothing from ${from} to ${to}: every save rate, goal rate and share of saves is the same to the last digit`
  const word = `goalmouth parameters ${key.slice(key.indexOf(".") + 1)}`
  return whole
    ? `${found}. This play does not use ${key}, or something else bounds it, so the run tells nothing about it. Sweep another key; ${word} says what this one does`
    : `${found}. Something else bounds ${key} there. End the sweep sooner, or change what bounds it; ${word} says what it does`
}

function thousands(count: number): string {
  return Math.round(count).toLocaleString("en-US")
}

function half(point: PointResult): number {
  const rate = rateOf(point)
  return rate === null ? 0 : (rate.high - rate.low) / 2
}

function name(results: RunResults, point: PointResult): string {
  const place = pointText(results.experiment, point.index)
  return point.spot === "all" ? place : `${point.spot}, ${place}`
}

function whole(results: RunResults): readonly PointResult[] {
  return results.points.filter((point) => point.spot === "all")
}

/** The point with the widest interval; rounded up to a number of shots a person would write. */
function wideInterval(results: RunResults): Doubt[] {
  const worst = whole(results).toSorted((a, b) => half(b) - half(a))[0]
  if (worst === undefined || half(worst) <= WIDE) return []
  const raw = worst.shots * (half(worst) / 0.005) ** 2
  const unit = 10 ** Math.max(0, Math.floor(Math.log10(raw)) - 1)
  const wanted = Math.ceil(raw / unit) * unit
  const rate = worst.estimates.save_rate!.mean
  return [{ kind: "WideInterval", point: name(results, worst), rate, half: half(worst), shots: worst.shots, wanted }]
}

function ceilingReached(results: RunResults): Doubt[] {
  const { experiment } = results
  const wanted = experiment.halfWidth
  if (results.stoppedBy !== "ceiling" || wanted === null) return []
  const widest = Math.max(0, ...whole(results).map((point) => halfWidthAt(experiment, point) ?? 0))
  const of = experiment.judged === "difference" ? " of every difference from the baseline" : ""
  return [{ kind: "CeilingReached", of, half: widest, wanted, shots: experiment.shots }]
}

/** Curves whose best is at the edge of the sweep, where the sweep could go on and it matters. */
function bestAtEdge(results: RunResults): Doubt[] {
  const places = results.curves.flatMap((curve) => {
    const swept = results.experiment.sweep.find(({ key }) => key === curve.key)
    if (swept === undefined || swept.kind === "choice" || swept.values.length < 2) return []
    const top = swept.values[curve.probabilityBest.indexOf(Math.max(...curve.probabilityBest))]
    if (top === undefined || !isEdge(swept, top) || isLimit(swept, top) || isFlat(results, curve)) return []
    return [`${valueText(swept, top)}${whereOf(results, curve)}`]
  })
  return places.length === 0 ? [] : [{ kind: "BestAtEdge", name: keyName(results.curves[0]!.key), places }]
}

/** Curves whose best place sampling has settled and the assumptions have not. */
function assumptionsDecide(results: RunResults): Doubt[] {
  const places = results.curves.flatMap((curve) => {
    const swept = results.experiment.sweep.find(({ key }) => key === curve.key)
    const range = curve.bestAssumptions
    // where it does not matter, no place has to be surer
    if (swept === undefined || swept.kind === "choice" || range === null || isFlat(results, curve)) return []
    const sampling = curve.best.high - curve.best.low
    const span = Math.max(...swept.values) - Math.min(...swept.values)
    if (range.high - range.low <= Math.max(3 * sampling, span / 3)) return []
    const between = (low: number, high: number): string => {
      const [from, to] = [valueText(swept, low), valueText(swept, high)]
      return from === to ? from : `${from} to ${to}`
    }
    const both = `${between(curve.best.low, curve.best.high)} by sampling but ${between(range.low, range.high)} within the assumptions`
    return [`${both}${whereOf(results, curve)}`]
  })
  return places.length === 0 ? [] : [{ kind: "AssumptionsDecide", name: keyName(results.curves[0]!.key), places }]
}

function whereOf(results: RunResults, curve: CurveFinding): string {
  const rest = results.experiment.sweep.filter(({ key }) => key !== curve.key)
  const others = (curve.others ?? []).map((value, at) => (rest[at] === undefined ? "" : namedValue(rest[at], value)))
  const parts = [curve.case, curve.spot === "all" ? "" : curve.spot, ...others].filter((part) => part !== "")
  return parts.length === 0 ? "" : ` (${parts.join(", ")})`
}

function unreachable(results: RunResults): Doubt[] {
  const share = (point: PointResult): number =>
    point.estimates.unreachable_share?.mean ?? point.exact.unreachable_share ?? 0
  const worst = results.points.toSorted((a, b) => share(b) - share(a))[0]
  if (worst === undefined || share(worst) <= MANY_UNREACHABLE) return []
  return [{ kind: "UnreachableTargets", share: share(worst), point: name(results, worst) }]
}

function depthLimited(results: RunResults): Doubt[] {
  const limited = results.points.filter((point) => point.remarks.length > 0)
  const remark = limited.at(-1)?.remarks[0]
  return remark === undefined ? [] : [{ kind: "DepthLimited", points: limited.length, remark }]
}

/** Post techniques that stand away from the post: the farthest speaks for all. */
function offThePost(results: RunResults): Doubt[] {
  const away = whole(results).flatMap((point) => {
    const way = wayToPost(results.experiment.points[point.index]!.settings)
    return way === null || way <= AT_THE_POST ? [] : [{ point, way }]
  })
  const worst = away.toSorted((a, b) => b.way - a.way)[0]
  if (worst === undefined) return []
  return [{ kind: "OffThePost", points: away.length, point: name(results, worst.point), away: worst.way }]
}

function allSaved(results: RunResults): Doubt[] {
  const point = results.points.find(({ estimates }) => estimates.save_rate?.mean === 1)
  if (point === undefined) return []
  return [{ kind: "AllSaved", point: name(results, point), shots: point.shots, low: point.estimates.save_rate!.low }]
}

function noShotOnGoal(results: RunResults): Doubt[] {
  const point = results.points.find(({ estimates }) => {
    const rate = estimates.save_rate
    return estimates.on_goal_rate?.mean === 0 || (rate !== undefined && Number.isNaN(rate.mean))
  })
  return point === undefined ? [] : [{ kind: "NoShotOnGoal", point: name(results, point), shots: point.shots }]
}
