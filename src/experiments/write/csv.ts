import { numberText } from "./number-text.ts"
import type { Table } from "./table.ts"

/** The table as RFC 4180 text: CRLF line ends, quotes only where a field needs them, no byte-order mark. */
export function csvOf(table: Table): string {
  const lines = [table.columns.map((column) => field(column.name)).join(",")]
  for (let row = 0; row < table.rows; row++) {
    lines.push(
      table.columns
        .map((column) => (column.kind === "text" ? field(column.values[row]!) : numberText(column.values[row])))
        .join(","),
    )
  }
  return lines.map((line) => `${line}\r\n`).join("")
}

/** One text field, quoted when it holds a comma, a quote, a line end or outer spaces. */
function field(text: string): string {
  return /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}
