import type { Estimate } from "../estimate.ts"
import type { Probability } from "../units.ts"
import { topOfCurve } from "./curve-best.ts"
import { type CurveBootstrap, estimateFromResamples, resampledCurve } from "./curve-bootstrap.ts"

/**
 * What it costs to miss the best place by a signed distance `by`: the curve at (top + by) less the curve at the top, on
 * straight lines between swept values, on the same resampled shots. The top is the one found on the curve itself, the
 * place a reader will aim for. Null where the missed place lies outside the sweep or the curve holds no number.
 */
export function changeWhenMissed(bootstrap: CurveBootstrap, by: number, confidence: Probability): Estimate | null {
  const { x, curve, resamples } = bootstrap
  const top = topOfCurve(x, curve)
  const change = valueAt(x, curve, top + by) - valueAt(x, curve, top)
  if (Number.isNaN(change)) return null
  const changes = new Float64Array(resamples)
  for (let i = 0; i < resamples; i++) {
    const resampled = resampledCurve(bootstrap, i)
    changes[i] = valueAt(x, resampled, top + by) - valueAt(x, resampled, top)
  }
  return estimateFromResamples(change, changes, bootstrap, confidence)
}

/** Value on the straight line between the neighbours of `place`; NaN outside the range of x. */
export function valueAt(x: readonly number[], values: ArrayLike<number>, place: number): number {
  const last = x.length - 1
  // a place that missed an end by round-off only counts as the end
  const slack = 1e-9 * (x[last]! - x[0]!)
  if (!(place >= x[0]! - slack && place <= x[last]! + slack)) return Number.NaN
  let i = 0
  while (i < last - 1 && x[i + 1]! < place) i++
  if (last === 0) return values[0]!
  const share = Math.min(1, Math.max(0, (place - x[i]!) / (x[i + 1]! - x[i]!)))
  return values[i]! + share * (values[i + 1]! - values[i]!)
}
