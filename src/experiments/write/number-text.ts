/** Significant digits of every number in a table: more than any interval resolves, few enough to hide the last bit. */
const DIGITS = 9

/** A number for a table: always the same text for the same value, empty where there is none. */
export function numberText(value: number | null | undefined): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return ""
  return String(tableNumber(value))
}

/** A number as a table holds it, rounded to nine significant digits; zero has no sign. */
export function tableNumber(value: number): number {
  return Number(value.toPrecision(DIGITS))
}
