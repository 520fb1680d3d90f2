import { plain, signed } from "../report/words.ts"
import {
  type CueAtSpot,
  type CueRow,
  type InLine,
  type MarksInLine,
  type Survey,
  VERDICTS,
  type Verdict,
} from "./survey.ts"

/** What a cue is called in tables and pictures: a mark goes by its own name. */
export function cueLabel(row: Pick<CueRow, "cue" | "mark">): string {
  return row.mark ?? row.cue
}

/** Sign that goes with a verdict in a table. */
export const VERDICT_SIGNS: Readonly<Record<Verdict, string>> = { trust: " ", check: "?", distrust: "!" }

/** `+13.2 ± 2.0`: bias and standard deviation in centimetres or degrees. */
export function offText(at: CueAtSpot, unit: "cm" | "degrees"): string {
  const [bias, spread] =
    unit === "cm" ? [100 * at.bias, 100 * at.spread] : [degrees(at.biasAngle), degrees(at.spreadAngle)]
  return `${signed(bias, 1)} ± ${plain(spread, 1)}`
}

export function degrees(angle: number): number {
  return (angle * 180) / Math.PI
}

/** Which sheet, what of it was measured, and where the goalie is from. */
export function sheetText(survey: Survey): string {
  const { here, home } = survey.request
  const taken = here.measured.size
  const measured = taken === 0 ? "nothing measured yet" : `${taken} ${taken === 1 ? "measure" : "measures"} taken here`
  const from = home === null ? "this is the goalie's home rink" : `the goalie knows ${home.sheet}`
  return `Sheet ${here.sheet}, ${measured}; ${from}`
}

/** How far out the goalie stands. */
export function depthText(survey: Survey): string {
  const { settings } = survey.request
  const depths = survey.spots.map(({ depth }) => depth)
  const [least, most] = [Math.min(...depths), Math.max(...depths)]
  const metres = most - least < 0.005 ? `${plain(most, 2)} m` : `${plain(least, 2)} to ${plain(most, 2)} m`
  const isGiven = !Number.isNaN(settings.quantities["goalie.depth"])
  return isGiven ? `Depth ${metres}` : `Depth ${settings.choices["goalie.depth_level"]}, ${metres} out`
}

/** One rule of common practice, what it misses by here and at home, and where it puts the goalie. */
export function lineText(inLine: MarksInLine): string {
  const { line, here, home } = inLine
  const isSpot = line === "spot and crease mark"
  const name = isSpot
    ? "End-zone spot, crease mark and the middle of the net in line"
    : "The neutral spot's line to the middle of the net touches the end-zone circle"
  const missed = ({ miss, verdict }: InLine): string => {
    const size = `${plain(100 * Math.abs(miss), 1)} cm`
    const inside = isSpot ? `passes ${size} inside the mark` : `cuts ${size} into the circle`
    const outside = isSpot ? `passes ${size} outside the mark` : `passes ${size} outside the circle`
    return `${miss < 0 ? inside : outside} (${verdict})`
  }
  const atHome = home === null ? "" : `; at home it ${missed(home)}`
  const side = here.off < 0 ? "toward the middle of the ice" : "away from the middle of the ice"
  const size = `${plain(100 * Math.abs(here.off), 1)} cm off, ${side}`
  return `${name}: here the line ${missed(here)}${atHome}. Lined up by it here, ${plain(here.depth, 2)} m out, the goalie stands ${size}.`
}

/** The cues of one verdict, each with the worst place of it where it is not trusted. */
export interface VerdictLine {
  readonly verdict: Verdict
  readonly title: string
  readonly items: readonly string[]
}

/** What to trust, to check and to distrust; a verdict that no cue has is left out. */
export function verdictLines(survey: Survey): VerdictLine[] {
  const titles: Readonly<Record<Verdict, string>> = {
    trust: "Trust",
    check: "Check first, or use with a second cue",
    distrust: "Distrust",
  }
  return VERDICTS.flatMap((verdict) => {
    const rows = survey.rows.filter((row) => row.verdict === verdict)
    if (rows.length === 0) return []
    const items = rows.map((row) => `${cueLabel(row)}${verdict === "trust" ? "" : `: ${worstText(survey, row)}`}`)
    return [{ verdict, title: titles[verdict], items }]
  })
}

/** `11.3 cm off for the left spot`, bias and spread together, and over the assumptions; and where it may be trusted. */
function worstText(survey: Survey, row: CueRow): string {
  const cm = (size: number): string => plain(100 * size, 1)
  const { low, high } = row.assumed
  const range = high - low < 0.005 ? "" : `, assumptions ${cm(low)} to ${cm(high)}`
  const good = survey.spots.filter((_, i) => row.at[i]!.verdict === "trust").map(({ label }) => label)
  const fine = good.length === 0 ? "" : `; fine for the ${good.join(", ")}`
  return `${cm(row.at[row.worst]!.size)} cm off for the ${survey.spots[row.worst]!.label}${range}${fine}`
}

/** What else the person should know of this survey. */
export function remarks(survey: Survey): string[] {
  const { here, home } = survey.request
  const remarks: string[] = []
  const atPost = survey.spots.filter(({ atPost }) => atPost).map(({ label }) => label)
  if (atPost.length > 0) {
    remarks.push(
      `For ${atPost.join(", ")} the goalie is along the post: the post is the cue, and the figures are those of the line.`,
    )
  }
  if (here.measured.size === 0 && home !== null && here.sheet !== home.sheet) {
    remarks.push("No mark was measured: the figures are the books' difference, and a painter may have done otherwise.")
  }
  if (home === null) remarks.push("At home the marks are the ones remembered, so none of them leads astray.")
  remarks.push("How exactly a goalie uses a cue is an assumption for each of them; no measurement was found.")
  return remarks
}

/** What stands with advice that sends someone onto the ice. */
export const SURVEY_CAUTIONS: readonly string[] = [
  "Local rules, the rules of the facility and licensed practice come first; ask before you measure, and put no marks of your own on the ice unless they allow it",
  "Measure and check before anyone shoots, with the net pegged and nobody skating through the zone",
  "To check a mark: the goalie stands where the cue leads, a second person behind the middle of the net tells when goalie and spot are in line",
  "Full gear and a certified mask as soon as pucks are about, supervised throughout",
]
