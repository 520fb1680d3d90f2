import type { Origin } from "../../models/plays/origin.ts"
import { isMeasured, type Measured, parseQuantity } from "../quantity.ts"
import { joinOr } from "../wording.ts"
import { nearest } from "./nearest.ts"
import { type Problem, type ProblemFacts, problemAt } from "./problem.ts"
import { polarSpot, SPOT_RULE, spotIsPlayable } from "./spot.ts"

/** Columns of a CSV of spots. A unit may stand in the head (`x_ft`) or with each number (`12 ft`). */
const COLUMNS = ["label", "weight", "x", "y", "distance", "angle"] as const
type Column = (typeof COLUMNS)[number]

interface Head {
  readonly column: Column
  /** Unit named in the head, "" when each number carries its own. */
  readonly unit: string
}

/** A line with its cells and the column, from 1, that each begins in. */
interface Row {
  readonly line: number
  readonly cells: readonly { readonly text: string; readonly at: number }[]
}

/** After this many bad lines the rest of a file is not looked at. */
const MOST_BAD_LINES = 20

/** Reads a CSV of spots: a head line, then one spot a line, as x and y or as distance and angle. */
export function readSpotsFile(path: string, text: string, problems: Problem[]): Origin[] | null {
  const [headRow, ...rows] = rowsOf(text)
  const head = headRow === undefined ? null : readHead(path, headRow, problems)
  if (head === null) return null
  if (rows.length === 0) {
    const place = { file: path, line: null, column: null }
    const facts = { key: "the spots", rule: "at least one line below the head", current: "the head alone" }
    problems.push(problemAt(place, { kind: "bad spot", ...facts }))
    return null
  }
  const origins: Origin[] = []
  let bad = 0
  for (const row of rows) {
    const origin = readRow(path, row, head, problems)
    if (origin !== null) origins.push(origin)
    else if (++bad >= MOST_BAD_LINES) break
  }
  return bad === 0 ? origins : null
}

function rowsOf(text: string): Row[] {
  const lines = text.replace(/^\uFEFF/, "").split(/\r?\n/)
  const first = lines.find((line) => isData(line)) ?? ""
  const separator = first.includes(";") && !first.includes(",") ? ";" : ","
  const rows: Row[] = []
  for (const [i, line] of lines.entries()) {
    if (isData(line)) rows.push({ line: i + 1, cells: cellsOf(line, separator) })
  }
  return rows
}

function isData(line: string): boolean {
  return line.trim() !== "" && !line.trimStart().startsWith("#")
}

function cellsOf(line: string, separator: string): Row["cells"] {
  const cells: { text: string; at: number }[] = []
  let start = 0
  let quoted = false
  for (let i = 0; i <= line.length; i++) {
    if (line[i] === '"') quoted = !quoted
    if (i < line.length && (quoted || line[i] !== separator)) continue
    const raw = line.slice(start, i)
    const text = raw
      .trim()
      .replace(/^"(.*)"$/, "$1")
      .replaceAll('""', '"')
    cells.push({ text: text.trim(), at: start + 1 + (raw.length - raw.trimStart().length) })
    start = i + 1
  }
  return cells
}

function report(path: string, line: number, column: number, facts: ProblemFacts, problems: Problem[]): null {
  problems.push(problemAt({ file: path, line, column }, facts))
  return null
}

function readHead(path: string, row: Row, problems: Problem[]): Head[] | null {
  const head: Head[] = []
  for (const cell of row.cells) {
    const [name, unit] = splitHead(cell.text)
    const column = COLUMNS.find((known) => known === name)
    if (column === undefined) {
      const near = nearest(name, COLUMNS)
      const remedy = near === null ? "a unit may follow: x_m, y_ft, angle_deg" : `did you mean ${near}?`
      const facts = {
        key: "the head",
        rule: `made of ${joinOr(COLUMNS)}`,
        current: cell.text || "an empty name",
        remedy,
      }
      report(path, row.line, cell.at, { kind: "bad spot", ...facts }, problems)
    } else head.push({ column, unit })
  }
  if (head.length < row.cells.length) return null
  const has = (column: Column): boolean => head.filter((item) => item.column === column).length === 1
  const polar = has("distance") && has("angle")
  const plain = has("x") && has("y")
  if (polar !== plain) return head
  const rule = "either x and y or distance and angle, each once"
  const current = row.cells.map((cell) => cell.text).join(", ")
  return report(path, row.line, 1, { kind: "bad spot", key: "the head", rule, current }, problems)
}

function splitHead(text: string): [string, string] {
  const match = /^([a-z]+)(?:[_ ]\(?([^)]*)\)?)?$/i.exec(text)
  return match === null ? [text, ""] : [match[1]!.toLowerCase(), match[2] ?? ""]
}

function readRow(path: string, row: Row, head: readonly Head[], problems: Problem[]): Origin | null {
  if (row.cells.length !== head.length) {
    const current = `${row.cells.length} cells`
    const facts = { key: "the line", rule: `${head.length} cells like the head`, current }
    return report(path, row.line, 1, { kind: "bad spot", ...facts }, problems)
  }
  const values = new Map<Column, number>()
  let label = `line ${row.line}`
  let readable = true
  for (const [i, { column, unit }] of head.entries()) {
    const cell = row.cells[i]!
    if (column === "label") label = cell.text === "" ? label : cell.text
    else {
      const value = readCell(path, row.line, cell, { column, unit }, problems)
      if (value === null) readable = false
      else values.set(column, value)
    }
  }
  return readable ? spotOf(path, row, label, values, problems) : null
}

function readCell(
  path: string,
  line: number,
  cell: Row["cells"][number],
  head: Head,
  problems: Problem[],
): number | null {
  const dimension = head.column === "weight" ? "number" : head.column === "angle" ? "angle" : "length"
  const text = /^[\d.+-]+$/.test(cell.text) ? `${cell.text} ${head.unit}` : cell.text
  const read = parseQuantity(text, dimension)
  const value = isMeasured(read) ? (read satisfies Measured).value : Number.NaN
  if (value >= (head.column === "weight" ? 0 : Number.NEGATIVE_INFINITY)) return value
  const rule = { number: "a number of at least 0", angle: "an angle with its unit", length: "a length with its unit" }
  const remedy =
    dimension === "number" ? null : `name the unit in the head: ${head.column}_${dimension === "angle" ? "deg" : "m"}`
  const current = cell.text === "" ? "nothing" : cell.text
  return report(
    path,
    line,
    cell.at,
    { kind: "bad spot", key: head.column, rule: rule[dimension], current, remedy },
    problems,
  )
}

function spotOf(
  path: string,
  row: Row,
  label: string,
  values: ReadonlyMap<Column, number>,
  problems: Problem[],
): Origin | null {
  const weight = values.get("weight") ?? 1
  const distance = values.get("distance")
  const spot: Origin =
    distance === undefined
      ? { kind: "spot", label, weight, x: values.get("x")!, y: values.get("y")! }
      : polarSpot(label, weight, distance, values.get("angle")!)
  if (spot.kind === "spot" && spotIsPlayable(spot.x, spot.y)) return spot
  const current = row.cells.map((cell) => cell.text).join(", ")
  return report(path, row.line, 1, { kind: "bad spot", key: "the spot", rule: SPOT_RULE, current }, problems)
}
