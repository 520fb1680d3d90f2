import type { Estimate } from "../estimate.ts"
import type { Probability } from "../units.ts"
import { checkReplicates, ratioOverReplicates, total } from "./ratio.ts"
import { invertStudentT } from "./student-t.ts"
import { checkConfidence } from "./wilson.ts"

/** One share of a contrast, by replicate, and how often it counts: +1 or -1 in a difference of differences. */
export interface Arm {
  readonly above: ArrayLike<number>
  readonly below: ArrayLike<number>
  readonly weight: number
}

/**
 * A weighted sum of shares on the same replicates, such as a difference of two differences: what the shots of a replicate
 * have in common cancels. Linearised as each ratio is: residual of a replicate = sum of w (a - p b) / sum b over the arms,
 * variance R / (R - 1) * sum residual², interval by Student's t on R - 1 degrees of freedom.
 *
 * Where there is no spread to go by (one replicate, nothing seen, residuals that vanish) the half-widths of the arms' own
 * intervals are combined as if independent, which is too wide rather than too narrow.
 */
export function contrastOverReplicates(arms: readonly Arm[], shots: number, confidence: Probability): Estimate {
  checkConfidence(confidence)
  for (const { above, below } of arms) {
    checkReplicates(above.length, below.length)
    checkReplicates(above.length, arms[0]!.above.length)
  }
  const replicates = arms[0]?.above.length ?? 0
  const parts = arms.map(({ above, below, weight }) => {
    const whole = total(below)
    return { above, below, whole, mean: total(above) / whole, weight }
  })
  const mean = parts.reduce((sum, part) => sum + part.weight * part.mean, 0)
  let squares = 0
  for (let r = 0; r < replicates; r++) {
    let residual = 0
    for (const { above, below, whole, mean: share, weight } of parts)
      residual += (weight * (above[r]! - share * below[r]!)) / whole
    squares += residual * residual
  }
  const isSeen = parts.every(({ whole }) => whole > 0)
  if (!isSeen || replicates < 2 || squares === 0) return asIndependent(arms, mean, shots, confidence)
  const standardError = Math.sqrt((squares * replicates) / (replicates - 1))
  const reach = invertStudentT(0.5 + 0.5 * confidence, replicates - 1) * standardError
  const method = "contrast of ratios over replicates, t"
  return { n: shots, mean, standardError, low: mean - reach, high: mean + reach, confidence, method }
}

function asIndependent(arms: readonly Arm[], mean: number, shots: number, confidence: Probability): Estimate {
  const own = arms.map(({ above, below }) => ratioOverReplicates(above, below, shots, confidence))
  const size = (of: (estimate: Estimate) => number): number =>
    Math.hypot(...own.map((estimate, i) => arms[i]!.weight * of(estimate)))
  const reach = size(({ low, high }) => 0.5 * (high - low))
  const standardError = size((estimate) => estimate.standardError)
  const method = "contrast of ratios, arms taken as independent"
  return { n: shots, mean, standardError, low: mean - reach, high: mean + reach, confidence, method }
}
