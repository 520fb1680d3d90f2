/**
 * A parameter is a record, never a naked number: its value in SI, the unit people write it in, a plausible range, a
 * source and one sentence. The reader, the JSON Schema, `goalmouth parameters`, the report's tables, sweeps and the
 * assumption range are all generated from these records.
 */

/** What a quantity measures; decides which units a person may write and which alias it has inside. */
export type Dimension =
  | "length"
  | "time"
  | "speed"
  | "acceleration"
  | "angle"
  | "mass"
  | "share" // a number without unit, or a percentage: 0.25 or 25 %
  | "number" // a pure number
  | "temperature" // written in °C or °F, kelvin inside
  | "perMetre"

export interface Quantity {
  readonly dimension: Dimension
  /** Default, SI. */
  readonly value: number
  /** Plausible range of the default, SI: what the assumption range and sensitivity draw from. */
  readonly low: number
  readonly high: number
  /** Hard limits for a value a person writes, SI, both included. */
  readonly least: number
  readonly most: number
  /** Unit for printing and CSV columns: "m", "cm", "s", "ms", "m/s", "km/h", "deg", "kg", "" … */
  readonly unit: string
  /** Key into src/models/sources.ts, or "assumption" (no source), or "choice" (the person's own decision, no range drawn). */
  readonly source: string
  /** One sentence: what it is and why this value. */
  readonly why: string
}

/** A choice among named alternatives. */
export interface Choice<Name extends string = string> {
  readonly names: readonly Name[]
  readonly value: Name
  readonly source: string
  readonly why: string
}

/** Keeps the literal keys of a table of quantities while checking each record. */
export function quantities<Keys extends string>(table: Record<Keys, Quantity>): Record<Keys, Quantity> {
  return table
}
/** Keeps the literal keys and names of a table of choices. */
export function choices<const Table extends Record<string, Choice>>(table: Table): Table {
  return table
}
