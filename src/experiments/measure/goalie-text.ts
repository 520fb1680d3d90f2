import { stringify } from "yaml"
import { QUANTITIES, type QuantityKey } from "../../models/settings.ts"
import { fromSi } from "../quantity.ts"
import { findUnit } from "../quantity-units.ts"
import { scalarText } from "../read/source.ts"
import { trimNumber } from "../wording.ts"
import { MEASURE_CAUTIONS } from "./cautions.ts"
import type { MeasuredGoalie, MeasuredRow } from "./measured-goalie.ts"

/** Digits of a value read from readings: more would be noise. */
const DIGITS = 3

/** The goalie file: what was given as it was given, what was read from readings with its spread beside it. */
export function goalieText(goalie: MeasuredGoalie): string {
  const own = goalie.values.filter(({ key }) => key.startsWith("goalie."))
  const movement = goalie.values.filter(({ key }) => key.startsWith("movement."))
  const lines = [
    "# Written by goalmouth measure from readings at the rink. Beside each value from readings stands the spread they leave.",
    ...goalie.notes.map((note) => `# ${note}.`),
    `# ${MEASURE_CAUTIONS}.`,
    `name: ${yamlText(goalie.name)}`,
    ...(goalie.about === null ? [] : [`about: ${yamlText(goalie.about)}`]),
    ...goalie.given.map((setting) => `${lastPart(setting.key)}: ${yamlText(scalarText(setting.found) ?? "")}`),
    ...own.map((row) => valueLine(row)),
    ...(movement.length > 0 ? ["movement:"] : []),
    ...movement.map((row) => `  ${valueLine(row)}`),
  ]
  return `${lines.join("\n")}\n`
}

/** `310 ms`: a value to as many digits as readings bear. */
export function valueText(key: QuantityKey, value: number): string {
  const { dimension, unit } = QUANTITIES[key]
  return `${trimNumber(fromSi(value, findUnit(dimension, unit)!), DIGITS)} ${unit}`.trim()
}

/** `290 to 330 ms`: a value's spread. */
export function spreadText({ key, low, high }: MeasuredRow): string {
  const unit = QUANTITIES[key].unit
  return `${valueText(key, low).replace(` ${unit}`, "")} to ${valueText(key, high)}`
}

function valueLine(row: MeasuredRow): string {
  return `${lastPart(row.key)}: ${valueText(row.key, row.value)} # ${spreadText(row)}, from ${row.from}`
}

function lastPart(key: string): string {
  return key.slice(key.indexOf(".") + 1)
}

/** Text as YAML, quoted only where it must be, on one line. */
function yamlText(text: string): string {
  return stringify(text.replaceAll(/\s+/g, " "), { lineWidth: 0 }).trim()
}
