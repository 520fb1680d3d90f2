import type { Estimate } from "../estimate.ts"
import type { Probability } from "../units.ts"
import { hybridDifference } from "./newcombe.ts"
import { checkReplicates, ratioOverReplicates, total, unboundedEstimate } from "./ratio.ts"
import { checkConfidence } from "./wilson.ts"

const PAIRED = "paired difference of ratios over replicates, t"

/**
 * Difference of two shares, A less B, on the same shots: each replicate gives both, so what the shots have in common
 * cancels. Linearised like the ratio itself: residual of a replicate = (a - pA bA) / sum bA - (a' - pB bB) / sum bB,
 * variance R / (R - 1) * sum residual², interval by Student's t on R - 1 degrees of freedom, cut at ±1.
 *
 * The width is zero only where both arms hold the same numbers in every replicate. Where the residuals vanish otherwise
 * (all saved in both arms, a single replicate) the arms' own intervals are combined as if independent, which is too
 * wide rather than too narrow.
 */
export function differenceOverReplicates(
  numeratorsA: ArrayLike<number>,
  denominatorsA: ArrayLike<number>,
  numeratorsB: ArrayLike<number>,
  denominatorsB: ArrayLike<number>,
  shots: number,
  confidence: Probability,
): Estimate {
  checkConfidence(confidence)
  checkArms(numeratorsA, denominatorsA, numeratorsB, denominatorsB)
  const replicates = numeratorsA.length
  const wholeA = total(denominatorsA)
  const wholeB = total(denominatorsB)
  const seen = wholeA > 0 && wholeB > 0
  if (seen && sameNumbers(numeratorsA, numeratorsB) && sameNumbers(denominatorsA, denominatorsB)) {
    return { n: shots, mean: 0, standardError: 0, low: 0, high: 0, confidence, method: "identical on every shot" }
  }
  const meanA = total(numeratorsA) / wholeA
  const meanB = total(numeratorsB) / wholeB
  const variance = varianceApart(numeratorsA, denominatorsA, meanA, wholeA, numeratorsB, denominatorsB, meanB, wholeB)
  // no spread to go by: nothing seen, one replicate, or residuals that vanish
  if (!seen || variance === 0) {
    const a = ratioOverReplicates(numeratorsA, denominatorsA, shots, confidence)
    const b = ratioOverReplicates(numeratorsB, denominatorsB, shots, confidence)
    return hybridDifference(a, b, shots, "hybrid score, arms taken as independent")
  }
  const estimate = unboundedEstimate(meanA - meanB, variance, replicates, shots, confidence, PAIRED)
  return { ...estimate, low: Math.max(-1, estimate.low), high: Math.min(1, estimate.high) }
}

/**
 * Difference of two means of a quantity every shot has, such as a time or a way: as {@link differenceOverReplicates}, without
 * the bounds of shares. What does not vary has no width: nothing was counted, so nothing can have been missed.
 */
export function quantityDifference(
  numeratorsA: ArrayLike<number>,
  denominatorsA: ArrayLike<number>,
  numeratorsB: ArrayLike<number>,
  denominatorsB: ArrayLike<number>,
  shots: number,
  confidence: Probability,
): Estimate {
  checkConfidence(confidence)
  checkArms(numeratorsA, denominatorsA, numeratorsB, denominatorsB)
  const replicates = numeratorsA.length
  const [wholeA, wholeB] = [total(denominatorsA), total(denominatorsB)]
  const [meanA, meanB] = [total(numeratorsA) / wholeA, total(numeratorsB) / wholeB]
  const variance = varianceApart(numeratorsA, denominatorsA, meanA, wholeA, numeratorsB, denominatorsB, meanB, wholeB)
  return unboundedEstimate(meanA - meanB, variance, replicates, shots, confidence, PAIRED)
}

/** Throws a RangeError unless the four columns have one length. */
function checkArms(
  numeratorsA: ArrayLike<number>,
  denominatorsA: ArrayLike<number>,
  numeratorsB: ArrayLike<number>,
  denominatorsB: ArrayLike<number>,
): void {
  checkReplicates(numeratorsA.length, denominatorsA.length)
  checkReplicates(numeratorsB.length, denominatorsB.length)
  checkReplicates(numeratorsA.length, numeratorsB.length)
}

/** Variance of the difference of two linearised ratios; 0 for a single replicate, which cannot tell. */
function varianceApart(
  numeratorsA: ArrayLike<number>,
  denominatorsA: ArrayLike<number>,
  meanA: number,
  wholeA: number,
  numeratorsB: ArrayLike<number>,
  denominatorsB: ArrayLike<number>,
  meanB: number,
  wholeB: number,
): number {
  const replicates = numeratorsA.length
  if (replicates < 2) return 0
  let squares = 0
  for (let r = 0; r < replicates; r++) {
    const residualA = (numeratorsA[r]! - meanA * denominatorsA[r]!) / wholeA
    const residualB = (numeratorsB[r]! - meanB * denominatorsB[r]!) / wholeB
    squares += (residualA - residualB) ** 2
  }
  return (squares * replicates) / (replicates - 1)
}

function sameNumbers(first: ArrayLike<number>, second: ArrayLike<number>): boolean {
  for (let i = 0; i < first.length; i++) if (first[i] !== second[i]) return false
  return true
}
