import type { PointResult, RunResults } from "../results.ts"
import { ratedPoints, type Summary } from "./finding.ts"
import { percentWithInterval, pointText, rateOf } from "./words.ts"

/** Points of a design are spread to be read by other means: the answer says how many they are and how far they reach. */
export function designSummary(results: RunResults): Summary | null {
  const { design } = results.experiment
  if (design === undefined) return null
  const rate = (point: PointResult): number => rateOf(point)!.mean
  const sorted = ratedPoints(results).toSorted((a, b) => rate(a) - rate(b))
  const [low, high] = [sorted[0], sorted.at(-1)]
  if (low === undefined || high === undefined) return null
  const end = (point: PointResult): string =>
    `${percentWithInterval(rateOf(point)!)} at ${pointText(results.experiment, point.index)}`
  const headline = `Over ${results.experiment.points.length} points of a ${design.kind} design the save rate runs from ${end(low)} to ${end(high)}`
  const findings = [low, high].map((point) => ({
    group: "",
    verdict: "alone" as const,
    measure: "save_rate",
    sentence: `Save rate ${end(point)}`,
    point,
  }))
  return { headline, findings }
}
