import { cueLabel, offText, VERDICT_SIGNS } from "./cue-words.ts"
import type { Survey } from "./survey.ts"

/** Widest line of a table, and longest label of a spot, characters. */
const WIDEST = 98
const LONGEST_LABEL = 16
/** Room that the last column needs, its gap included. */
const VERDICTS = 10

/**
 * Aligned tables of every cue at every spot, one string a line: as many spots abreast as fit, the rest in tables below;
 * the last table ends with the verdict over all spots.
 */
export function surveyTables(survey: Survey, unit: "cm" | "degrees"): string[][] {
  const names = ["", ...survey.rows.map(cueLabel)]
  const columns = survey.spots.map(({ label }, i) => [
    // two places for the sign, so that a label ends where the numbers do
    `${short(label)}  `,
    ...survey.rows.map(({ at }) => `${offText(at[i]!, unit)} ${VERDICT_SIGNS[at[i]!.verdict]}`),
  ])
  const groups = abreast(columns, WIDEST - widthOf(names) - VERDICTS)
  const verdicts = ["in all", ...survey.rows.map(({ verdict }) => verdict)]
  return groups.map((group, i) => aligned(names, group, i === groups.length - 1 ? verdicts : null))
}

/** Columns in groups that are no wider than the room, at least one in each. */
function abreast(columns: readonly (readonly string[])[], room: number): (readonly string[])[][] {
  const groups: (readonly string[])[][] = []
  let left = 0
  for (const column of columns) {
    const wide = widthOf(column) + 1
    if (groups.length === 0 || wide > left) {
      groups.push([])
      left = room
    }
    groups.at(-1)!.push(column)
    left -= wide
  }
  return groups
}

/** Names to the left, numbers to the right, the verdict to the left again. */
function aligned(
  names: readonly string[],
  numbers: readonly (readonly string[])[],
  verdicts: readonly string[] | null,
): string[] {
  const widths = numbers.map(widthOf)
  return names.map((name, row) => {
    const cells = numbers.map((column, i) => ` ${column[row]!.padStart(widths[i]!)}`)
    const verdict = verdicts === null ? "" : ` ${verdicts[row]}`
    return `${name.padEnd(widthOf(names))}${cells.join("")}${verdict}`.trimEnd()
  })
}

function widthOf(column: readonly string[]): number {
  return Math.max(...column.map((cell) => cell.length))
}

function short(label: string): string {
  return label.length > LONGEST_LABEL ? `${label.slice(0, LONGEST_LABEL - 1)}…` : label
}
