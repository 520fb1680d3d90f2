import type { Estimate } from "../estimate.ts"
import { BOOTSTRAP, fillUniforms, type SeedKey } from "../random/streams.ts"
import type { Probability } from "../units.ts"
import { quantileSorted } from "./quantile.ts"
import { total as sumOf } from "./ratio.ts"
import type { SensitivityDesign } from "./sensitivity-design.ts"
import { checkConfidence } from "./wilson.ts"

/**
 * How much of the variance of a function each quantity answers for, over the whole box of their ranges at once.
 *
 * First-order index: the part that goes with the quantity alone, S = mean f(B) (f(A_B) - f(A)) / V, Saltelli et al.,
 * Comput. Phys. Commun. 181 (2010), 259-270, with f less its mean. Total index: the part that would be left if all others
 * were known, T = mean (f(A) - f(A_B))² / 2V, M. J. W. Jansen, Comput. Phys. Commun. 117 (1999), 35-43. V is the variance
 * over A and B together. T - S is what the quantity does together with others; where nothing does, both sum to 1.
 */
export interface SensitivityIndices {
  /** Over A and B. */
  readonly mean: number
  readonly variance: number
  /** By quantity; NaN throughout where the function is constant. */
  readonly first: readonly Estimate[]
  readonly total: readonly Estimate[]
  /** [resamples x quantities] total indices with other luck, for {@link totalDifference}. */
  readonly resampledTotals: Float64Array
  readonly resamples: number
}

export interface SensitivityBootstrap {
  readonly key: SeedKey
  readonly resamples: number
  readonly confidence: Probability
  /** Shots or evaluations behind the indices, for the record. */
  readonly n: number
  /** Values of all rows with other luck, where they are not exact: the shots of a run drawn again. */
  readonly redrawn?: (resample: number) => Float64Array
}

/** How a bootstrap draws points: a replicate number of its own, apart from those that draw the shots again. */
const POINTS_REPLICATE = 1

/**
 * Indices from the values of all rows of a design. Intervals are percentiles over points drawn again with replacement,
 * as if they had been independent: scrambled points are more even than that, so intervals are too wide rather than too
 * narrow. Throws a RangeError when values and rows differ in number.
 */
export function sensitivityIndices(
  design: SensitivityDesign,
  values: Float64Array,
  bootstrap: SensitivityBootstrap,
): SensitivityIndices {
  checkConfidence(bootstrap.confidence)
  if (values.length !== design.rows) {
    throw new RangeError(
      `Cannot find sensitivity as values must be one for each of ${design.rows} rows: current value is ${values.length}`,
    )
  }
  const { sets, quantities } = design
  const whole = indicesOf(design, values, null)
  const firsts = new Float64Array(bootstrap.resamples * quantities)
  const totals = new Float64Array(bootstrap.resamples * quantities)
  const uniforms = new Float64Array(sets)
  const taken = new Int32Array(sets)
  for (let i = 0; i < bootstrap.resamples; i++) {
    fillUniforms(bootstrap.key, POINTS_REPLICATE, BOOTSTRAP, i, 1, sets, uniforms)
    for (let set = 0; set < sets; set++) taken[set] = Math.floor(uniforms[set]! * sets)
    const again = indicesOf(design, bootstrap.redrawn?.(i) ?? values, taken)
    firsts.set(again.first, i * quantities)
    totals.set(again.total, i * quantities)
  }
  return {
    mean: whole.mean,
    variance: whole.variance,
    first: Array.from(whole.first, (mean, q) => percentiles(mean, columnOf(firsts, q, quantities), bootstrap)),
    total: Array.from(whole.total, (mean, q) => percentiles(mean, columnOf(totals, q, quantities), bootstrap)),
    resampledTotals: totals,
    resamples: bootstrap.resamples,
  }
}

/** Total index of one quantity less that of another, with the luck they share taken out. */
export function totalDifference(
  indices: SensitivityIndices,
  quantity: number,
  other: number,
  bootstrap: SensitivityBootstrap,
): Estimate {
  const quantities = indices.total.length
  const differences = new Float64Array(indices.resamples)
  for (let i = 0; i < indices.resamples; i++) {
    const row = i * quantities
    differences[i] = indices.resampledTotals[row + quantity]! - indices.resampledTotals[row + other]!
  }
  return percentiles(indices.total[quantity]!.mean - indices.total[other]!.mean, differences, bootstrap)
}

interface PlainIndices {
  readonly mean: number
  readonly variance: number
  readonly first: Float64Array
  readonly total: Float64Array
}

/** The estimators themselves, over the sets `taken`, or over each set once. */
function indicesOf(
  { sets, quantities }: SensitivityDesign,
  values: Float64Array,
  taken: Int32Array | null,
): PlainIndices {
  const place = (i: number) => (taken === null ? i : taken[i]!)
  // mean and variance over A and B, from the first value, so that a constant has a variance of exactly 0
  const origin = values[0]!
  let sum = 0
  for (let i = 0; i < sets; i++) sum += values[place(i)]! - origin + (values[sets + place(i)]! - origin)
  const mean = origin + sum / (2 * sets)
  let squares = 0
  for (let i = 0; i < sets; i++) squares += (values[place(i)]! - mean) ** 2 + (values[sets + place(i)]! - mean) ** 2
  const variance = squares / (2 * sets - 1)
  // what changing one quantity does, alone and squared
  const first = new Float64Array(quantities)
  const total = new Float64Array(quantities)
  for (let q = 0; q < quantities; q++) {
    let products = 0
    let jumps = 0
    for (let i = 0; i < sets; i++) {
      const set = place(i)
      const change = values[(q + 2) * sets + set]! - values[set]!
      products += (values[sets + set]! - mean) * change
      jumps += change * change
    }
    first[q] = products / sets / variance
    total[q] = jumps / sets / (2 * variance)
  }
  return { mean, variance, first, total }
}

function columnOf(table: Float64Array, column: number, columns: number): Float64Array {
  return Float64Array.from({ length: table.length / columns }, (_, i) => table[i * columns + column]!)
}

function percentiles(mean: number, values: Float64Array, { n, confidence }: SensitivityBootstrap): Estimate {
  const method = "bootstrap over points"
  const sorted = values.filter((value) => !Number.isNaN(value)).sort()
  if (sorted.length === 0 || Number.isNaN(mean)) {
    const none = Number.NaN
    return { n, mean: none, standardError: none, low: none, high: none, confidence, method }
  }
  const middle = sumOf(sorted) / sorted.length
  const squares = sorted.reduce((sum, value) => sum + (value - middle) ** 2, 0)
  const tail = 0.5 - 0.5 * confidence
  return {
    n,
    mean,
    standardError: Math.sqrt(squares / sorted.length),
    low: quantileSorted(sorted, tail),
    high: quantileSorted(sorted, 1 - tail),
    confidence,
    method,
  }
}
