import type { Dimension, Quantity } from "../models/parameter.ts"
import { dimensionsOf, FORMS, findUnit, UNITS, type Unit } from "./quantity-units.ts"
import { joinOr, trimNumber } from "./wording.ts"

/**
 * The one place where text with a unit becomes SI and SI becomes text again.
 * The table of units is our own: the units are few, their factors are exact, and a wrong one must be answered with the
 * forms that this quantity accepts.
 */

/** A number with its unit as a person wrote it. */
export interface Measured {
  /** SI. */
  readonly value: number
  /** As written, in {@link Measured.unit}. */
  readonly written: number
  readonly unit: Unit
  /** Digits after the decimal point, so that steps can be counted without rounding error. */
  readonly decimals: number
}

export type Unreadable =
  | { readonly kind: "not a number"; readonly remedy: string | null }
  | { readonly kind: "missing unit" }
  | { readonly kind: "wrong unit"; readonly unit: string; readonly measures: readonly Dimension[] }

const NUMBER = "[+-]?(?:\\d+\\.?\\d*|\\.\\d+)(?:e[+-]?\\d+)?"
const WRITTEN = new RegExp(`^(${NUMBER})\\s*(.*)$`, "i")
/** `6 ft 2 in`, `6'2"`, `6' 2`: the one compound form people write. */
const FEET_AND_INCHES = /^([+-]?\d+)\s*(?:ft|foot|feet|'|′)\s*(\d+(?:\.\d*)?)\s*(?:in|inch|inches|"|″|)$/i

/** Reads text as a quantity of one dimension. */
export function parseQuantity(text: string, dimension: Dimension): Measured | Unreadable {
  const trimmed = text.trim().replaceAll("−", "-")
  const compound = dimension === "length" ? feetAndInches(trimmed) : null
  if (compound !== null) return compound
  const match = WRITTEN.exec(trimmed)
  if (match === null) return { kind: "not a number", remedy: null }
  const digits = match[1]!
  const unitText = match[2]!.trim()
  if (/^,\d/.test(unitText)) return { kind: "not a number", remedy: commaRemedy(trimmed) }
  const written = Number(digits)
  if (!Number.isFinite(written)) return { kind: "not a number", remedy: null }
  const unit = findUnit(dimension, unitText)
  if (unit === null) {
    return unitText === ""
      ? { kind: "missing unit" }
      : { kind: "wrong unit", unit: unitText, measures: dimensionsOf(unitText) }
  }
  return { value: toSi(written, unit), written, unit, decimals: decimalsOf(digits) }
}

/** True when the text was read. */
export function isMeasured(result: Measured | Unreadable): result is Measured {
  return "value" in result
}

/** SI value of a written number: the only multiplication by a unit's factor. */
export function toSi(written: number, unit: Unit): number {
  return unit.zero + written * unit.factor
}

/** The number to write for an SI value. */
export function fromSi(value: number, unit: Unit): number {
  return (value - unit.zero) / unit.factor
}

/** An SI value in a person's unit, to four significant digits: `1.2 m`, `25 %`, `0.25`. NaN "follows" another setting. */
export function formatQuantity(value: number, dimension: Dimension, unitName: string): string {
  if (Number.isNaN(value)) return "follows from other settings"
  const unit = findUnit(dimension, unitName) ?? UNITS[dimension][0]!
  const written = trimNumber(fromSi(value, unit), 4)
  return unit.name === "" ? written : `${written} ${unit.name}`
}

/** Hard limits in a person's unit: `between 0 m and 4 m`, `at least 0 s`. */
export function formatLimits(quantity: Pick<Quantity, "dimension" | "least" | "most">, unitName: string): string {
  const low = Number.isFinite(quantity.least) ? formatQuantity(quantity.least, quantity.dimension, unitName) : null
  const high = Number.isFinite(quantity.most) ? formatQuantity(quantity.most, quantity.dimension, unitName) : null
  if (low !== null && high !== null) return `between ${low} and ${high}`
  if (low !== null) return `at least ${low}`
  return high !== null ? `at most ${high}` : "a number"
}

/** What may be written: `a length such as 1.2 m, 4 ft`. */
export function describeForms(dimension: Dimension): string {
  return `${DIMENSION_WORDS[dimension]} such as ${joinOr(FORMS[dimension])}`
}

/** Name of a dimension in a sentence. */
export const DIMENSION_WORDS: Readonly<Record<Dimension, string>> = {
  length: "a length with its unit",
  time: "a time with its unit",
  speed: "a speed with its unit",
  acceleration: "an acceleration with its unit",
  angle: "an angle with its unit",
  mass: "a mass with its unit",
  share: "a share",
  number: "a number",
  temperature: "a temperature with its unit",
  perMetre: "a number per metre",
}

/** Pattern of every accepted form of a dimension, for editors. */
export function quantityPattern(dimension: Dimension): string {
  const names = UNITS[dimension].flatMap((unit) => [unit.name, ...unit.aliases]).filter((name) => name !== "")
  const escaped = names.map((name) => name.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&"))
  const optional = UNITS[dimension].some((unit) => unit.name === "") ? "?" : ""
  const inches = dimension === "length" ? "|^\\s*[+-]?\\d+\\s*(ft|'|′)\\s*\\d+(\\.\\d*)?\\s*(in|\"|″)?\\s*$" : ""
  const units = escaped.length === 0 ? "" : `(${escaped.join("|")})${optional}`
  return `^\\s*[+−-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?\\s*${units}\\s*$${inches}`
}

function feetAndInches(text: string): Measured | null {
  const match = FEET_AND_INCHES.exec(text)
  if (match === null) return null
  const feet = Number(match[1])
  const inches = Number(match[2])
  const sign = match[1]!.startsWith("-") ? -1 : 1
  const unit = findUnit("length", "ft")!
  const written = feet + (sign * inches) / 12
  return { value: toSi(written, unit), written, unit, decimals: 12 }
}

function commaRemedy(text: string): string | null {
  const withPoint = text.replace(",", ".")
  return WRITTEN.test(withPoint) ? `write a decimal point: ${withPoint}` : null
}

function decimalsOf(digits: string): number {
  const [mantissa, exponent] = digits.toLowerCase().split("e")
  const point = mantissa!.indexOf(".")
  const places = point < 0 ? 0 : mantissa!.length - point - 1
  return Math.max(0, places - Number(exponent ?? 0))
}
