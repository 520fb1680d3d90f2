import type { Estimate } from "../../sim/estimate.ts"
import { shotsToSee } from "../../sim/statistics/power.ts"
import type { Experiment } from "../experiment.ts"
import { GOALS_SAVED, PER_ATTEMPTS, SHOTS_TO_SEE } from "../measures.ts"
import { differenceOf } from "./intervals.ts"
import { ALL_GOALS, type Share } from "./shares.ts"

/**
 * Measures that a point has only beside its baseline, from the paired difference on the same shots: goals saved, and the
 * shots it would take on the ice to see a difference of the save rate. None for the baseline itself.
 */
export function againstBaseline(
  experiment: Experiment,
  mine: Readonly<Record<string, Share>>,
  theirs: Readonly<Record<string, Share>>,
  shots: number,
): Record<string, Estimate> {
  const goals = differenceOf(experiment, mine[ALL_GOALS]!, theirs[ALL_GOALS]!, shots)
  const rate = differenceOf(experiment, mine.save_rate!, theirs.save_rate!, shots)
  const base = theirs.save_rate!
  const before = totalOf(base.above) / totalOf(base.below)
  return {
    [GOALS_SAVED]: goalsSaved(goals),
    ...(Number.isFinite(rate.mean) && Number.isFinite(before) ? { [SHOTS_TO_SEE]: shotsSeen(rate, before) } : {}),
  }
}

/** Goals fewer in {@link PER_ATTEMPTS} attempts, from the difference of the goals over all attempts. */
export function goalsSaved({ mean, low, high, standardError, ...rest }: Estimate): Estimate {
  const fewer = (share: number): number => (share === 0 ? 0 : -PER_ATTEMPTS * share)
  return {
    ...rest,
    mean: fewer(mean),
    low: fewer(high),
    high: fewer(low),
    standardError: PER_ATTEMPTS * standardError,
  }
}

/**
 * Shots on goal in each arm, at the difference found and at both ends of its interval: the farther end asks for fewest.
 * Infinite where the interval holds no difference at all. Without a standard error: it is no sum over shots.
 */
function shotsSeen({ mean, low, high, n, confidence }: Estimate, before: number): Estimate {
  const needed = (change: number): number => shotsToSee(before, Math.min(1, Math.max(0, before + change)))
  const [near, far] = Math.abs(low) < Math.abs(high) ? [low, high] : [high, low]
  return {
    n,
    mean: needed(mean),
    standardError: Number.NaN,
    low: needed(far),
    high: low <= 0 && high >= 0 ? Infinity : needed(near),
    confidence,
    method: "normal approximation at the ends of the paired difference",
  }
}

function totalOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0)
}
