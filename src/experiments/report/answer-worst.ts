import { measureOf } from "../measures.ts"
import { ratedBy } from "../rated.ts"
import type { PointResult, RunResults, WorstFinding } from "../results.ts"
import {
  bestParts,
  type Found,
  rangeText,
  type SweptQuantity,
  shortBest,
  verdictOf,
  verdictText,
} from "./answer-best.ts"
import {
  alikeTogether,
  type Detail,
  type Finding,
  fittedParts,
  groupName,
  groupWhere,
  ratedPoints,
  type Summary,
} from "./finding.ts"
import { capital, keyName, percentWithInterval, valueText } from "./words.ts"

/**
 * Where the goalie is least badly off whichever of some cases comes, before what each case alone says; null where the
 * file asks for no such thing.
 */
export function worstSummary(results: RunResults, alone: Summary): Summary | null {
  const found = (results.worst ?? []).flatMap((worst) => foundWorst(results, worst) ?? [])
  const first = found[0]
  if (first === undefined) return null
  const name = keyName(first.swept.key)
  const headline = fittedParts(`Best ${name} against ${first.curve.case}: `, (detail) => [
    ...alikeTogether(
      found.map((one) => [
        placeText(one, detail),
        groupWhere(results.experiment, "", "all", one.swept, one.curve.others ?? []),
      ]),
    ),
    // several of the worst leave no room for each alone
    ...(found.length > 1
      ? []
      : bestParts(results, detail).map((part, i) => (i === 0 ? `best where each comes alone ${part}` : part))),
  ])
  return { headline, findings: [...found.map((one) => worstFinding(results, one)), ...alone.findings] }
}

/** The stretch within half a point, which says more than a best place on a plateau; the best place where there is none. */
function placeText(found: Found, detail: Detail): string {
  const { from, to } = found.curve.plateau
  const best = shortBest(found, detail)
  return to > from && verdictOf(found) === "edge" ? `anywhere ${rangeText(found)} within half a point` : best
}

type FoundWorst = Found & { readonly curve: WorstFinding }

/** The point of the case that is worst, where the worst is best. */
function foundWorst(results: RunResults, curve: WorstFinding): FoundWorst | null {
  const at = results.experiment.sweep.findIndex(({ key }) => key === curve.key)
  const swept = results.experiment.sweep[at]
  if (swept === undefined || swept.kind === "choice") return null
  const values = [...new Set(swept.values)].toSorted((a, b) => a - b)
  const away = (value: number): number => Math.abs(value - curve.best.mean)
  const value = values.toSorted((a, b) => away(a) - away(b))[0]!
  const decides = curve.worst[values.indexOf(value)]!
  const nearest = ratedPoints(results).find((point) => isAt(point, decides, at, value, curve.others ?? []))
  return nearest === undefined ? null : { curve, swept: swept as SweptQuantity, at, nearest }
}

function isAt(
  point: PointResult,
  theCase: string,
  at: number,
  value: number,
  others: readonly (number | string)[],
): boolean {
  const rest = point.swept.filter((_, place) => place !== at)
  return point.case === theCase && point.swept[at] === value && JSON.stringify(rest) === JSON.stringify(others)
}

function worstFinding({ experiment }: RunResults, found: FoundWorst): Finding {
  const { curve, swept, nearest } = found
  const rated = ratedBy(experiment)
  const verdict = verdictOf(found)
  const group = groupName(experiment, curve.case, curve.spot, swept, curve.others ?? [])
  const shown = rated === "save_rate" ? curve.rate : nearest.estimates[rated]!
  const rate = `${measureOf(rated)!.title.toLowerCase()} ${percentWithInterval(shown)}`
  const width = verdict === "flat" ? "" : `; anywhere ${rangeText(found)} is within half a point`
  const sentence = capital(
    `${group}: ${verdictText(found, verdict, rated)}: ${rate} there, decided by ${deciding(curve, found)}${width}`,
  )
  return { group, verdict, measure: rated, sentence, point: nearest }
}

/** "shot up to 1.5 m, deke from 2 m": which case is the worst along the sweep. */
function deciding({ worst }: WorstFinding, { swept }: Found): string {
  const values = [...new Set(swept.values)].toSorted((a, b) => a - b)
  const text = (value: number): string => valueText(swept, value)
  const runs: { name: string; from: number; to: number }[] = []
  for (const [i, name] of worst.entries()) {
    const last = runs.at(-1)
    if (last?.name === name) last.to = values[i]!
    else runs.push({ name, from: values[i]!, to: values[i]! })
  }
  if (runs.length === 1) return `${runs[0]!.name} everywhere`
  return runs.map(({ name, from, to }) => `${name} from ${text(from)} to ${text(to)}`).join(", ")
}
