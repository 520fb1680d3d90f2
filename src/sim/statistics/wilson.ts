import type { Estimate } from "../estimate.ts"
import { invertNormal } from "../random/normal.ts"
import type { Probability } from "../units.ts"

/**
 * Score interval of a share: all true shares p that lie within `deviates` standard errors, computed at p itself, of the
 * observed one. E. B. Wilson, J. Am. Stat. Assoc. 22 (1927), 209-212. Stays inside [0, 1] and has a width even when all
 * or none succeed. `n` need not be whole: an effective number does.
 */
export function scoreInterval(share: Probability, n: number, deviates: number): [low: Probability, high: Probability] {
  const square = deviates * deviates
  const middle = (share + square / (2 * n)) / (1 + square / n)
  const reach = (deviates * Math.sqrt((share * (1 - share)) / n + square / (4 * n * n))) / (1 + square / n)
  // the ends are exact where all or none succeed
  return [share <= 0 ? 0 : Math.max(0, middle - reach), share >= 1 ? 1 : Math.min(1, middle + reach)]
}

/**
 * Share of `successes` among `n` independent unweighted trials with Wilson's interval. No trial at all gives a mean that
 * is not a number and the interval from 0 to 1. Throws a RangeError when counts or confidence are out of range.
 */
export function wilson(successes: number, n: number, confidence: Probability): Estimate {
  checkConfidence(confidence)
  if (!(n >= 0 && n < Infinity)) {
    throw new RangeError(`Cannot estimate a share as n must be 0 or more: current value is ${n}`)
  }
  if (!(successes >= 0 && successes <= n)) {
    throw new RangeError(
      `Cannot estimate a share as successes must be between 0 and ${n}: current value is ${successes}`,
    )
  }
  if (n === 0) return unknownShare(0, confidence, "Wilson")
  const mean = successes / n
  const [low, high] = scoreInterval(mean, n, twoSidedDeviates(confidence))
  return { n, mean, standardError: Math.sqrt((mean * (1 - mean)) / n), low, high, confidence, method: "Wilson" }
}

/** A share of which nothing was seen: anything from 0 to 1. */
export function unknownShare(n: number, confidence: Probability, method: string): Estimate {
  return { n, mean: Number.NaN, standardError: Number.NaN, low: 0, high: 1, confidence, method }
}

/** How many standard errors a two-sided normal interval reaches: 1.96 at 0.95. */
export function twoSidedDeviates(confidence: Probability): number {
  return invertNormal(0.5 + 0.5 * confidence)
}

/** Throws a RangeError unless the confidence lies strictly between 0 and 1. */
export function checkConfidence(confidence: Probability): void {
  if (!(confidence > 0 && confidence < 1)) {
    throw new RangeError(
      `Cannot make an interval as confidence must be above 0 and below 1: current value is ${confidence}`,
    )
  }
}
