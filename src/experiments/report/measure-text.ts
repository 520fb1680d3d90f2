import type { Measure } from "../measures.ts"
import { plain, signed, withUnit } from "./words.ts"

/** How the values of a measure are printed: unit, factor from the stored value, decimals. */
interface Print {
  readonly unit: string
  readonly factor: number
  readonly decimals: number
}

const PRINTS: Readonly<Record<Measure["unit"], Print>> = {
  share: { unit: "%", factor: 100, decimals: 1 },
  m: { unit: "m", factor: 1, decimals: 2 },
  m2: { unit: "m²", factor: 1, decimals: 2 },
  sr: { unit: "msr", factor: 1000, decimals: 1 },
  s: { unit: "ms", factor: 1000, decimals: 0 },
  goals: { unit: "per 100 attempts", factor: 1, decimals: 2 },
  shots: { unit: "shots", factor: 1, decimals: 0 },
}

/** Unit, factor and decimals of a measure as printed. */
export function printOf({ unit, key }: Measure): Print {
  return key === "clear_circle_m" ? { unit: "cm", factor: 100, decimals: 0 } : PRINTS[unit]
}

/** A value of a measure with its unit: "57.1 %", "0.94 m²"; an area too small for two decimals has three. */
export function measureText(measure: Measure, value: number): string {
  const { unit, factor, decimals } = printOf(measure)
  const isSmall = measure.unit === "m2" && Math.abs(value) < SMALL_AREA
  return withUnit(plain(value * factor, isSmall ? decimals + 1 : decimals), unit)
}
/** m² */
const SMALL_AREA = 0.1

/** A change of a measure with its sign; of a share in points. */
export function changeText(measure: Measure, change: number, extra = 0): string {
  const { unit, factor, decimals } = printOf(measure)
  return withUnit(signed(change * factor, decimals + extra), measure.unit === "share" ? "points" : unit)
}
