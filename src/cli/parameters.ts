import { formatQuantity } from "../experiments/quantity.ts"
import { suggestion } from "../experiments/read/nearest.ts"
import type { Choice, Quantity } from "../models/parameter.ts"
import { CHOICES, QUANTITIES } from "../models/settings.ts"
import { SOURCES } from "../models/sources.ts"
import { colours, printJson, wrapped } from "./print.ts"
import { type Command, EXIT, type Streams } from "./streams.ts"

/** One parameter as the reference page shows it; numbers are in its own unit. */
type Row =
  | {
      readonly key: string
      readonly kind: "quantity"
      readonly default: string
      readonly plausible: readonly [string, string]
      readonly limits: readonly [string, string]
      readonly unit: string
      readonly source: string
      readonly why: string
    }
  | {
      readonly key: string
      readonly kind: "choice"
      readonly default: string
      readonly names: readonly string[]
      readonly source: string
      readonly why: string
    }

export const command: Command = {
  options: (yargs) =>
    yargs
      .positional("filter", { type: "string", describe: "Show only parameters whose key or sentence holds this" })
      .option("json", { type: "boolean", describe: "Print the parameters as JSON" }),
  run: async (given, streams) => {
    const filter = String(given.filter ?? "").toLowerCase()
    const rows = parameterRows().filter((row) => `${row.key} ${row.why}`.toLowerCase().includes(filter))
    if (given.json === true) printJson(rows, streams)
    else for (const row of rows) printRow(row, streams)
    if (rows.length > 0) return EXIT.done
    const remedy = suggestion(filter, wordsOfKeys()) ?? "goalmouth parameters lists all"
    streams.err(
      `Cannot list parameters of ${filter} as the word must be in the key or the sentence of one: current value is in none (${remedy})\n`,
    )
    return EXIT.wrong
  },
}

/** Whole keys, their groups and the words in them: what a slip of the pen is near to. */
function wordsOfKeys(): string[] {
  return [...new Set(parameterRows().flatMap(({ key }) => [...key.split(/[._]/), ...key.split("."), key]))]
}

/** Every quantity and choice, by section in the order of the models. */
export function parameterRows(): Row[] {
  const quantities = Object.entries<Quantity>(QUANTITIES).map(([key, quantity]) => quantityRow(key, quantity))
  const choices = Object.entries<Choice>(CHOICES).map(([key, choice]) => choiceRow(key, choice))
  const rows: Row[] = [...quantities, ...choices]
  const sections = [...new Set(rows.map((row) => row.key.split(".")[0]!))]
  return sections.flatMap((section) => rows.filter((row) => row.key.startsWith(`${section}.`)))
}

function quantityRow(key: string, quantity: Quantity): Row {
  const { dimension, unit, value, low, high, least, most, source, why } = quantity
  const show = (number: number): string => formatQuantity(number, dimension, unit)
  return {
    key,
    kind: "quantity",
    default: show(value),
    plausible: [show(low), show(high)],
    limits: [show(least), show(most)],
    unit,
    source: sourceText(source),
    why,
  }
}

function choiceRow(key: string, choice: Choice): Row {
  const { value, names, source, why } = choice
  return { key, kind: "choice", default: value, names, source: sourceText(source), why }
}

/** A source key with the title it stands for. */
function sourceText(key: string): string {
  const source = SOURCES[key]
  if (source === undefined) return key
  return [source.authors, source.title, source.year].filter((part) => part !== undefined).join(", ")
}

function printRow(row: Row, streams: Streams): void {
  const { bold, dim } = colours(streams)
  const facts =
    row.kind === "choice"
      ? `one of: ${row.names.join(", ")}`
      : `${row.plausible[0] === row.plausible[1] ? "" : `plausible ${row.plausible.join(" to ")} · `}limits ${row.limits.join(" to ")}`
  const source = row.source === "choice" ? "your choice" : row.source
  streams.out(`${bold(row.key)}  ${row.default}\n`)
  streams.out(`${wrapped(row.why, 100, "    ")}\n${dim(wrapped(`${facts} · ${source}`, 100, "    "))}\n`)
}
