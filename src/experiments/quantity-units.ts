import type { Dimension } from "../models/parameter.ts"

/** A unit a person may write: SI value = zero + factor x written number. */
export interface Unit {
  /** How it is printed. */
  readonly name: string
  readonly factor: number
  /** SI value of a written 0; other than 0 for temperatures alone. */
  readonly zero: number
  /** Other spellings that are read, lower case. */
  readonly aliases: readonly string[]
}

/** A small table of exact factors: the foot, the pound and the mile are defined by metre and kilogram. */
const FOOT = 0.3048
const MILE = 1609.344
const POUND = 0.45359237
const HOUR = 3600
const DEGREE = Math.PI / 180
const FREEZING_IN_KELVIN = 273.15
const ZERO_FAHRENHEIT_IN_KELVIN = (459.67 * 5) / 9

function unit(name: string, factor: number, aliases: readonly string[] = [], zero = 0): Unit {
  return { name, factor, zero, aliases }
}

/** The units of each dimension, the usual one first. An empty name stands for a bare number. */
export const UNITS: Readonly<Record<Dimension, readonly Unit[]>> = {
  length: [
    unit("m", 1, ["metre", "metres", "meter", "meters"]),
    unit("cm", 0.01),
    unit("mm", 0.001),
    unit("ft", FOOT, ["foot", "feet", "'", "′"]),
    unit("in", FOOT / 12, ["inch", "inches", '"', "″"]),
  ],
  time: [unit("s", 1, ["sec", "second", "seconds"]), unit("ms", 0.001, ["millisecond", "milliseconds"])],
  speed: [
    unit("m/s", 1),
    unit("km/h", 1000 / HOUR, ["kmh", "kph"]),
    unit("mph", MILE / HOUR, ["mi/h"]),
    unit("ft/s", FOOT, ["fps"]),
  ],
  acceleration: [unit("m/s2", 1, ["m/s²", "m/s^2"]), unit("ft/s2", FOOT, ["ft/s²", "ft/s^2"])],
  angle: [unit("deg", DEGREE, ["°", "degree", "degrees"]), unit("rad", 1, ["radian", "radians"])],
  mass: [
    unit("kg", 1),
    unit("g", 0.001, ["gram", "grams"]),
    unit("lb", POUND, ["lbs", "pound", "pounds"]),
    unit("oz", POUND / 16, ["ounce", "ounces"]),
  ],
  share: [unit("", 1), unit("%", 0.01, ["percent"])],
  number: [unit("", 1)],
  temperature: [
    unit("°C", 1, ["c", "degc", "celsius"], FREEZING_IN_KELVIN),
    unit("°F", 5 / 9, ["f", "degf", "fahrenheit"], ZERO_FAHRENHEIT_IN_KELVIN),
    unit("K", 1, ["kelvin"]),
  ],
  perMetre: [unit("/m", 1, ["1/m", "per m", "per metre"])],
}

/** What to write, shown when a unit is missing or wrong. */
export const FORMS: Readonly<Record<Dimension, readonly string[]>> = {
  length: ["1.2 m", "120 cm", "4 ft", "6 ft 2 in"],
  time: ["0.185 s", "185 ms"],
  speed: ["26 m/s", "95 km/h", "60 mph"],
  acceleration: ["7 m/s2", "23 ft/s2"],
  angle: ["12 deg", "0.2 rad"],
  mass: ["85 kg", "163 g", "190 lb", "6 oz"],
  share: ["0.25", "25 %"],
  number: ["0.25"],
  temperature: ["-5 °C", "23 °F", "268 K"],
  perMetre: ["0.006 /m"],
}

/** The unit a dimension knows by this name or alias, or null. */
export function findUnit(dimension: Dimension, name: string): Unit | null {
  const lower = name.toLowerCase()
  for (const candidate of UNITS[dimension]) {
    if (candidate.name.toLowerCase() === lower || candidate.aliases.includes(lower)) return candidate
  }
  return null
}

/** The dimensions that know a unit by this name: what to say about seconds written where metres belong. */
export function dimensionsOf(name: string): Dimension[] {
  return (Object.keys(UNITS) as Dimension[]).filter((dimension) => name !== "" && findUnit(dimension, name) !== null)
}
