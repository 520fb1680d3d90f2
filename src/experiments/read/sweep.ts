import { isMap, isSeq } from "yaml"
import { type ChoiceKey, QUANTITIES, type QuantityKey } from "../../models/settings.ts"
import type { Swept } from "../experiment.ts"
import { keysOf, RANGE_FIELDS, SETTING_KEYS } from "../grammar.ts"
import { fromSi, type Measured, toSi } from "../quantity.ts"
import type { Unit } from "../quantity-units.ts"
import { count, trimNumber } from "../wording.ts"
import { flatten, notAMapping, partsOf } from "./flatten.ts"
import type { Problem } from "./problem.ts"
import { fail, isQuantityKey, readMeasured, readQuantity, readSetting, readWhole } from "./setting.ts"
import { type Found, isNothing, itemsOf, pairsOf, show } from "./source.ts"

/** More points than this is a slip of the pen, not a question. */
export const MOST_POINTS = 100_000

/** One swept key with the place it was written. */
export interface SweptKey {
  readonly found: Found
  readonly swept: Swept
}

/** Reads `sweep:`, keys that are crossed, in the order of the file. */
export function readSweep(found: Found, problems: Problem[]): SweptKey[] {
  if (isNothing(found)) return []
  if (!isMap(found.node)) {
    problems.push(notAMapping(found))
    return []
  }
  const leaves = flatten({ ...found, key: "" }, SETTING_KEYS, problems)
  const keys: SweptKey[] = []
  for (const leaf of leaves.values()) {
    const swept = readSweptKey(leaf, problems)
    if (swept !== null) keys.push({ found: leaf, swept })
  }
  return keys
}

/** Reads `together:`, groups of keys that move in lockstep. */
export function readTogether(found: Found, problems: Problem[]): SweptKey[][] {
  if (isNothing(found)) return []
  const entries = isMap(found.node) ? [found] : itemsOf(found)
  if (!isMap(found.node) && !isSeq(found.node)) problems.push(notAMapping(found))
  return entries.map((entry) => {
    const group = readSweep(entry, problems)
    reportUnequal(group, problems)
    return group
  })
}

function reportUnequal(group: readonly SweptKey[], problems: Problem[]): void {
  const first = group[0]
  for (const { found, swept } of group) {
    if (first === undefined || swept.values.length === first.swept.values.length) continue
    const rule = `as long as ${first.swept.key} in the same group: ${count(first.swept.values.length, "value")}`
    fail(found, problems, {
      kind: "unequal lengths",
      key: found.key,
      rule,
      current: count(swept.values.length, "value"),
    })
  }
}

function readSweptKey(found: Found, problems: Problem[]): Swept | null {
  if (isMap(found.node) && isQuantityKey(found.key)) return readRange(found, found.key, problems)
  if (!isSeq(found.node)) {
    const range = isQuantityKey(found.key) ? " or a range such as { from: , to: , step: }" : ""
    const rule = `a list of values${range}`
    return fail(found, problems, { kind: "wrong type", key: found.key, rule, current: show(found) })
  }
  return readList(found, problems)
}

function readList(found: Found, problems: Problem[]): Swept | null {
  const items = itemsOf(found)
  if (items.length === 0) return failEmpty(found, problems)
  if (items.length > MOST_POINTS) return failTooMany(found, items.length, problems)
  const settings = items.map((item) => readSetting(item, problems))
  if (settings.some((setting) => setting === null)) return null
  if (!isQuantityKey(found.key)) {
    const values = settings.map((setting) => (setting?.kind === "choice" ? setting.value : ""))
    return once(found, values, values, problems) ? { kind: "choice", key: found.key as ChoiceKey, values } : null
  }
  const measured = settings.flatMap((setting) => (setting?.kind === "quantity" ? [setting.measured] : []))
  const values = measured.map((item) => item.value)
  return once(found, values, items.map(show), problems) ? sweptQuantity(found.key, measured[0]!.unit, values) : null
}

function once(found: Found, values: readonly unknown[], shown: readonly string[], problems: Problem[]): boolean {
  const again = values.findIndex((value, i) => values.indexOf(value) !== i)
  if (again < 0) return true
  const facts = { key: found.key, rule: "a list that holds each value once", current: `${shown[again]} twice` }
  fail(found, problems, { kind: "duplicate key", ...facts })
  return false
}

function sweptQuantity(key: QuantityKey, unit: Unit, values: readonly number[]): Swept {
  const { dimension } = QUANTITIES[key]
  return { kind: "quantity", key, dimension, unit: unit.name, unitFactor: unit.factor, unitZero: unit.zero, values }
}

function failEmpty(found: Found, problems: Problem[]): null {
  const rule = "swept over at least one value"
  return fail(found, problems, { kind: "empty sweep", key: found.key, rule, current: "no value" })
}

