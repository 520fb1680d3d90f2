import type { Estimate } from "../estimate.ts"
import type { Probability } from "../units.ts"
import { type CurveBootstrap, estimateFromResamples, resampledCurve } from "./curve-bootstrap.ts"

/** Where one curve overtakes another. "No crossing in this range" is an answer. */
export interface Crossing {
  /** The first crossing, in the unit of x; null when the curves do not cross in the range of the sweep. */
  readonly place: Estimate | null
  /** How often the curves cross; more than once often means that they are too close to tell apart. */
  readonly count: number
  /** Share of resamples that cross at all; the interval of the place is made from these alone. */
  readonly probability: Probability
}

/**
 * Crossing of two curves over the same swept values, resampled with the same key, resamples and replicates. Crossings
 * lie on straight lines between swept values. Throws a RangeError when the two were not resampled alike.
 */
export function crossingOfCurves(a: CurveBootstrap, b: CurveBootstrap, confidence: Probability): Crossing {
  checkAlike(a, b)
  const { x, resamples } = a
  const places = new Float64Array(resamples)
  let crossing = 0
  for (let i = 0; i < resamples; i++) {
    const first = crossings(x, resampledCurve(a, i), resampledCurve(b, i))[0]
    places[i] = first ?? Number.NaN
    if (first !== undefined) crossing++
  }
  const found = crossings(x, a.curve, b.curve)
  return {
    place: found.length > 0 ? estimateFromResamples(found[0]!, places, a, confidence) : null,
    count: found.length,
    probability: crossing / resamples,
  }
}

/** All changes of sign of a - b, upward in x. Points of equality take the middle of their stretch; touching is none. */
export function crossings(x: readonly number[], a: ArrayLike<number>, b: ArrayLike<number>): number[] {
  const places: number[] = []
  let last = -1
  for (let i = 0; i < x.length; i++) {
    const here = a[i]! - b[i]!
    if (here === 0 || Number.isNaN(here)) continue
    const before = last < 0 ? 0 : a[last]! - b[last]!
    if (before * here < 0) {
      const neighbours = i === last + 1
      places.push(
        neighbours ? x[last]! + (before / (before - here)) * (x[i]! - x[last]!) : 0.5 * (x[last + 1]! + x[i - 1]!),
      )
    }
    last = i
  }
  return places
}

function checkAlike(a: CurveBootstrap, b: CurveBootstrap): void {
  const alike =
    a.resamples === b.resamples &&
    a.replicates === b.replicates &&
    a.x.length === b.x.length &&
    a.x.every((value, i) => value === b.x[i])
  if (!alike) {
    throw new RangeError(
      `Cannot cross two curves as they must share swept values, resamples and replicates: current values are ${a.x.length}, ${a.resamples}, ${a.replicates} and ${b.x.length}, ${b.resamples}, ${b.replicates}`,
    )
  }
}
