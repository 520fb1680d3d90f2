import type { Estimate } from "../estimate.ts"
import type { Probability } from "../units.ts"
import { total } from "./ratio.ts"
import { invertStudentT } from "./student-t.ts"
import { checkConfidence } from "./wilson.ts"

/**
 * Mean of one value per replicate, each from equally many shots, with Student's t on R - 1 degrees of freedom. Values
 * that are all alike have zero width: that is a constant, not a share. Throws a RangeError for fewer than two.
 */
export function meanOverReplicates(values: ArrayLike<number>, shots: number, confidence: Probability): Estimate {
  checkConfidence(confidence)
  const replicates = values.length
  if (replicates < 2) {
    throw new RangeError(`Cannot estimate a mean as replicates must be at least 2: current value is ${replicates}`)
  }
  const mean = total(values) / replicates
  const standardError = Math.sqrt(sampleVariance(values, mean) / replicates)
  const reach = standardError === 0 ? 0 : invertStudentT(0.5 + 0.5 * confidence, replicates - 1) * standardError
  const method = "mean over replicates, t"
  return { n: shots, mean, standardError, low: mean - reach, high: mean + reach, confidence, method }
}

/** Sum of squared deviations over n - 1. */
export function sampleVariance(values: ArrayLike<number>, mean: number): number {
  let squares = 0
  for (let i = 0; i < values.length; i++) squares += (values[i]! - mean) ** 2
  return squares / (values.length - 1)
}
