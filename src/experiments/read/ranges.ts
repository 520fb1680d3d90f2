import { isMap, isSeq } from "yaml"
import { QUANTITIES, type QuantityKey } from "../../models/settings.ts"
import type { Ranged } from "../experiment.ts"
import { keysOf, SPAN_FIELDS } from "../grammar.ts"
import { UNITS, type Unit } from "../quantity-units.ts"
import { flatten, partsOf, unknownKey } from "./flatten.ts"
import type { Problem } from "./problem.ts"
import { fail, isQuantityKey, readQuantity } from "./setting.ts"
import { type Found, isNothing, itemsOf, scalarText, show } from "./source.ts"

/** A quantity's range with the place it was written and the unit it was written in. */
export interface WrittenRange extends Ranged {
  readonly found: Found
  readonly unit: Unit
}

const QUANTITY_KEYS: readonly string[] = Object.keys(QUANTITIES)

/**
 * Reads `over:`, quantities with their ranges: a list of keys, each with its plausible range, or a mapping of keys to
 * `{ from: , to: }`, or a list of both. Null with problems when any of it cannot be used.
 */
export function readRanges(found: Found, problems: Problem[]): WrittenRange[] | null {
  const before = problems.length
  const leaves = leavesOf(found, problems)
  const ranges = leaves.flatMap((leaf) => readRange(leaf, problems) ?? [])
  for (const [i, { key, found: at }] of ranges.entries()) {
    if (ranges.findIndex((range) => range.key === key) === i) continue
    fail(at, problems, { kind: "duplicate key", key, rule: "varied once", current: "varied again" })
  }
  if (problems.length === before && ranges.length < 2) {
    const facts = { key: found.key, rule: "at least two quantities", current: ranges[0]?.key ?? show(found) }
    fail(found, problems, { kind: "empty sweep", ...facts })
  }
  return problems.length === before ? ranges : null
}

/** Each quantity as a found value under its own key; nothing behind a key means its plausible range. */
function leavesOf(found: Found, problems: Problem[]): Found[] {
  if (isMap(found.node)) return [...flatten({ ...found, key: "" }, QUANTITY_KEYS, problems).values()]
  if (isSeq(found.node)) {
    return itemsOf(found).flatMap((item) => (isMap(item.node) ? leavesOf(item, problems) : keyOf(item, problems)))
  }
  const rule = "a list of quantities, or a mapping of quantities to ranges such as { from: , to: }"
  fail(found, problems, { kind: "wrong type", key: found.key, rule, current: show(found) })
  return []
}

function keyOf(item: Found, problems: Problem[]): Found[] {
  const key = scalarText(item)
  if (key !== null && isQuantityKey(key)) return [{ ...item, key, node: null }]
  if (key === null) {
    const facts = { key: item.key, rule: "a list of quantities", current: show(item) }
    fail(item, problems, { kind: "wrong type", ...facts })
  } else problems.push(unknownKey({ ...item, key }, QUANTITY_KEYS))
  return []
}

function readRange(found: Found, problems: Problem[]): WrittenRange | null {
  const key = found.key as QuantityKey
  if (isNothing(found)) return plausibleRange(found, key, problems)
  const parts = isMap(found.node) ? partsOf(found, keysOf(SPAN_FIELDS), problems) : new Map<string, Found>()
  const [fromFound, toFound] = [parts.get("from"), parts.get("to")]
  if (fromFound === undefined || toFound === undefined) {
    const facts = { key, rule: "a range such as { from: , to: }", current: show(found) }
    return fail(found, problems, { kind: "wrong type", ...facts })
  }
  const from = readQuantity({ ...fromFound, key: `${key}.from` }, QUANTITIES[key], problems)
  const to = readQuantity({ ...toFound, key: `${key}.to` }, QUANTITIES[key], problems)
  if (from === null || to === null) return null
  if (from.value >= to.value) {
    const current = `from ${show(fromFound)} to ${show(toFound)}`
    const facts = { key, rule: "a range from a lower value to a higher", current, remedy: "swap from and to" }
    return fail(found, problems, { kind: "reversed sweep", ...facts })
  }
  return { key, low: from.value, high: to.value, found, unit: from.unit }
}

/** A choice of the person's own has no plausible range, so the file has to give one. */
function plausibleRange(found: Found, key: QuantityKey, problems: Problem[]): WrittenRange | null {
  const { low, high, dimension, unit } = QUANTITIES[key]
  const own = UNITS[dimension].find(({ name }) => name === unit) ?? UNITS[dimension][0]!
  if (high > low) return { key, low, high, found, unit: own }
  const rule = "given with its range, such as { from: , to: }, as nothing is assumed about it"
  return fail(found, problems, { kind: "missing key", key, rule, current: "no range" })
}
