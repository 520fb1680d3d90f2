import type { KilogramsPerCubicMetre, Metres } from "../../sim/units.ts"

/** Standard atmosphere, from memory: pressure at sea level, Pa; gas constant of dry air, J/(kg K). */
const SEA_LEVEL_PRESSURE = 101_325
const GAS_CONSTANT = 287.05
/** p = p0 (1 - a h)^b up to 11 km, h in metres. */
const PRESSURE_LAPSE = 2.25577e-5
const PRESSURE_EXPONENT = 5.25588

/** Density of dry air indoors, rho = p / RT: outdoor pressure of the altitude, temperature of the rink in kelvin. */
export function airDensity(temperature: number, altitude: Metres): KilogramsPerCubicMetre {
  const pressure = SEA_LEVEL_PRESSURE * (1 - PRESSURE_LAPSE * altitude) ** PRESSURE_EXPONENT
  return pressure / (GAS_CONSTANT * temperature)
}