function failTooMany(found: Found, n: number, problems: Problem[]): null {
  const rule = `swept over at most ${MOST_POINTS.toLocaleString("en-US")} values`
  const current = `${Math.round(n).toLocaleString("en-US")} values`
  return fail(found, problems, { kind: "too many points", key: found.key, rule, current, remedy: "take a larger step" })
}

interface Ends {
  readonly from: Measured
  readonly to: Measured
}

function readRange(found: Found, key: QuantityKey, problems: Problem[]): Swept | null {
  const parts = partsOf(found, keysOf(RANGE_FIELDS), problems)
  const fromFound = parts.get("from")
  const toFound = parts.get("to")
  if (fromFound === undefined || toFound === undefined) return failRange(found, problems)
  const quantity = QUANTITIES[key]
  const from = readQuantity({ ...fromFound, key: `${key}.from` }, quantity, problems)
  const to = readQuantity({ ...toFound, key: `${key}.to` }, quantity, problems)
  const step = parts.get("step")
  const steps = parts.get("steps")
  if ((step === undefined) === (steps === undefined)) return failRange(found, problems)
  if (from === null || to === null) return null
  if (from.value > to.value) {
    const current = `from ${show(fromFound)} to ${show(toFound)}`
    const facts = { key, rule: "swept from the lower value to the higher", current, remedy: "swap from and to" }
    return fail(found, problems, { kind: "reversed sweep", ...facts })
  }
  return step === undefined ? bySteps(steps!, key, { from, to }, problems) : byStep(step, key, { from, to }, problems)
}

function failRange(found: Found, problems: Problem[]): null {
  const names = pairsOf(found).map((pair) => pair.key.slice(found.key.length + 1))
  const rule = "a range with from, to and either step or steps"
  const current = names.length === 0 ? "an empty mapping" : names.join(", ")
  return fail(found, problems, { kind: "wrong type", key: found.key, rule, current })
}

/** So many values, both ends included. */
function bySteps(found: Found, key: QuantityKey, { from, to }: Ends, problems: Problem[]): Swept | null {
  const n = readWhole(found, 2, MOST_POINTS, problems)
  if (n === null) return null
  const last = fromSi(to.value, from.unit)
  const written = Array.from({ length: n }, (_, i) => from.written + ((last - from.written) * i) / (n - 1))
  return sweptQuantity(
    key,
    from.unit,
    written.map((value) => toSi(Number(value.toPrecision(12)), from.unit)),
  )
}

/** from + i x step, counted in the unit as written, so that 0.1 m steps land on 0.3 m and not beside it. */
function byStep(found: Found, key: QuantityKey, { from, to }: Ends, problems: Problem[]): Swept | null {
  const { dimension } = QUANTITIES[key]
  const step = readStep(found, from.unit, dimension, problems)
  if (step === null) return null
  const last = fromSi(to.value, from.unit)
  const intervals = (last - from.written) / step.written
  if (intervals + 1 > MOST_POINTS) return failTooMany(found, intervals + 1, problems)
  // the end belongs to the sweep when it is reached within a billionth of a step
  const n = Math.floor(intervals + 1e-9) + 1
  const places = Math.min(12, Math.max(from.decimals, step.decimals))
  const written = Array.from({ length: n }, (_, i) => Number((from.written + i * step.written).toFixed(places)))
  return sweptQuantity(
    key,
    from.unit,
    written.map((value) => toSi(value, from.unit)),
  )
}

/** A step in the unit of the first value; one of another unit is converted, a temperature's by its size alone. */
function readStep(
  found: Found,
  unit: Unit,
  dimension: (typeof QUANTITIES)[QuantityKey]["dimension"],
  problems: Problem[],
): { readonly written: number; readonly decimals: number } | null {
  const step = readMeasured(found, dimension, problems)
  if (step === null) return null
  if (step.written === 0) {
    const facts = {
      key: found.key,
      rule: "above 0",
      current: show(found),
      remedy: "leave the key out to hold it still",
    }
    return fail(found, problems, { kind: "zero step", ...facts })
  }
  if (step.written < 0) {
    const facts = { key: found.key, rule: "above 0", current: show(found), remedy: "swap from and to" }
    return fail(found, problems, { kind: "reversed sweep", ...facts })
  }
  if (step.unit.name === unit.name) return { written: step.written, decimals: step.decimals }
  return { written: (step.written * step.unit.factor) / unit.factor, decimals: 12 }
}

/** A written value as a step of a sweep prints it. */
export function sweptText(swept: Swept, value: number | string): string {
  if (swept.kind === "choice" || typeof value === "string") return String(value)
  const written = trimNumber((value - swept.unitZero) / swept.unitFactor, 6)
  return swept.unit === "" ? written : `${written} ${swept.unit}`
}
