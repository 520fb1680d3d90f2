import { ratedBy } from "../rated.ts"
import type { AssumptionRange, Rival, RunResults } from "../results.ts"
import { bestParts } from "./answer-best.ts"
import { type Detail, fittedParts, groupWhere, isTold } from "./finding.ts"
import { capital, keyName, plain, spreadsText } from "./words.ts"

/** Which way of the goalie saves more where each takes its own best place, then those places; null without such ways. */
export function rivalsHeadline(results: RunResults): string | null {
  const rivals = results.rivals ?? []
  if (rivals.length === 0) return null
  const name = keyName(rivals[0]!.along)
  return fittedParts(`Each at its best ${name}, `, (detail) => [
    ...together(rivals).map(([first, ...rest]) =>
      [rivalText(results, first!, detail), ...rest.map((rival) => pointsText(results, rival, detail))].join(", "),
    ),
    ...bestParts(results, detail).map((part, at) => (at === 0 ? `best ${name} ${part}` : part)),
  ])
}

/** Rivals of the same two ways, of which the same is ahead. */
function together(rivals: readonly Rival[]): Rival[][] {
  const groups = new Map<string, Rival[]>()
  for (const rival of rivals) {
    const id = JSON.stringify([rival.case, rival.against, signOf(rival)])
    groups.set(id, [...(groups.get(id) ?? []), rival])
  }
  return [...groups.values()]
}

/** The same one by one, with both spreads. */
export function rivalNotes(results: RunResults): string[] {
  const { rivals = [] } = results
  return rivals.map((rival) =>
    capital(`each at its best ${keyName(rival.along)}, ${rivalText(results, rival, "both")}`),
  )
}

/** "sliding saves 9.1 points more than pushing [8.2, 10.0; assumptions 4.0 to 15.1] at walk past 0.5 m". */
function rivalText(results: RunResults, rival: Rival, detail: Detail): string {
  const [ahead, behind] = signOf(rival) === 1 ? [rival.case, rival.against] : [rival.against, rival.case]
  const [does, more] = ratedBy(results.experiment) === "goal_rate" ? ["lets in", " fewer"] : ["saves", " more"]
  return `${ahead} ${does} ${pointsText(results, rival, detail, `${more} than ${behind}`)}`
}

/** "9.1 points [8.2, 10.0] at walk past 0.5 m", with words between the number and its spreads. */
function pointsText({ experiment }: RunResults, rival: Rival, detail: Detail, words = ""): string {
  const swept = experiment.sweep.find(({ key }) => key === rival.along)
  const where = groupWhere(experiment, "", "all", swept, rival.others)
  const sign = signOf(rival)
  const number = (share: number): string => plain(share * 100, 1)
  const shown = detail === "both" && rival.rateAssumptions !== null ? turned(rival.rateAssumptions, sign) : null
  const spreads = detail === "none" ? "" : ` ${spreadsText(turned(rival.rate, sign), shown, number)}`
  const doubt = isTold(rival.rate) ? "" : " (not told apart)"
  return `${number(sign * rival.rate.mean)} points${words}${spreads}${where === "" ? "" : ` ${where}`}${doubt}`
}

/** -1 where the way it is compared with is ahead. */
function signOf({ rate }: Rival): 1 | -1 {
  return rate.mean < 0 ? -1 : 1
}

function turned<Range extends Pick<AssumptionRange, "low" | "high">>(range: Range, sign: 1 | -1): Range {
  return sign === 1 ? range : { ...range, low: -range.high, high: -range.low }
}
