import type { Estimate } from "../estimate.ts"
import type { Probability } from "../units.ts"
import { type CurveBootstrap, estimateFromResamples, resampledCurve } from "./curve-bootstrap.ts"

/** How many neighbours to either side the parabola at the top is fitted to. */
const NEIGHBOURS = 2

/** Where the curve is highest, between swept values, and how often each swept value is the highest. */
export interface BestOfCurve {
  /** Place of the top, in the unit of x. */
  readonly best: Estimate
  /** [points] share of resamples in which this point is the highest; ties are split. Sums to 1. */
  readonly probabilityBest: readonly number[]
}

/** Finds the top of a curve by {@link topOfCurve}, with bootstrap interval and the probability of each point. */
export function bestOfCurve(bootstrap: CurveBootstrap, confidence: Probability): BestOfCurve {
  const { x, resamples } = bootstrap
  const places = new Float64Array(resamples)
  const wins = new Float64Array(x.length)
  for (let i = 0; i < resamples; i++) {
    const curve = resampledCurve(bootstrap, i)
    places[i] = topOfCurve(x, curve)
    countWins(curve, wins)
  }
  const best = estimateFromResamples(topOfCurve(x, bootstrap.curve), places, bootstrap, confidence)
  return { best, probabilityBest: Array.from(wins, (count) => count / resamples) }
}

/** Adds one win to the highest point, or equal parts of it to points that tie. */
function countWins(curve: Float64Array, wins: Float64Array): void {
  const highest = curve[indexOfHighest(curve)]
  let ties = 0
  for (const value of curve) if (value === highest) ties++
  for (let point = 0; point < curve.length; point++) {
    if (curve[point] === highest) wins[point] = wins[point]! + 1 / ties
  }
}

/** First of the highest values; values that are not a number never win; -1 if there is no other. */
export function indexOfHighest(values: ArrayLike<number>): number {
  let index = -1
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i]!) && (index < 0 || values[i]! > values[index]!)) index = i
  }
  return index
}

/**
 * Place of the top, finer than the steps of x: the vertex of the least-squares parabola through the highest point and
 * up to two neighbours to either side, held between the nearest neighbours. A highest point at an end of the range, or
 * a parabola without a top, leaves the highest point itself. NaN for a curve without numbers.
 */
export function topOfCurve(x: readonly number[], values: ArrayLike<number>): number {
  const index = indexOfHighest(values)
  if (index < 0) return Number.NaN
  const centre = x[index]!
  if (index === 0 || index === x.length - 1) return centre
  const first = Math.max(0, index - NEIGHBOURS)
  const last = Math.min(x.length - 1, index + NEIGHBOURS)
  const scale = Math.max(x[last]! - centre, centre - x[first]!)
  const vertex = centre + scale * vertexOfFit(x, values, first, last, centre, scale)
  return Number.isNaN(vertex) ? centre : Math.min(x[index + 1]!, Math.max(x[index - 1]!, vertex))
}

/** Vertex of the parabola c0 + c1 s + c2 s², s = (x - centre) / scale; NaN where it has no top. */
function vertexOfFit(
  x: readonly number[],
  values: ArrayLike<number>,
  first: number,
  last: number,
  centre: number,
  scale: number,
): number {
  // moments of s and of the values about the highest
  const moment = [0, 0, 0, 0, 0]
  const product = [0, 0, 0]
  const offset = values[first]!
  for (let i = first; i <= last; i++) {
    const s = (x[i]! - centre) / scale
    for (let k = 0, power = 1; k <= 4; k++, power *= s) {
      moment[k]! += power
      if (k <= 2) product[k]! += power * (values[i]! - offset)
    }
  }
  const [m0, m1, m2, m3, m4] = moment as [number, number, number, number, number]
  const [p0, p1, p2] = product as [number, number, number]
  // numerators of c1 and c2 by Cramer's rule; their common determinant is positive and cancels
  const c1 = p1 * (m0 * m4 - m2 * m2) + p0 * (m2 * m3 - m1 * m4) + p2 * (m1 * m2 - m0 * m3)
  const c2 = p2 * (m0 * m2 - m1 * m1) + p1 * (m1 * m2 - m0 * m3) + p0 * (m1 * m3 - m2 * m2)
  return c2 < 0 ? -c1 / (2 * c2) : Number.NaN
}
