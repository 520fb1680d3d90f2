import { shotsForContrast } from "../../sim/statistics/power.ts"
import type { Interaction, RunResults } from "../results.ts"
import { type Finding, groupName, isTold } from "./finding.ts"
import { type Html, html, section, tableHtml } from "./html.ts"
import { capital, comparedWith, inFileUnit, keyName, plain, pointsWithSpreads, withUnit } from "./words.ts"

/** Shots on goal in each of two arms that would show a difference of save rates on the ice. */
export type ShotsToSee = (before: number, after: number) => number

/** How wide the plateau is, what missing the best costs, and how many shots on the ice would show the difference. */
export function priceSection(results: RunResults, findings: readonly Finding[], shotsToSee: ShotsToSee): Html {
  const rows = results.curves.flatMap((curve) => {
    const swept = results.experiment.sweep.find(({ key }) => key === curve.key)
    if (swept === undefined || swept.kind === "choice") return []
    const length = (value: number): string => plain(value / swept.unitFactor, 2)
    const width = curve.plateau.width
    const place = (value: number): string => plain(inFileUnit(swept, value), 2)
    const missed = curve.missed.map(({ by, change }) => {
      const side =
        swept.key === ("goalie.depth" as string) ? (by < 0 ? "deeper" : "further out") : by < 0 ? "less" : "more"
      return html`<div>${withUnit(length(Math.abs(by)), swept.unit)} ${side}: ${pointsWithSpreads(change)}</div>`
    })
    const name = groupName(results.experiment, curve.case, curve.spot, swept, curve.others ?? [])
    return [
      [
        capital(name === "" ? keyName(swept.key) : name),
        `${withUnit(length(width.mean), swept.unit)} [${length(width.low)}, ${length(width.high)}], from ${place(curve.plateau.from)} to ${place(curve.plateau.to)}`,
        missed.length === 0 ? "outside the sweep" : html`${missed}`,
      ],
    ]
  })
  const header = ["", "Plateau within half a point", "Missing the best costs"]
  const plateau = rows.length === 0 ? html`` : tableHtml(header, rows)
  return section("What it is worth, and whether the ice would show it", [
    plateau,
    ...seenOnIce(results, findings, shotsToSee),
  ])
}

function seenOnIce(results: RunResults, findings: readonly Finding[], shotsToSee: ShotsToSee): Html[] {
  const lines = findings.flatMap((finding) => {
    const needed = finding.interaction
      ? shotsOfFour(results, finding.interaction)
      : shotsOfTwo(results, finding, shotsToSee)
    if (needed === null) return []
    const [places, both] = finding.interaction ? ["four places", "the two differences"] : ["two places", "the two"]
    const opening = finding.group === "" ? "" : `${capital(finding.group)}: `
    const text = Number.isFinite(needed)
      ? `${opening}${shotsText(needed)} shots on goal at each of the ${places}`
      : `${opening}no number can be given, as not even this run tells ${both} apart`
    return [html`<li>${text}</li>\n`]
  })
  if (lines.length === 0) return []
  const words = "To see this difference on the ice as more than luck (80 % power, two-sided 5 %):"
  return [html`<p>${words}</p>\n<ul>\n${lines}</ul>\n`]
}

/** Shots for a point against the one it is compared with: null where there is none, Infinity where they are not told apart. */
function shotsOfTwo(results: RunResults, { point, measure }: Finding, shotsToSee: ShotsToSee): number | null {
  const base = comparedWith(results.experiment, point.index)
  const before = results.points.find((one) => one.index === base && one.spot === point.spot)?.estimates.save_rate
  const after = point.estimates.save_rate
  if (measure !== "save_rate" || base === point.index || before === undefined || after === undefined) return null
  const difference = point.differences.save_rate
  if (difference !== undefined && !isTold(difference)) return Infinity
  // the paired difference is sharper than the two rates
  const change = difference?.mean ?? after.mean - before.mean
  return shotsToSee(before.mean, Math.min(1, Math.max(0, before.mean + change)))
}

/** The same for a difference of differences, which takes four arms. */
function shotsOfFour({ points }: RunResults, { points: arms, difference }: Interaction): number | null {
  const rates = arms.map(
    (arm) => points.find((one) => one.index === arm && one.spot === "all")?.estimates.save_rate?.mean,
  )
  if (!rates.every((rate) => rate !== undefined)) return null
  return isTold(difference) ? shotsForContrast(rates, difference.mean) : Infinity
}

/** Exact while it could be shot in a season, two figures beyond. */
function shotsText(needed: number): string {
  const whole = Math.ceil(needed)
  if (whole < 100_000) return whole.toLocaleString("en-US")
  const unit = 10 ** (Math.floor(Math.log10(whole)) - 1)
  return `about ${(Math.ceil(whole / unit) * unit).toLocaleString("en-US")}`
}
