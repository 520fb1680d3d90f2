import type { Experiment } from "../experiment.ts"
import type { PointResult } from "../results.ts"
import { ALL_SPOTS } from "./columns.ts"
import { differenceOf, estimateOf } from "./intervals.ts"
import type { PointTallies } from "./point-results.ts"
import { sharesOf } from "./shares.ts"

/** Half-width of the widest interval that a file waits for: of the save rates, or of their differences. */
export function widestOf(experiment: Experiment, sums: readonly PointTallies[], shots: number): number {
  const rates = sums.map(({ tallies, pose }) => sharesOf(tallies, pose, ALL_SPOTS).save_rate!)
  let most = 0
  for (const { index } of experiment.points) {
    const base = experiment.baselineOf?.[index] ?? experiment.baseline
    const { low, high } =
      experiment.judged === "difference"
        ? differenceOf(experiment, rates[index]!, rates[base]!, shots)
        : estimateOf(experiment, rates[index]!, shots)
    most = Math.max(most, 0.5 * (high - low))
  }
  return most
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
