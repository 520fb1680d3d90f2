import type { Estimate } from "../estimate.ts"
import type { Probability } from "../units.ts"
import { indexOfHighest } from "./curve-best.ts"
import { type CurveBootstrap, estimateFromResamples, resampledCurve } from "./curve-bootstrap.ts"

/** The stretch around the highest point where it does not matter. */
export interface Plateau {
  readonly from: Estimate
  readonly to: Estimate
  readonly width: Estimate
  /** The plateau goes on to the first or last swept value: it may be wider than the sweep. */
  readonly reachesFirst: boolean
  readonly reachesLast: boolean
}

/**
 * Plateau of a curve: from the highest point to either side as far as the curve stays within `within` of it (0.005 is
 * half a point), with the ends placed on straight lines between swept values.
 */
export function plateauOfCurve(bootstrap: CurveBootstrap, within: number, confidence: Probability): Plateau {
  const { x, resamples } = bootstrap
  const starts = new Float64Array(resamples)
  const ends = new Float64Array(resamples)
  const widths = new Float64Array(resamples)
  for (let i = 0; i < resamples; i++) {
    const [from, to] = plateauEnds(x, resampledCurve(bootstrap, i), within)
    starts[i] = from
    ends[i] = to
    widths[i] = to - from
  }
  const [from, to] = plateauEnds(x, bootstrap.curve, within)
  return {
    from: estimateFromResamples(from, starts, bootstrap, confidence),
    to: estimateFromResamples(to, ends, bootstrap, confidence),
    width: estimateFromResamples(to - from, widths, bootstrap, confidence),
    reachesFirst: from === x[0],
    reachesLast: to === x[x.length - 1],
  }
}

/** Both ends of the plateau; NaN for a curve without numbers. */
export function plateauEnds(x: readonly number[], values: ArrayLike<number>, within: number): [number, number] {
  const top = indexOfHighest(values)
  if (top < 0) return [Number.NaN, Number.NaN]
  const floor = values[top]! - within
  let first = top
  while (first > 0 && values[first - 1]! >= floor) first--
  let last = top
  while (last < x.length - 1 && values[last + 1]! >= floor) last++
  return [endOfPlateau(x, values, first, first - 1, floor), endOfPlateau(x, values, last, last + 1, floor)]
}

/** Where the straight line from the last point inside to the first outside meets the floor. */
function endOfPlateau(
  x: readonly number[],
  values: ArrayLike<number>,
  inside: number,
  outside: number,
  floor: number,
): number {
  const beyond = values[outside]
  // no further point, or nothing seen there
  if (outside < 0 || beyond === undefined || Number.isNaN(beyond)) return x[inside]!
  const share = (values[inside]! - floor) / (values[inside]! - beyond)
  return x[inside]! + share * (x[outside]! - x[inside]!)
}
