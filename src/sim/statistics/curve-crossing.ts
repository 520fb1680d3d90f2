import type { Estimate } from "../estimate.ts"
import type { Probability } from "../units.ts"
import { type CurveBootstrap, estimateFromResamples, resampledCurve } from "./curve-bootstrap.ts"

/** Where one curve overtakes another. "No crossing in this range" is an answer. */
export interface Crossing {
  /** The crossing that parts the curves best, in the unit of x; null when they do not cross in the range of the sweep. */
  readonly place: Estimate | null
  /** 1 where the first curve is above the second before that crossing, -1 where below; 0 without a crossing. */
  readonly direction: 1 | -1 | 0
  /** How often the curves cross; more than once often means that they are too close to tell apart. */
  readonly count: number
  /** Share of resamples that cross in that direction; the interval of the place is made from these alone. */
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
  const main = mainCrossing(x, a.curve, b.curve)
  if (main === null) return { place: null, direction: 0, count: 0, probability: 0 }
  let crossing = 0
  for (let i = 0; i < resamples; i++) {
    const found = mainCrossing(x, resampledCurve(a, i), resampledCurve(b, i), main.direction)
    places[i] = found?.place ?? Number.NaN
    if (found !== null) crossing++
  }
  return {
    place: estimateFromResamples(main.place, places, a, confidence),
    direction: main.direction,
    count: crossings(x, a.curve, b.curve).length,
    probability: crossing / resamples,
  }
}

/**
 * The crossing at which to change from one curve to the other if it is done once: of all that lead the wanted way, or
 * either way, the one with most area between the curves on its right sides. Null when none leads that way.
 */
export function mainCrossing(
  x: readonly number[],
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  wanted?: 1 | -1,
): { readonly place: number; readonly direction: 1 | -1 } | null {
  let best: { readonly place: number; readonly direction: 1 | -1 } | null = null
  let most = -Infinity
  for (const place of crossings(x, a, b)) {
    const gain = areaBetween(x, a, b, x[0]!, place) - areaBetween(x, a, b, place, x.at(-1)!)
    const direction = directionAt(x, a, b, place)
    const gained = direction * gain
    if ((wanted !== undefined && direction !== wanted) || gained <= most) continue
    most = gained
    best = { place, direction }
  }
  return best
}

/** Area of the first curve over the second between two places, along straight lines between the swept values. */
export function areaBetween(
  x: readonly number[],
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  from: number,
  to: number,
): number {
  let area = 0
  for (let i = 1; i < x.length; i++) {
    const [low, high] = [Math.max(from, x[i - 1]!), Math.min(to, x[i]!)]
    if (!(high > low)) continue
    const at = (place: number): number => {
      const along = (place - x[i - 1]!) / (x[i]! - x[i - 1]!)
      return (1 - along) * (a[i - 1]! - b[i - 1]!) + along * (a[i]! - b[i]!)
    }
    const piece = 0.5 * (high - low) * (at(low) + at(high))
    if (!Number.isNaN(piece)) area += piece
  }
  return area
}

/** Which curve is above before a crossing: the last place below it where they differ tells. */
function directionAt(x: readonly number[], a: ArrayLike<number>, b: ArrayLike<number>, place: number): 1 | -1 {
  let direction: 1 | -1 = 1
  for (let i = 0; i < x.length && x[i]! < place; i++) {
    const here = a[i]! - b[i]!
    if (here !== 0 && !Number.isNaN(here)) direction = here > 0 ? 1 : -1
  }
  return direction
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
