import type { Estimate } from "../estimate.ts"
import type { Probability } from "../units.ts"
import { invertStudentT } from "./student-t.ts"
import { checkConfidence, scoreInterval, twoSidedDeviates, unknownShare } from "./wilson.ts"

/**
 * A share such as the save rate: the sum of numerators over the sum of denominators, each known per replicate.
 *
 * Linearised ratio estimator: p = sum a / sum b, variance R / (R - 1) * sum (a_r - p b_r)² / (sum b)²; Cochran, Sampling
 * Techniques (1977), 6.4. Its variance says how many independent shots would know as much, n = p (1 - p) / variance;
 * the interval is Wilson's at that n with Student's t on R - 1 degrees of freedom in place of the normal. For
 * ordinary counts this is p ± t standard errors to the printed digits, but it never leaves [0, 1].
 *
 * Replicates cannot tell the spread of something hardly seen. With less than one whole goal, or less than one whole save,
 * in all, n is at most the sum of denominators (shots on goal) and at most `shots`; so an all-saved run keeps a width.
 */
export function ratioOverReplicates(
  numerators: ArrayLike<number>,
  denominators: ArrayLike<number>,
  shots: number,
  confidence: Probability,
): Estimate {
  checkConfidence(confidence)
  checkReplicates(numerators.length, denominators.length)
  const replicates = numerators.length
  const whole = total(denominators)
  if (!(whole > 0)) return unknownShare(shots, confidence, "ratio over replicates, none seen")
  const mean = total(numerators) / whole
  const variance = varianceOfRatio(numerators, denominators, mean, whole)
  const deviates =
    replicates > 1 ? invertStudentT(0.5 + 0.5 * confidence, replicates - 1) : twoSidedDeviates(confidence)
  const standardError = Math.sqrt(variance)
  // a ratio that is no share keeps the plain interval
  if (mean < 0 || mean > 1) return quantityOverReplicates(numerators, denominators, shots, confidence)
  const sparse = replicates === 1 || Math.min(mean, 1 - mean) * whole < 1 || variance === 0
  const told = variance > 0 ? (mean * (1 - mean)) / variance : Infinity
  const effective = sparse ? Math.min(told, whole, shots) : told
  const [low, high] = scoreInterval(mean, effective, deviates)
  const method = sparse ? "ratio over replicates, Wilson by count" : "ratio over replicates, t"
  return { n: shots, mean, standardError, low, high, confidence, method }
}

/**
 * Mean of a quantity that every shot has, such as a time: the same linearised ratio with Student's t and no bounds. What is
 * alike in every replicate has no width: nothing was counted, so nothing can have been missed.
 */
export function quantityOverReplicates(
  numerators: ArrayLike<number>,
  denominators: ArrayLike<number>,
  shots: number,
  confidence: Probability,
): Estimate {
  checkConfidence(confidence)
  checkReplicates(numerators.length, denominators.length)
  const replicates = numerators.length
  const whole = total(denominators)
  const mean = total(numerators) / whole
  const variance = varianceOfRatio(numerators, denominators, mean, whole)
  return unboundedEstimate(mean, variance, replicates, shots, confidence, "ratio over replicates, t")
}

/** A mean with Student's t on one degree of freedom less than there are replicates, without bounds; a single one tells no width. */
export function unboundedEstimate(
  mean: number,
  variance: number,
  replicates: number,
  shots: number,
  confidence: Probability,
  method: string,
): Estimate {
  const standardError = Math.sqrt(variance)
  const reach = replicates > 1 ? invertStudentT(0.5 + 0.5 * confidence, replicates - 1) * standardError : Infinity
  return { n: shots, mean, standardError, low: mean - reach, high: mean + reach, confidence, method }
}

/** Variance of the linearised ratio; 0 for a single replicate, which cannot tell. */
function varianceOfRatio(
  numerators: ArrayLike<number>,
  denominators: ArrayLike<number>,
  ratio: number,
  whole: number,
): number {
  const replicates = numerators.length
  if (replicates < 2) return 0
  let squares = 0
  for (let r = 0; r < replicates; r++) {
    const residual = numerators[r]! - ratio * denominators[r]!
    squares += residual * residual
  }
  return (squares * replicates) / ((replicates - 1) * whole * whole)
}

/** Sum of a column. */
export function total(values: ArrayLike<number>): number {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i]!
  return sum
}

/** Throws a RangeError unless two columns have the same length of at least 1. */
export function checkReplicates(first: number, second: number): void {
  if (first < 1 || first !== second) {
    throw new RangeError(
      `Cannot estimate a ratio as columns of replicates must have one length of at least 1: current values are ${first} and ${second}`,
    )
  }
}
