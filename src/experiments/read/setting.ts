import type { Dimension, Quantity } from "../../models/parameter.ts"
import { CHOICES, type ChoiceKey, QUANTITIES, type QuantityKey } from "../../models/settings.ts"
import {
  describeForms,
  formatLimits,
  isMeasured,
  type Measured,
  parseQuantity,
  toSi,
  type Unreadable,
} from "../quantity.ts"
import { UNITS } from "../quantity-units.ts"
import { joinOr, trimNumber } from "../wording.ts"
import { suggestion } from "./nearest.ts"
import { type Problem, type ProblemFacts, problemAt } from "./problem.ts"
import { type Found, placeOf, scalarText, show } from "./source.ts"

/** The value of one setting, read. */
export type Setting =
  | { readonly kind: "quantity"; readonly key: QuantityKey; readonly measured: Measured; readonly found: Found }
  | { readonly kind: "choice"; readonly key: ChoiceKey; readonly value: string; readonly found: Found }

/** Reads the value of a known setting; null with a problem when it is not allowed. */
export function readSetting(found: Found, problems: Problem[]): Setting | null {
  const { key } = found
  if (isQuantityKey(key)) {
    const measured = readQuantity(found, QUANTITIES[key], problems)
    return measured === null ? null : { kind: "quantity", key, measured, found }
  }
  const name = readName(found, CHOICES[key as ChoiceKey].names, problems)
  return name === null ? null : { kind: "choice", key: key as ChoiceKey, value: name, found }
}

/** True for a key of {@link QUANTITIES}; every other setting is a choice. */
export function isQuantityKey(key: string): key is QuantityKey {
  return Object.hasOwn(QUANTITIES, key)
}

/** Limits of a quantity; its default and usual unit, where it has them, tell what was likely meant. */
type Limits = Pick<Quantity, "dimension" | "least" | "most"> & Partial<Pick<Quantity, "value" | "unit">>

/** Reads a number with its unit within a quantity's hard limits. */
export function readQuantity(found: Found, quantity: Limits, problems: Problem[]): Measured | null {
  const measured = readMeasured(found, quantity.dimension, problems)
  if (measured === null) return null
  // half a part in a billion beyond a limit is rounding of the unit, not a wish
  const slack = 5e-10 * Math.max(1, Math.abs(measured.value))
  if (measured.value >= quantity.least - slack && measured.value <= quantity.most + slack) return measured
  const facts = {
    rule: formatLimits(quantity, measured.unit.name),
    current: show(found),
    remedy: otherUnit(measured, quantity),
  }
  return fail(found, problems, { kind: "out of range", key: found.key, ...facts })
}

/** Reads a number with a unit of one dimension, whatever its size. */
export function readMeasured(found: Found, dimension: Dimension, problems: Problem[]): Measured | null {
  const rule = describeForms(dimension)
  const text = scalarText(found)
  if (text === null) return fail(found, problems, { kind: "wrong type", key: found.key, rule, current: show(found) })
  const result = parseQuantity(text, dimension)
  if (isMeasured(result)) return result
  const remedy = unreadableRemedy(result, text, dimension)
  return fail(found, problems, { kind: result.kind, key: found.key, rule, current: show(found), remedy })
}

/** Reads one of a closed list of names; capitals and underscores do not matter. */
export function readName<Name extends string>(found: Found, names: readonly Name[], problems: Problem[]): Name | null {
  const text = scalarText(found)
  const plain = (word: string): string => word.toLowerCase().replaceAll(/[\s_-]+/g, " ")
  const match = text === null ? undefined : names.find((name) => plain(name) === plain(text))
  if (match !== undefined) return match
  const rule = names.length === 1 ? names[0]! : `one of ${joinOr(names)}`
  const kind = text === null ? "wrong type" : "unknown name"
  const remedy = text === null ? null : suggestion(text, names)
  return fail(found, problems, { kind, key: found.key, rule, current: show(found), remedy })
}

/** Reads a whole number in a range. */
export function readWhole(found: Found, least: number, most: number, problems: Problem[]): number | null {
  const text = scalarText(found)
  const rule = `a whole number from ${least.toLocaleString("en-US")} to ${most.toLocaleString("en-US")}`
  const n = text !== null && /^[+]?\d+(\.0*)?$/.test(text) ? Number(text) : Number.NaN
  if (n >= least && n <= most) return n
  const kind = text === null ? "wrong type" : Number.isNaN(n) ? "not a number" : "out of range"
  const bare = text?.replaceAll(/[,_ ']/g, "") ?? ""
  const remedy = Number.isNaN(n) && /^\d+$/.test(bare) ? `write ${bare}` : null
  return fail(found, problems, { kind, key: found.key, rule, current: show(found), remedy })
}

/** Reads text that is not empty. */
export function readText(found: Found, problems: Problem[]): string | null {
  const text = scalarText(found)
  if (text !== null && text !== "") return text
  return fail(found, problems, { kind: "wrong type", key: found.key, rule: "text", current: show(found) })
}

/** Adds a problem at a found value; returns null so that a reader can return it. */
export function fail(found: Found, problems: Problem[], facts: ProblemFacts): null {
  problems.push(problemAt(placeOf(found), facts))
  return null
}

function unreadableRemedy(result: Unreadable, text: string, dimension: Dimension): string | null {
  if (result.kind === "not a number") return result.remedy
  const units = UNITS[dimension].map((unit) => unit.name).filter((name) => name !== "")
  if (result.kind === "missing unit") return `write the unit: ${joinOr(units.map((name) => `${text} ${name}`))}`
  if (units.length === 0) return "write the number alone"
  if (result.measures.length > 0) return `${result.unit} does not measure that`
  return suggestion(result.unit, units) ?? `known units are ${joinOr(units)}`
}

/** The unit most often meant when a number is out of range: feet for metres, km/h for m/s. */
const CONFUSED: Readonly<Record<string, string>> = {
  "": "%",
  m: "ft",
  ft: "m",
  cm: "in",
  in: "cm",
  "m/s": "km/h",
  "km/h": "mph",
  mph: "km/h",
}

/** Farther than this many times from the default, either way, no number is of a usual size. */
const USUAL = 20

/**
 * The number taken in a unit that is easily confused with its own, or in that which the quantity is usually written in,
 * when that is allowed and of a usual size: twelve feet where twelve metres are too many.
 */
function otherUnit(measured: Measured, quantity: Limits): string | null {
  const { name } = measured.unit
  const likely = [CONFUSED[name], quantity.unit]
  const others = UNITS[quantity.dimension].filter((unit) => unit.name !== name && likely.includes(unit.name))
  others.sort((a, b) => Number(b.name === CONFUSED[name]) - Number(a.name === CONFUSED[name]))
  const meant = others.find((unit) => {
    const value = toSi(measured.written, unit)
    return measured.written !== 0 && value >= quantity.least && value <= quantity.most && isUsual(value, quantity)
  })
  return meant === undefined ? null : `did you mean ${`${trimNumber(measured.written, 6)} ${meant.name}`.trim()}?`
}

/** Whether a value is near enough to the default, where there is one, to be meant. */
function isUsual(value: number, { value: usual = 0 }: Limits): boolean {
  if (!Number.isFinite(usual) || usual === 0) return true
  const times = Math.abs(value / usual)
  return times <= USUAL && times >= 1 / USUAL
}
