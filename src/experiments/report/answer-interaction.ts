import type { Interaction, RunResults } from "../results.ts"
import { type Detail, type Finding, fittedParts, isTold, type Summary } from "./finding.ts"
import { capital, plain, signed, spreadsText } from "./words.ts"

/** What the file asks of interactions first, then what the points say by themselves; null where it asks for none. */
export function withInteractions(results: RunResults, rest: Summary): Summary {
  const interactions = results.interactions ?? []
  if (interactions.length === 0) return rest
  const findings = interactions.map((one) => interactionFinding(results, one))
  return {
    headline: fittedParts("", (detail) => interactions.map((one, at) => partText(one, at === 0, detail))),
    findings: [...findings, ...rest.findings],
  }
}

/** "Inside out instead of outside in is worth 20.1 points [19.0, 21.2] more in late pass than in shot"; then each by its name. */
function partText(interaction: Interaction, isFirst: boolean, detail: Detail): string {
  const { name, from, to, between, difference, where } = interaction
  const spread = detail === "none" ? "" : ` ${spreads(interaction, detail)}`
  const label = [name, where].filter((part) => part !== "").join(", ")
  const doubt = isTold(difference) ? "" : " (not told from none)"
  if (!isFirst) return `${label}: ${signed(100 * difference.mean, 1)} points${spread}${doubt}`
  const [first, second] = difference.mean < 0 ? [between[1], between[0]] : between
  const size = `${plain(100 * Math.abs(difference.mean), 1)} points`
  const opening = label === "" ? "" : `${label}: `
  const flipped = difference.mean < 0 && detail !== "none" ? ` ${spreads(negative(interaction), detail)}` : spread
  return capital(
    `${opening}${to} instead of ${from} is worth ${size}${flipped} more in ${second} than in ${first}${doubt}`,
  )
}

function spreads({ difference, assumptions }: Interaction, detail: Detail): string {
  return spreadsText(difference, detail === "both" ? assumptions : null, (value) => plain(100 * value, 1))
}

function negative(interaction: Interaction): Interaction {
  const { difference, assumptions } = interaction
  return {
    ...interaction,
    difference: { ...difference, mean: -difference.mean, low: -difference.high, high: -difference.low },
    assumptions: assumptions === null ? null : { ...assumptions, low: -assumptions.high, high: -assumptions.low },
  }
}

function interactionFinding(results: RunResults, interaction: Interaction): Finding {
  const interactions = results.interactions!
  const { name, from, to, between, effects, where, points, sincePrevious, difference } = interaction
  const number = (value: number): string => plain(100 * value, 1)
  const effect = (at: 0 | 1): string =>
    `${signed(100 * effects[at].mean, 1)} points ${spreadsText(effects[at], null, number)} in ${between[at]}`
  const label = [name, where].filter((part) => part !== "").join(", ")
  const opening = label === "" ? "" : `${label}: `
  const more = `a difference of ${signed(100 * difference.mean, 1)} points ${spreads(interaction, "both")}`
  const before = interactions.findLast((one, at) => at < interactions.indexOf(interaction) && one.where === where)
  const moved =
    sincePrevious === null || before === undefined
      ? ""
      : `; that is ${signed(100 * sincePrevious.mean, 1)} points ${spreadsText(sincePrevious, null, number)} against ${before.name}`
  const sentence = capital(`${opening}${to} instead of ${from} changes ${effect(0)} and ${effect(1)}, ${more}${moved}`)
  const point = results.points.find((one) => one.index === points[3] && one.spot === "all")!
  return { group: label, verdict: "best", measure: "save_rate", sentence, point, interaction }
}
