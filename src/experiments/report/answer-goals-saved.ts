import { GOALS_SAVED } from "../measures.ts"
import type { RunResults } from "../results.ts"
import { type Detail, type Finding, fittedParts, isTold, LONGEST, type Summary } from "./finding.ts"
import { goalsSavedOf, type SavedRow } from "./goals-saved.ts"
import { baselineText, plain, signed, spreadsText } from "./words.ts"

/** Goals saved per 100 attempts by each alternative, wherever it meets its baseline; null where nothing is compared. */
export function goalsSavedSummary(results: RunResults): Summary | null {
  const rivals = rivalsOf(results)
  if (rivals.size === 0) return null
  const against = `Goals saved per 100 attempts, against ${baselineText(results.experiment)}: `
  const findings = [...rivals].map(([name, rows]): Finding => {
    const text = rows.map((row) => savedText(row, "both")).join(", ")
    const told = rows.some(({ point }) => isTold(point.estimates[GOALS_SAVED]!))
    const verdict = told ? "best" : "flat"
    return { group: name, verdict, measure: GOALS_SAVED, sentence: `${against}${name} ${text}`, point: widest(rows) }
  })
  const parts =
    (chosen: (rows: readonly Rival[]) => Rival[]) =>
    (detail: Detail): string[] =>
      [...rivals].map(
        ([name, rows]) =>
          `${name} ${chosen(rows)
            .map((row) => savedText(row, detail))
            .join(", ")}`,
      )
  // every alternative is named before one is told of at length
  const isLong = `${against}${parts(telling)("none").join("; ")}`.length > LONGEST
  return { headline: fittedParts(against, parts(isLong ? extremes : telling)), findings }
}

interface Rival extends SavedRow {
  /** Where the alternative meets its baseline; "" where it is everywhere. */
  readonly where: string
}

/** The rows by alternative: the name that stays, and where. */
function rivalsOf(results: RunResults): Map<string, Rival[]> {
  const { groups, isLone } = goalsSavedOf(results)
  const rivals = new Map<string, Rival[]>()
  for (const { name, rows } of groups)
    for (const row of rows) {
      const [who, where] = isLone ? [name, row.label] : [row.label, name]
      rivals.set(who, [...(rivals.get(who) ?? []), { ...row, where }])
    }
  return rivals
}

/** First, last, and the extremes. */
function telling(rows: readonly Rival[]): Rival[] {
  const most = extremes(rows)
  return rows.filter((row, at) => at === 0 || at === rows.length - 1 || most.includes(row))
}

/** The largest, and the largest the other way where one is told apart. */
function extremes(rows: readonly Rival[]): Rival[] {
  const largest = widest(rows)
  const sign = Math.sign(largest.estimates[GOALS_SAVED]!.mean)
  const others = rows.filter(({ point }) => {
    const saved = point.estimates[GOALS_SAVED]!
    return isTold(saved) && Math.sign(saved.mean) === -sign
  })
  const other = others.length === 0 ? largest : widest(others)
  return rows.filter(({ point }) => point === largest || point === other)
}

function widest(rows: readonly Rival[]): Rival["point"] {
  const size = ({ point }: Rival): number => Math.abs(point.estimates[GOALS_SAVED]!.mean)
  return rows.reduce((top, row) => (size(row) > size(top) ? row : top)).point
}

/** "+0.87 [0.71, 1.03; assumptions 0.20 to 1.50] from 6 m". */
function savedText({ point, where }: Rival, detail: Detail): string {
  const saved = point.estimates[GOALS_SAVED]!
  const number = (value: number): string => plain(value, 2)
  const range = detail === "both" ? point.assumptions[GOALS_SAVED] : null
  const spreads = detail === "none" ? "" : ` ${spreadsText(saved, range, number)}`
  const doubt = isTold(saved) ? "" : " (not told apart)"
  return `${signed(saved.mean, 2)}${spreads} ${where}`.trimEnd() + doubt
}
