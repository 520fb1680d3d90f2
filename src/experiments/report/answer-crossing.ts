import { isDecision } from "../decision.ts"
import { ratedBy } from "../rated.ts"
import type { Crossing, RunResults } from "../results.ts"
import { decimalsFor, type SweptQuantity } from "./answer-best.ts"
import { type Detail, fittedParts, isTold } from "./finding.ts"
import { comparedWith, inFileUnit, keyName, plain, spreadsText, withUnit } from "./words.ts"

/** Sets under which curves cross beyond the sweep before its end is called open. */
const TAIL = 0.05

/**
 * The crossings an answer is about: of two plays that the goalie meets along what the goalie decides, or of the only two
 * alternatives along a circumstance. Curves that cross more than once have no such place.
 */
export function toldCrossings(results: RunResults): readonly Crossing[] {
  const { experiment, crossings = [] } = results
  const plays = crossings.filter((one) => one.plays === true)
  const lone = crossings.length === 1 && isToldApart(results, crossings[0]!) ? crossings : []
  const told = plays.length > 0 ? plays : lone
  const isQuantity = (key: string) => experiment.sweep.some((swept) => swept.key === key && swept.kind === "quantity")
  return told.filter(
    ({ at, ahead, key, places }) => at !== null && ahead !== undefined && places === undefined && isQuantity(key),
  )
}

/** Whether either way of the goalie is surely the better at one end of the circumstance. */
function isToldApart({ experiment, points }: RunResults, { key }: Crossing): boolean {
  const at = experiment.sweep.findIndex((swept) => swept.key === key)
  const rivals = points
    .filter((point) => point.spot === "all" && comparedWith(experiment, point.index) !== point.index)
    .toSorted((a, b) => Number(a.swept[at]) - Number(b.swept[at]))
  const [first, last] = [rivals[0], rivals.at(-1)].map((point) => point?.differences[ratedBy(experiment)])
  if (isDecision(key) || first === undefined || last === undefined) return false
  return isTold(first) && isTold(last) && first.mean * last.mean < 0
}

/** Where one play overtakes the other, or one way of the goalie pays more than the other; null where nothing crosses. */
export function crossingHeadline(results: RunResults): string | null {
  const told = toldCrossings(results)
  const first = told[0]
  if (first === undefined) return null
  const goals = ratedBy(results.experiment) === "goal_rate"
  const [before, past] = first.ahead!.map((which) => first.cases[which])
  const name = keyName(first.key)
  if (first.plays !== true) {
    const opening = goals ? "Fewer goals go in" : "More is saved"
    return fittedParts("", (detail) => [
      `${opening} with ${before} below ${name} ${placeText(results, first, detail)}, with ${past} above it`,
    ])
  }
  const more = goals ? "more goals come of" : "less is saved of"
  if (told.length === 1)
    return fittedParts("", (detail) => [
      `Past ${name} ${placeText(results, first, detail)} ${more} ${past === first.cases[0] ? first.cases[1] : first.cases[0]} than of ${past}`,
    ])
  const opening = `Past this ${name} ${goals ? "more goals come" : "less is saved"} than of ${past}: `
  return fittedParts(opening, (detail) =>
    told.map((one) => `${placeText(results, one, detail)} (${one.cases[one.ahead![0]]})`),
  )
}

/** "1.06 m [1.02, 1.10; assumptions 0.6 to 1.4]"; an end beyond the sweep says so. */
export function placeText(results: RunResults, crossing: Crossing, detail: Detail): string {
  const swept = axisOf(results, crossing)
  const value = (place: number): string => plain(inFileUnit(swept, place), decimalsFor(swept, crossing.at!))
  const mean = withUnit(value(crossing.at!.mean), swept.unit)
  if (detail === "none") return mean
  const spreads = spreadsText(crossing.at!, null, value)
  const range = detail === "both" ? assumedText(crossing, value) : ""
  return `${mean} ${range === "" ? spreads : spreads.replace("]", `; ${range}]`)}`
}

/** "assumptions 0.6 to 1.4", "assumptions 0.6 to beyond 2.6"; "" where none was drawn. */
export function assumedText({ assumptions, beyond }: Crossing, value: (place: number) => string): string {
  if (assumptions === null) return ""
  const { low, high, sets } = assumptions
  const from = (beyond?.below ?? 0) > TAIL * sets ? `below ${value(low)}` : value(low)
  const to = (beyond?.above ?? 0) > TAIL * sets ? `beyond ${value(high)}` : value(high)
  return `assumptions ${from} to ${to}`
}

/** The swept quantity two curves cross along. */
function axisOf({ experiment }: RunResults, { key }: Crossing): SweptQuantity {
  return experiment.sweep.find((swept): swept is SweptQuantity => swept.key === key && swept.kind === "quantity")!
}

/** "depth 1.06 m (sampling 1.02 to 1.10; assumptions 0.6 to beyond 2.6)". */
export function crossingPlace(results: RunResults, crossing: Crossing): string {
  const swept = axisOf(results, crossing)
  const value = (place: number): string => plain(inFileUnit(swept, place), decimalsFor(swept, crossing.at!))
  const sampling = `sampling ${value(crossing.at!.low)} to ${value(crossing.at!.high)}`
  const assumed = assumedText(crossing, value)
  return `${keyName(swept.key)} ${withUnit(value(crossing.at!.mean), swept.unit)} (${sampling}${assumed === "" ? "" : `; ${assumed}`})`
}

/** "more than once, first at depth 1.1 m, last at 2.5 m, 3 times in all, so that ..."; null for one crossing. */
export function crossingsText(results: RunResults, crossing: Crossing): string | null {
  const { places = [] } = crossing
  if (places.length < 2) return null
  const swept = axisOf(results, crossing)
  const value = (place: number): string =>
    withUnit(plain(inFileUnit(swept, place), decimalsFor(swept, { low: places[0]!, high: places.at(-1)! })), swept.unit)
  const ends = `first at ${keyName(swept.key)} ${value(places[0]!)}, last at ${value(places.at(-1)!)}`
  const times = places.length === 2 ? "twice" : `${places.length} times`
  return `more than once, ${ends}, ${times} in all, so that no one place parts them`
}
