import { type Measure, measureOf } from "../measures.ts"
import type { PointResult, RunResults } from "../results.ts"
import { folded, type Html, html, section, tableHtml } from "./html.ts"
import { measureText } from "./measure-text.ts"
import {
  capital,
  comparedWith,
  keyName,
  percentWithInterval,
  plain,
  pointsWithSpreads,
  rateOf,
  shotsText,
  signed,
  valueText,
} from "./words.ts"

/** Rows printed; results.csv has the rest. */
const MOST_ROWS = 240

/** Tables up to this many rows stand open. */
const UNFOLDED = 16

/** Every design point: rate, difference from the baseline, assumptions, geometry. */
export function tableSection(results: RunResults): Html {
  const { experiment, points } = results
  const exact = exactMeasures(results)
  const hasCases = experiment.cases.some((name) => name !== "")
  const hasStops = points.some(({ stoppedBy }) => stoppedBy !== undefined)
  const header = [
    ...experiment.sweep.map(({ key }) => capital(keyName(key))),
    ...(hasCases ? ["Case"] : []),
    ...(points.some((point) => point.spot !== "all") ? ["From"] : []),
    "Save rate",
    "Points on the baseline",
    "Assumptions, save rate",
    ...exact.map(({ title }) => title),
    "Shots",
    ...(hasStops ? ["Stopped by"] : []),
  ]
  const hasSpots = header.includes("From")
  const rows = points
    .slice(0, MOST_ROWS)
    .map((point) => [
      ...experiment.sweep.map((swept, at) => valueText(swept, point.swept[at]!)),
      ...(hasCases ? [point.case] : []),
      ...(hasSpots ? [point.spot] : []),
      rateText(point),
      differenceText(results, point),
      rangeText(point),
      ...exact.map((measure) => exactText(measure, point.exact[measure.key])),
      point.shots.toLocaleString("en-US"),
      ...(hasStops ? [point.stoppedBy ?? ""] : []),
    ])
  const rest = points.length - rows.length
  const more = rest > 0 ? html`<p class="quiet">${rest} more rows stand in results.csv.</p>\n` : html``
  const table = [tableHtml(header, rows), more]
  const words = `${rows.length} rows, each with ${headerNote(results)}`
  return section("Every point", rows.length > UNFOLDED ? folded(words, table) : table)
}

function headerNote({ points }: RunResults): string {
  const common = new Set(points.map(({ shots }) => shots)).size > 1 ? ", by the shots that both have met" : ""
  return `its save rate from ${shotsText(points)} shots and its difference from the baseline${common}`
}

function rateText(point: PointResult): string {
  const rate = rateOf(point)
  return rate === null ? "no shot on goal" : percentWithInterval(rate)
}

function differenceText(results: RunResults, point: PointResult): string {
  if (comparedWith(results.experiment, point.index) === point.index) return "baseline"
  const difference = point.differences.save_rate
  return difference === undefined || !Number.isFinite(difference.mean)
    ? ""
    : pointsWithSpreads(difference, point.assumptions.save_rate_vs_baseline).replace(" points", "")
}

function rangeText(point: PointResult): string {
  const range = point.assumptions.save_rate
  return range === undefined ? "" : `${plain(range.low * 100, 1)} to ${plain(range.high * 100, 1)} %`
}

/** The exact measures that the file lists, or the usual ones where it lists none. */
function exactMeasures({ experiment, points }: RunResults): Measure[] {
  const listed = experiment.measures.filter((key) => measureOf(key)?.kind === "exact")
  const keys = listed.length > 0 ? listed : ["net_covered", "box_area_m2"]
  return keys.flatMap((key) => (points.some((point) => key in point.exact) ? [measureOf(key)!] : []))
}

function exactText(measure: Measure, value: number | undefined): string {
  return value === undefined ? "" : measureText(measure, value)
}

/** Save rate taken apart: what position alone stops, what moving adds, and what luck keeps out. */
export function splitSection(results: RunResults, points: readonly PointResult[], names: readonly string[]): Html {
  const rows = points.flatMap((point, at) => {
    const {
      save_rate: rate,
      position_rate: position,
      reach_rate: reach,
      miss_rate: miss,
      iron_rate: iron,
    } = point.estimates
    if (rate === undefined || position === undefined) return []
    const added = reach === undefined ? signed((rate.mean - position.mean) * 100, 1) : pointsWithSpreads(reach)
    const luck = [miss, iron].map((share) => (share === undefined ? "" : percentWithInterval(share)))
    return [[names[at]!, percentWithInterval(position), added, percentWithInterval(rate), ...luck]]
  })
  if (rows.length === 0) return html``
  const header = ["", "Position: limbs frozen", "Reach: limbs free", "Save rate", "Luck: missed the net", "Luck: iron"]
  const parts = results.breakdowns.map(
    ({ title, rows: shares }) =>
      html`<h3>${title}</h3>\n${tableHtml(
        ["", "Share"],
        shares.map(({ name, share }) => [name, percentWithInterval(share)]),
      )}`,
  )
  const words = html`<p>Position is the share of shots on goal that the body stops frozen as it stands; reach is what moving adds, less the lanes it opens. Misses and iron are shares of all attempts and no merit of the goalie.</p>\n`
  return section("Position, reach and luck", [words, tableHtml(header, rows), ...parts])
}
