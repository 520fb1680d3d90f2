import type { Experiment } from "../experiment.ts"
import { comparedWith } from "../report/words.ts"
import type { PointResult } from "../results.ts"
import { ALL_SPOTS } from "./columns.ts"
import { differenceOf, estimateOf } from "./intervals.ts"
import { commonShots, type PointTallies } from "./point-tallies.ts"
import { saveShareOf } from "./shares.ts"

/**
 * The points that are known as well as a file waits for. A save rate is known or not whatever the others are. A difference is
 * as sharp as it is because both points have met the same shots: all of them are known once the widest is, none before.
 */
export function knownWell(experiment: Experiment, sums: readonly PointTallies[]): number[] {
  const wanted = experiment.halfWidth ?? 0
  const rates = sums.map(({ tallies, pose }) => saveShareOf(tallies, pose, ALL_SPOTS))
  const known = experiment.points.flatMap(({ index }) => {
    const base = comparedWith(experiment, index)
    const { low, high } =
      experiment.judged === "difference"
        ? differenceOf(experiment, rates[index]!, rates[base]!, commonShots(sums, [index, base]))
        : estimateOf(experiment, rates[index]!, sums[index]!.shots)
    return 0.5 * (high - low) <= wanted ? [index] : []
  })
  return experiment.judged === "difference" && known.length < experiment.points.length ? [] : known
}

/** Half-width of what a file waits for at one point; null where the point has no such figure. */
export function halfWidthAt({ judged }: Experiment, { estimates, differences }: PointResult): number | null {
  const found = judged === "difference" ? differences.save_rate : estimates.save_rate
  return found === undefined ? null : 0.5 * (found.high - found.low)
}

/** Says of each point whether it is known as well as wanted, or what ended it before; nothing where nothing is wanted. */
export function withStops(
  points: readonly PointResult[],
  experiment: Experiment,
  stoppedBy: string,
): readonly PointResult[] {
  const { halfWidth } = experiment
  if (halfWidth === null) return points
  return points.map((point) => {
    const half = halfWidthAt(experiment, point)
    if (half === null || point.spot !== "all") return point
    return { ...point, stoppedBy: half <= halfWidth ? "half-width" : stoppedBy }
  })
}
