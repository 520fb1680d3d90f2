import type { Estimate } from "../../sim/estimate.ts"
import type { PointResult, RunResults } from "../results.ts"
import { gainText } from "./answer-best.ts"
import { type Finding, fittedList, ratedPoints, type Summary } from "./finding.ts"
import { capital, keyName, percent, percentWithInterval, plain, rateOf, spreadsText, valueText } from "./words.ts"

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
    const group = [point.case, point.spot === "all" ? "" : point.spot].filter((part) => part !== "").join(", ")
    groups.set(group, [...(groups.get(group) ?? []), point])
  }
  const findings = [...groups].map(([group, members]) => choiceFinding(results, group, members))
  if (findings.length === 1) return { headline: findings[0]!.sentence, findings }
  const parts = findings.map(({ group, verdict, point }) =>
    verdict === "flat" ? `${group}: it hardly matters` : `${group}: ${choicesOf(results, point)}`,
  )
  return { headline: fittedList("Best: ", parts), findings }
}

function choiceFinding(results: RunResults, group: string, members: readonly PointResult[]): Finding {
  const best = members.reduce((top, point) => (rate(point).mean > rate(top).mean ? point : top))
  const opening = group === "" ? "" : `${group}: `
  const tail = `save rate ${percentWithInterval(rate(best))}${members.length > 1 ? gainText(results, best) : ""}`
  const base = { group, measure: "save_rate", point: best }
  if (members.length === 1) return { ...base, verdict: "alone", sentence: capital(`${opening}${tail}`) }
  const worst = Math.min(...members.map((point) => rate(point).mean))
  const names = choicesOf(results, best)
  if (rate(best).mean - worst <= 0.005) {
    const sentence = `${opening}it does not matter here: all ${members.length} are within half a point; highest ${names}, ${tail}`
    return { ...base, verdict: "flat", sentence: capital(sentence) }
  }
  return { ...base, verdict: "best", sentence: capital(`${opening}best ${names}: ${tail}`) }
}

function choicesOf({ experiment }: RunResults, point: PointResult): string {
  return experiment.sweep.map((swept, at) => `${keyName(swept.key)} ${valueText(swept, point.swept[at]!)}`).join(", ")
}

function rate(point: PointResult): Estimate {
  return rateOf(point)!
}
