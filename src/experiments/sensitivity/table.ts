import { QUANTITIES } from "../../models/settings.ts"
import type { Estimate } from "../../sim/estimate.ts"
import { fromSi } from "../quantity.ts"
import { findUnit } from "../quantity-units.ts"
import { tableNumber } from "../write/number-text.ts"
import type { Column, Table } from "../write/table.ts"
import type { QuantityEffect, SensitivityFinding } from "./finding.ts"
import { quantityName } from "./words.ts"

type Pick = (effect: QuantityEffect) => number | undefined

/** The table behind sensitivity.csv: a row for each quantity, the largest total effect first. */
export function sensitivityTable({ of, effects }: SensitivityFinding): Table {
  const numbers = (name: string, pick: Pick): Column => ({
    name,
    kind: "number",
    values: effects.map((effect) => cell(pick(effect))),
  })
  const texts = (name: string, pick: (effect: QuantityEffect) => string): Column => ({
    name,
    kind: "text",
    values: effects.map(pick),
  })
  const withEnds = (name: string, pick: (effect: QuantityEffect) => Estimate | null | undefined): Column[] => [
    numbers(name, (effect) => pick(effect)?.mean),
    numbers(`${name}_low`, (effect) => pick(effect)?.low),
    numbers(`${name}_high`, (effect) => pick(effect)?.high),
  ]
  const columns = [
    texts("quantity", ({ key }) => key),
    texts("name", ({ key }) => quantityName(key)),
    texts("unit", ({ key }) => QUANTITIES[key].unit),
    numbers("from", (effect) => inUnit(effect, effect.low)),
    numbers("to", (effect) => inUnit(effect, effect.high)),
    texts("measure", () => of),
    ...withEnds("total_effect", ({ total }) => total),
    ...withEnds("first_order_effect", ({ first }) => first),
    ...withEnds("behind_the_first", ({ behind }) => behind),
    numbers("today", (effect) => inUnit(effect, effect.gain?.from)),
    numbers("ten_percent_better", (effect) => inUnit(effect, effect.gain?.to)),
    ...withEnds("save_rate_gain", ({ gain }) => gain?.change),
  ]
  return { columns, rows: effects.length }
}

function inUnit({ key }: QuantityEffect, value: number | undefined): number | undefined {
  const { dimension, unit } = QUANTITIES[key]
  const own = findUnit(dimension, unit)
  return value === undefined || own === null ? value : fromSi(value, own)
}

function cell(value: number | undefined): number | null {
  return value === undefined || !Number.isFinite(value) ? null : tableNumber(value)
}
