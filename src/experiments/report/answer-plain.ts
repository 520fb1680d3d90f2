import type { Estimate } from "../../sim/estimate.ts"
import { VERSUS_BASELINE } from "../measures.ts"
import type { PointResult, RunResults } from "../results.ts"
import { gainText } from "./answer-best.ts"
import { ALIKE } from "./answer-compare.ts"
import { type Finding, fittedParts, isTold, ratedPoints, type Summary } from "./finding.ts"
import {
  capital,
  comparedWith,
  keyName,
  percent,
  percentWithInterval,
  plain,
  pointsWithSpreads,
  rateOf,
  spreadsText,
  valueText,
} from "./words.ts"

/** One design point: its save rate, and the places with the lowest and highest where it is shot at from several. */
export function loneSummary(results: RunResults): Summary {
  const point = ratedPoints(results)[0]!
  const places = results.points.filter((one) => one.index === point.index && one.spot !== point.spot && rateOf(one))
  const sorted = places.toSorted((a, b) => rate(a).mean - rate(b).mean)
  const [low, high] = [sorted[0], sorted.at(-1)]
  const number = (value: number): string => plain(value * 100, 1)
  const text = `Save rate ${percent(rate(point).mean)} ${spreadsText(rate(point), point.assumptions.save_rate, number)}`
  const ends =
    low === undefined || high === undefined || low === high
      ? ""
      : ` over all ${places.length} places; lowest from the ${low.spot}, ${percentWithInterval(rate(low))}, highest from the ${high.spot}, ${percentWithInterval(rate(high))}`
  const sentence = `${text}${ends}`
  return {
    headline: sentence,
    findings: [{ group: "", verdict: "alone", measure: "save_rate", sentence, point }],
  }
}

/** Choices of the goalie without an axis: the best alternative in each case and from each spot. */
export function choiceSummary(results: RunResults): Summary {
  const groups = new Map<string, PointResult[]>()
  for (const point of ratedPoints(results)) {
    const id = JSON.stringify([point.case, point.spot])
    groups.set(id, [...(groups.get(id) ?? []), point])
  }
  const alike = [...groups.values()]
  const findings = alike.map((members) => choiceFinding(results, members))
  if (findings.length === 1) return { headline: findings[0]!.sentence, findings }
  return { headline: choiceHeadline(results, alike), findings }
}

/** "Highest save rate: 91.2 % [90.8, 91.6] in slot with stance set; ...", each case with its own choice and rate. */
function choiceHeadline(results: RunResults, groups: readonly (readonly PointResult[])[]): string {
  const allFlat = groups.every((members) => members.length > 1 && isFlat(members))
  const opening = allFlat
    ? "It hardly matters, as all choices are within half a point: the highest save rate is "
    : "Highest save rate: "
  return fittedParts(opening, (detail) =>
    groups.map((members) => {
      const best = bestOf(members)
      const { case: name, spot } = best
      const number = (value: number): string => plain(value * 100, 1)
      const assumed = detail === "both" ? best.assumptions.save_rate : undefined
      const spreads = detail === "none" ? "" : ` ${spreadsText(rate(best), assumed, number)}`
      const where = [name === "" ? "" : ` in ${name}`, spot === "all" ? "" : ` from ${spot}`].join("")
      return `${percent(rate(best).mean)}${spreads}${where}${allFlat ? "" : choiceText(results, best, members)}`
    }),
  )
}

/** " with stance set (not told apart from stance butterfly)", ", where it hardly matters". */
function choiceText(results: RunResults, best: PointResult, members: readonly PointResult[]): string {
  if (members.length === 1) return ""
  if (isFlat(members)) return ", where it hardly matters"
  const level = levelWith(results, best, members).map((point) => choicesOf(results, point))
  const doubt = level.length === 0 ? "" : ` (not told apart from ${level.join(" and from ")})`
  return ` with ${choicesOf(results, best)}${doubt}`
}

function choiceFinding(results: RunResults, members: readonly PointResult[]): Finding {
  const best = bestOf(members)
  const group = [best.case, best.spot === "all" ? "" : best.spot].filter((part) => part !== "").join(", ")
  const opening = group === "" ? "" : `${group}: `
  const tail = `save rate ${percentWithInterval(rate(best))}${members.length > 1 ? gainText(results, best) : ""}`
  const base = { group, measure: "save_rate", point: best }
  if (members.length === 1) return { ...base, verdict: "alone", sentence: capital(`${opening}${tail}`) }
  const names = choicesOf(results, best)
  if (isFlat(members)) {
    const sentence = `${opening}it does not matter here: all ${members.length} are within half a point; highest ${names}, ${tail}`
    return { ...base, verdict: "flat", sentence: capital(sentence) }
  }
  const level = levelWith(results, best, members)
  const behind = level.filter((point) => comparedWith(results.experiment, point.index) === best.index)
  const doubts = behind.map((point) => `${choicesOf(results, point)}, ${behindText(point)}`)
  const doubt = doubts.length === 0 ? "" : `; not told apart from ${doubts.join(" and from ")}`
  const sentence = `${opening}${level.length > 0 ? "highest" : "best"} ${names}: ${tail}${doubt}`
  return { ...base, verdict: "best", sentence: capital(sentence) }
}

function bestOf(members: readonly PointResult[]): PointResult {
  return members.reduce((top, point) => (rate(point).mean > rate(top).mean ? point : top))
}

/** Whether all alternatives lie within half a point. */
function isFlat(members: readonly PointResult[]): boolean {
  const worst = Math.min(...members.map((point) => rate(point).mean))
  return rate(bestOf(members)).mean - worst <= ALIKE
}

/** The alternatives whose paired difference from the best one holds zero; known for pairs with the baseline alone. */
function levelWith({ experiment }: RunResults, best: PointResult, members: readonly PointResult[]): PointResult[] {
  return members.filter((point) => {
    if (point === best) return false
    const isBehind = comparedWith(experiment, point.index) === best.index
    const isBase = comparedWith(experiment, best.index) === point.index
    const difference = isBehind ? point.differences.save_rate : isBase ? best.differences.save_rate : undefined
    return difference !== undefined && !isTold(difference)
  })
}

/** "−0.6 points [−1.5, 0.3]" of an alternative compared with the best. */
function behindText({ differences, assumptions }: PointResult): string {
  return pointsWithSpreads(differences.save_rate!, assumptions[`save_rate${VERSUS_BASELINE}`])
}

function choicesOf({ experiment }: RunResults, point: PointResult): string {
  return experiment.sweep.map((swept, at) => `${keyName(swept.key)} ${valueText(swept, point.swept[at]!)}`).join(", ")
}

function rate(point: PointResult): Estimate {
  return rateOf(point)!
}
