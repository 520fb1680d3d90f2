import { NORMAL } from "../sim/compiled/layout.ts"
import { log } from "./host.ts"
import { NUMBER } from "./tables.ts"

/** The same as in sim/random/fast-normal.ts. */
const POINTS_PER_UNIT: f64 = 32
const FURTHEST: f64 = 8

/** Probability of a lognormal value below x, see sim/random/lognormal.ts. */
export function cumulativeLognormal(x: f64, median: f64, sdOfLog: f64): f64 {
  return x > 0 ? cumulativeNormal(log(x / median) / sdOfLog) : 0
}

// @ts-ignore: decorator
@inline
function cumulativeNormal(x: f64): f64 {
  if (!(x > -FURTHEST)) return x <= -FURTHEST ? 0 : NaN
  if (x >= FURTHEST) return 1
  // nearest point of the table and the step from it
  const i = <i32>((x + FURTHEST) * POINTS_PER_UNIT + 0.5)
  const centre = <f64>i / POINTS_PER_UNIT - FURTHEST
  const h = x - centre
  const s = centre * centre
  // Taylor series: derivatives of the density are Hermite polynomials times it
  const series = 1 + h * (-0.5 * centre + h * ((s - 1) * (1.0 / 6.0) + h * (centre * (3 - s) * (1.0 / 24.0))))
  const row: usize = NORMAL + i * (2 * NUMBER)
  return load<f64>(row) + load<f64>(row, NUMBER) * h * series
}
