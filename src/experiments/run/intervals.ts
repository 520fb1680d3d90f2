import type { Estimate } from "../../sim/estimate.ts"
import { differenceOverReplicates, quantityDifference } from "../../sim/statistics/difference.ts"
import { ratioOverReplicates } from "../../sim/statistics/ratio.ts"
import { widened } from "../../sim/statistics/widened.ts"
import type { Experiment } from "../experiment.ts"
import type { Share } from "./shares.ts"

/** Share of the 95 % intervals that hold the truth in the long run. */
export const CONFIDENCE = 0.95

/** A share with its interval, which is wider where the run waits for one to be narrow. */
export function estimateOf({ halfWidth }: Experiment, { above, below }: Share, shots: number): Estimate {
  const estimate = ratioOverReplicates(above, below, shots, CONFIDENCE)
  if (halfWidth === null) return estimate
  const isShare = estimate.mean >= 0 && estimate.mean <= 1
  return isShare ? widened(estimate, 0, 1) : widened(estimate, -Infinity, Infinity)
}

/** The difference of two means of a quantity, a time or a way, on the same shots, with its interval. */
export function quantityDifferenceOf({ halfWidth }: Experiment, a: Share, b: Share, shots: number): Estimate {
  const estimate = quantityDifference(a.above, a.below, b.above, b.below, shots, CONFIDENCE)
  return halfWidth === null ? estimate : widened(estimate, -Infinity, Infinity)
}

/** The difference of two shares on the same shots, with its interval. */
export function differenceOf({ halfWidth }: Experiment, a: Share, b: Share, shots: number): Estimate {
  const estimate = differenceOverReplicates(a.above, a.below, b.above, b.below, shots, CONFIDENCE)
  return halfWidth === null ? estimate : widened(estimate, -1, 1)
}
