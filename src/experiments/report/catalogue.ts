import type { Choice, Quantity } from "../../models/parameter.ts"
import { CHOICES, QUANTITIES } from "../../models/settings.ts"
import type { Source } from "../../models/source.ts"
import { SOURCES } from "../../models/sources.ts"
import { UNITS } from "../quantity-units.ts"
import { plain, withUnit } from "./words.ts"

/** The records the parameter tables are printed from. */
export interface Catalogue {
  readonly quantities: Readonly<Record<string, Quantity>>
  readonly choices: Readonly<Record<string, Choice>>
  readonly sources: Readonly<Record<string, Source>>
}

/** Everything the models know. */
export const CATALOGUE: Catalogue = { quantities: QUANTITIES, choices: CHOICES, sources: SOURCES }

/** A value in the unit its record prints in: "1.2 m", "185 ms"; "not set" where there is none. */
export function quantityText(quantity: Quantity, value: number): string {
  if (!Number.isFinite(value)) return "not set"
  const unit = UNITS[quantity.dimension].find(({ name }) => name === quantity.unit)
  const shown = unit === undefined ? value : (value - unit.zero) / unit.factor
  return withUnit(digits(shown), quantity.unit)
}

/** Four significant digits without trailing zeros. */
function digits(value: number): string {
  const rounded = Number(value.toPrecision(4))
  const decimals = Math.min(8, (String(rounded).split(".")[1] ?? "").replace(/e.*/, "").length)
  return plain(rounded, decimals)
}
