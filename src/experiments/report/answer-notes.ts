import { isLostInNoise } from "../lost-in-noise.ts"
import { VERSUS_BASELINE } from "../measures.ts"
import { ratedBy } from "../rated.ts"
import type { Crossing, RunResults } from "../results.ts"
import { crossingPlace, crossingsText } from "./answer-crossing.ts"
import { type Finding, isTold } from "./finding.ts"
import { capital, comparedWith, inFileUnit, keyName, percentWithInterval, plain, rateOf, withUnit } from "./words.ts"

/** Where curves cross, with both spreads; pairs that do not are named together. */
export function crossingNotes(results: RunResults): string[] {
  const crossings = results.crossings ?? []
  const crossed = crossings.flatMap((crossing) => {
    const text = crossingNote(results, crossing)
    return text === null ? [] : [text]
  })
  const apart = crossings.filter((crossing) => crossing.at === null)
  if (apart.length < 2 || crossed.length > 0 || apart.length !== crossings.length) {
    return [...crossed, ...apart.map((crossing) => apartNote(results, crossing))]
  }
  if (apart.some(({ assumptions }) => assumptions !== null)) return apart.map((one) => apartNote(results, one))
  return ["No two of the curves cross in this range"]
}

function crossingNote(results: RunResults, crossing: Crossing): string | null {
  const swept = results.experiment.sweep.find(({ key }) => key === crossing.key)
  if (crossing.at === null || swept === undefined || swept.kind === "choice") return null
  return `${pairName(crossing)} cross ${crossingsText(results, crossing) ?? `at ${crossingPlace(results, crossing)}`}`
}

/** No crossing is an answer; so is one that only other assumptions would make. */
function apartNote(results: RunResults, crossing: Crossing): string {
  const swept = results.experiment.sweep.find(({ key }) => key === crossing.key)
  const text = `${pairName(crossing)} do not cross in this range`
  const range = crossing.assumptions
  if (range === null || swept === undefined || swept.kind === "choice") return text
  const number = (value: number): string => plain(inFileUnit(swept, value), 1)
  return `${text}, though within the assumptions they may, at ${keyName(swept.key)} ${number(range.low)} to ${withUnit(number(range.high), swept.unit)}`
}

function pairName({ cases, where }: Crossing): string {
  const pair = `${cases[0]} and ${cases[1]}`
  return where ? `${capital(where)}: ${pair}` : capital(pair)
}

/** Save rates from every place beside that of the whole, for a run of one point. */
export function placeNotes(results: RunResults): string[] {
  if (results.experiment.points.length !== 1) return []
  const places = results.points.filter((point) => point.spot !== "all" && rateOf(point) !== null)
  if (places.length < 2) return []
  return [`By place: ${places.map((point) => `${point.spot} ${percentWithInterval(rateOf(point)!)}`).join("; ")}`]
}

/** So many standard errors of a set's departure are more than luck. */
const SURELY = 2

/** A difference that sampling settles and assumptions do not. */
export function signNotes(results: RunResults, findings: readonly Finding[]): string[] {
  const rated = ratedBy(results.experiment)
  return findings.flatMap(({ point, group, measure, interaction }) => {
    const difference = interaction?.difference ?? point.differences[rated]
    const range = interaction ? interaction.assumptions : point.assumptions[`${rated}${VERSUS_BASELINE}`]
    const isOwn = interaction === undefined && comparedWith(results.experiment, point.index) === point.index
    if (measure !== rated || isOwn || difference === undefined || !range) return []
    // both signs beyond what the few shots of a set may add
    const noise = SURELY * (range.noise ?? 0)
    if (!isTold(difference) || range.low > -noise || range.high < noise || isLostInNoise(range)) return []
    const where = group === "" ? "" : `${capital(group)}: `
    const ends = `${plain(range.low * 100, 1)} to ${plain(range.high * 100, 1)} points`
    return [
      capital(`${where}more shots will not settle the sign of the difference: within the assumptions it is ${ends}`),
    ]
  })
}
