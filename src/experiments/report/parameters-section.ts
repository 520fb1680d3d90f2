import type { Quantity } from "../../models/parameter.ts"
import type { Source } from "../../models/source.ts"
import type { Experiment } from "../experiment.ts"
import { type Catalogue, quantityText } from "./catalogue.ts"
import { folded, type Html, html, section, tableHtml } from "./html.ts"

/** Values, ranges and sources of every parameter, and the bibliography they point to. */
export function parametersSection(experiment: Experiment, catalogue: Catalogue): Html {
  const used = new Set<string>()
  const quantityRows = Object.entries(experiment.shared.quantities).map(([key, value]) => {
    const quantity = catalogue.quantities[key]
    if (quantity !== undefined) used.add(quantity.source)
    return quantity === undefined
      ? [key, String(value), origin(experiment, key), "", "", ""]
      : quantityRow(experiment, key, value, quantity)
  })
  const choiceRows = Object.entries(experiment.shared.choices).map(([key, name]) => {
    const choice = catalogue.choices[key]
    if (choice !== undefined) used.add(choice.source)
    const others = choice === undefined ? "" : choice.names.join(", ")
    return [html`<code>${key}</code>`, name, origin(experiment, key), others, choice?.source ?? "", choice?.why ?? ""]
  })
  return section("Parameters, ranges and sources", [
    html`<p>${assumed(experiment, catalogue)}</p>\n`,
    folded(`${quantityRows.length} quantities, ${choiceRows.length} choices, and their sources`, [
      tableHtml(["Quantity", "Value", "Set by", "Plausible range", "Source", "Why"], quantityRows),
      tableHtml(["Choice", "Name", "Set by", "Alternatives", "Source", "Why"], choiceRows),
      bibliography(catalogue, used),
    ]),
  ])
}

function quantityRow(experiment: Experiment, key: string, value: number, quantity: Quantity): (string | Html)[] {
  const range = Number.isFinite(quantity.low)
    ? `${quantityText(quantity, quantity.low)} to ${quantityText(quantity, quantity.high)}`
    : ""
  const shown = quantity.source === "choice" ? "" : range
  return [
    html`<code>${key}</code>`,
    quantityText(quantity, value),
    origin(experiment, key),
    shown,
    quantity.source,
    quantity.why,
  ]
}

/** Who decided: the file, the sweep, or the default. */
function origin(experiment: Experiment, key: string): string {
  if (experiment.sweep.some((swept) => swept.key === key)) return "swept"
  return experiment.setByFile.includes(key) ? "the file says" : "default"
}

function assumed(experiment: Experiment, catalogue: Catalogue): string {
  const keys = [...Object.keys(experiment.shared.quantities), ...Object.keys(experiment.shared.choices)]
  const records = keys
    .map((key) => catalogue.quantities[key] ?? catalogue.choices[key])
    .filter((record) => record !== undefined)
  const without = records.filter(({ source }) => source === "assumption").length
  return `${without} of ${records.length} parameters are assumptions without a source; their ranges are what the assumption range is drawn from. A value the file sets is the person's own.`
}

function bibliography(catalogue: Catalogue, used: ReadonlySet<string>): Html {
  const entries = [...used].sort().flatMap((key) => {
    const source = catalogue.sources[key]
    return source === undefined ? [] : [html`<dt>${key}</dt><dd>${sourceText(source)}</dd>\n`]
  })
  return entries.length === 0 ? html`` : html`<h3>Sources</h3>\n<dl>\n${entries}</dl>\n`
}

function sourceText(source: Source): string {
  const seen = {
    read: "read",
    quoted: "quoted by another page",
    derived: "derived by arithmetic",
    memory: "from memory",
  }
  const parts = [source.authors, source.year, source.title, source.place].filter((part) => part !== undefined)
  return `${parts.join(". ")} (${seen[source.seen]})`
}
