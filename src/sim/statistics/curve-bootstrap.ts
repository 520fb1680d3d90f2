import type { Estimate } from "../estimate.ts"
import { cumulativeNormal } from "../random/normal.ts"
import { BOOTSTRAP, fillUniforms, type SeedKey } from "../random/streams.ts"
import type { Probability } from "../units.ts"
import { quantileSorted } from "./quantile.ts"
import { checkReplicates, total } from "./ratio.ts"
import { invertStudentT } from "./student-t.ts"
import { checkConfidence } from "./wilson.ts"

/**
 * A swept curve of shares and what it would have been with other luck: whole replicates drawn again with replacement,
 * the same ones for every point, since all points saw the same shots, if not all of them as many.
 */
export interface CurveBootstrap {
  /** [points] swept values, upward. */
  readonly x: readonly number[]
  /** [points] the share itself, NaN where nothing was seen. */
  readonly curve: Float64Array
  /** [resamples x points] */
  readonly resampled: Float64Array
  readonly resamples: number
  readonly replicates: number
  /** Shots behind each point, at least. */
  readonly shots: number
}

/**
 * Resamples a curve. `numerators` and `denominators` are [points][replicates]. The same key, number of resamples and
 * number of replicates draw the same replicates again, so two curves of one run stay paired. Throws a RangeError for
 * fewer than two replicates, columns of unlike length, or swept values that do not rise.
 */
export function bootstrapCurve(
  x: readonly number[],
  numerators: readonly ArrayLike<number>[],
  denominators: readonly ArrayLike<number>[],
  shots: number,
  resamples: number,
  key: SeedKey,
): CurveBootstrap {
  checkCurve(x, numerators, denominators)
  const points = x.length
  const replicates = numerators[0]!.length
  const taken = timesTaken(replicates, resamples, key)
  const curve = new Float64Array(points)
  const resampled = new Float64Array(resamples * points)
  for (let point = 0; point < points; point++) {
    const above = numerators[point]!
    const below = denominators[point]!
    curve[point] = total(above) / total(below)
    for (let i = 0; i < resamples; i++) {
      let numerator = 0
      let denominator = 0
      for (let r = 0, at = i * replicates; r < replicates; r++, at++) {
        numerator += taken[at]! * above[r]!
        denominator += taken[at]! * below[r]!
      }
      resampled[i * points + point] = numerator / denominator
    }
  }
  return { x, curve, resampled, resamples, replicates, shots }
}

/** How often each replicate is taken: [resamples x replicates], each row sums to `replicates`. */
function timesTaken(replicates: number, resamples: number, key: SeedKey): Float64Array {
  const uniforms = new Float64Array(resamples * replicates)
  fillUniforms(key, 0, BOOTSTRAP, 0, resamples, replicates, uniforms)
  const taken = new Float64Array(resamples * replicates)
  for (let i = 0; i < uniforms.length; i++) {
    const row = i - (i % replicates)
    const place = row + Math.floor(uniforms[i]! * replicates)
    taken[place] = taken[place]! + 1
  }
  return taken
}

/**
 * Estimate of a figure from its resampled values (those that are not a number are left out): percentile interval, with
 * the tails moved out as Student's t asks for R replicates: T. Hesterberg, The American Statistician 69 (2015),
 * 371-386, expanded percentile interval.
 */
export function estimateFromResamples(
  mean: number,
  values: Float64Array,
  bootstrap: CurveBootstrap,
  confidence: Probability,
): Estimate {
  checkConfidence(confidence)
  const { replicates, shots: n } = bootstrap
  const method = "bootstrap over replicates"
  const sorted = values.filter((value) => !Number.isNaN(value)).sort()
  if (sorted.length === 0) {
    return { n, mean, standardError: Number.NaN, low: Number.NaN, high: Number.NaN, confidence, method }
  }
  const widening = Math.sqrt(replicates / (replicates - 1))
  const tail = cumulativeNormal(-widening * invertStudentT(0.5 + 0.5 * confidence, replicates - 1))
  const middle = total(sorted) / sorted.length
  let squares = 0
  for (const value of sorted) squares += (value - middle) ** 2
  return {
    n,
    mean,
    standardError: widening * Math.sqrt(squares / sorted.length),
    low: quantileSorted(sorted, tail),
    high: quantileSorted(sorted, 1 - tail),
    confidence,
    method,
  }
}

/** One resampled curve, a view. */
export function resampledCurve(bootstrap: CurveBootstrap, index: number): Float64Array {
  const points = bootstrap.x.length
  return bootstrap.resampled.subarray(index * points, (index + 1) * points)
}

function checkCurve(
  x: readonly number[],
  numerators: readonly ArrayLike<number>[],
  denominators: readonly ArrayLike<number>[],
): void {
  if (x.length === 0 || numerators.length !== x.length || denominators.length !== x.length) {
    throw new RangeError(
      `Cannot resample a curve as it must have one column of numerators and denominators for each of at least 1 point: current values are ${numerators.length}, ${denominators.length} and ${x.length}`,
    )
  }
  const replicates = numerators[0]!.length
  if (replicates < 2) {
    throw new RangeError(`Cannot resample a curve as replicates must be at least 2: current value is ${replicates}`)
  }
  for (let point = 0; point < x.length; point++) {
    checkReplicates(replicates, numerators[point]!.length)
    checkReplicates(replicates, denominators[point]!.length)
    if (point > 0 && !(x[point]! > x[point - 1]!)) {
      throw new RangeError(
        `Cannot resample a curve as swept values must rise: current values are ${x[point - 1]} and ${x[point]}`,
      )
    }
  }
}
