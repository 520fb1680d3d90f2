/** How a unit is written at the end of a column name. */
const SUFFIXES: Readonly<Record<string, string>> = {
  "m/s": "mps",
  "km/h": "kmh",
  "m/s2": "mps2",
  "m/s²": "mps2",
  "ft/s": "fps",
  "%": "pct",
  "°": "deg",
  "°C": "degc",
  "°F": "degf",
  "1/m": "per_m",
  "/m": "per_m",
}

/** Column of a swept key: the key, an underscore and the unit the file used (`goalie.depth_m`, `play.speed_kmh`). */
export function columnOf(key: string, unit: string): string {
  if (unit === "") return key
  const suffix = SUFFIXES[unit] ?? unit.toLowerCase().replaceAll(/[^a-z0-9]+/g, "_")
  return `${key}_${suffix}`
}
