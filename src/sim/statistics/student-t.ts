import { invertNormal } from "../random/normal.ts"
import type { Probability } from "../units.ts"

/**
 * Student's t with a whole number of degrees of freedom, by the finite sums of Abramowitz and Stegun, Handbook of
 * Mathematical Functions (1964), 26.7.3 and 26.7.4: with tan a = t / sqrt(freedom), the probability between -t and t is
 * sin a times a polynomial in cos² a, plus 2 a / pi when the freedom is odd. Accurate to about 1e-15 of 1.
 */

/** Probability of a value below t. Throws a RangeError unless `freedom` is a whole number from 1. */
export function cumulativeStudentT(t: number, freedom: number): Probability {
  checkFreedom(freedom)
  return 0.5 + 0.5 * betweenStudentT(t, freedom)
}

/**
 * The t below which a share `p` lies, to about 1e-12 of itself for p from 1e-4 to 1 - 1e-4. 0 gives -Infinity, 1 gives
 * Infinity. Throws a RangeError unless p lies in [0, 1] and `freedom` is a whole number from 1.
 */
export function invertStudentT(p: Probability, freedom: number): number {
  checkFreedom(freedom)
  if (!(p >= 0 && p <= 1)) {
    throw new RangeError(`Cannot invert Student's t as p must be between 0 and 1: current value is ${p}`)
  }
  if (p === 0.5) return 0
  if (p < 0.5) return -invertStudentT(1 - p, freedom)
  if (p === 1) return Infinity
  const between = 2 * p - 1
  // bracket the root, from the normal outward
  let low = 0
  let t = invertNormal(p)
  let high = t
  while (betweenStudentT(high, freedom) < between) {
    low = high
    high *= 2
  }
  // Newton's steps, halving the bracket where one leaves it
  const scale = 2 * densityScale(freedom)
  for (let i = 0; i < 200; i++) {
    const miss = betweenStudentT(t, freedom) - between
    if (miss > 0) high = t
    else low = t
    const step = miss / (scale * (1 + (t * t) / freedom) ** (-0.5 * (freedom + 1)))
    const next = t - step > low && t - step < high ? t - step : 0.5 * (low + high)
    if (Math.abs(next - t) <= 1e-15 * next) return next
    t = next
  }
  return t
}

/** Probability between -t and t, negative for negative t. */
function betweenStudentT(t: number, freedom: number): number {
  const angle = Math.atan(t / Math.sqrt(freedom))
  const sine = Math.sin(angle)
  const cosineSquared = freedom / (freedom + t * t)
  const odd = freedom % 2
  // terms of the polynomial: each is the one before times cos² a and (k - 1) / k
  let term = odd === 1 ? (2 / Math.PI) * Math.sqrt(cosineSquared) : 1
  let sum = freedom === 1 ? 0 : term
  for (let k = 2 + odd; k <= freedom - 2; k += 2) {
    term *= (cosineSquared * (k - 1)) / k
    sum += term
    if (term < 1e-18 * sum) break
  }
  return sine * sum + (odd === 1 ? (2 / Math.PI) * angle : 0)
}

/** Density at 0: from 1 / pi and 1 / (2 sqrt 2) by the recurrence of the gamma function, two degrees at a time. */
function densityScale(freedom: number): number {
  const odd = freedom % 2
  let ratio = odd === 1 ? 1 / Math.PI : 0.5
  for (let k = odd === 1 ? 1 : 2; k < freedom; k += 2) ratio *= (k + 1) / k
  return ratio / Math.sqrt(freedom)
}

function checkFreedom(freedom: number): void {
  if (!(Number.isInteger(freedom) && freedom >= 1)) {
    throw new RangeError(
      `Cannot evaluate Student's t as freedom must be a whole number from 1: current value is ${freedom}`,
    )
  }
}
