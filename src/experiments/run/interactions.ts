import { type Arm, contrastOverReplicates } from "../../sim/statistics/contrast.ts"
import type { Experiment } from "../experiment.ts"
import type { AssumptionRange, Interaction } from "../results.ts"
import { type HalvedRows, rangeUnder } from "./assumption-range.ts"
import { CONFIDENCE } from "./intervals.ts"
import { commonShots, type PointTallies, sharesAfter } from "./point-tallies.ts"

/** Four points: the change left out and made in one circumstance, then in the other. */
type Square = readonly [number, number, number, number]

/** The change in the second circumstance less that in the first. */
const SIGNS = [1, -1, -1, 1] as const

/**
 * The interactions a file asks for, in save rates: how much more a change is worth in one circumstance than in another.
 * `rates` is of the assumption sets; null where none were drawn.
 */
export function interactionFindings(
  { interactions }: Experiment,
  sums: readonly PointTallies[],
  rates: HalvedRows | null,
): Interaction[] {
  return (interactions ?? []).flatMap((asked, place) =>
    asked.of.map(({ where, points }) => {
      const before = interactions![place - 1]
      const same = before?.key === asked.key && before.from === asked.from && before.to === asked.to
      const previous = same ? before.of.find((one) => one.where === where)?.points : undefined
      const shots = commonShots(sums, [...points, ...(previous ?? [])])
      const own = armsOf(sums, points, SIGNS, shots)
      const estimate = (arms: readonly Arm[]) => contrastOverReplicates(arms, shots, CONFIDENCE)
      const difference = estimate(own)
      return {
        name: asked.name,
        key: asked.key,
        from: asked.from,
        to: asked.to,
        between: asked.between,
        where,
        points,
        effects: [
          estimate(armsOf(sums, points, [-1, 1, 0, 0], shots)),
          estimate(armsOf(sums, points, [0, 0, -1, 1], shots)),
        ] as const,
        difference,
        assumptions: rangeOf(difference.mean, points, rates),
        sincePrevious:
          previous === undefined
            ? null
            : estimate([...own, ...armsOf(sums, previous, SIGNS.map((sign) => -sign) as unknown as Square, shots)]),
      }
    }),
  )
}

/** Save rates of four points, after the shots that all have met, with their weights; those that do not count are left out. */
function armsOf(sums: readonly PointTallies[], points: Square, weights: Square, shots: number): Arm[] {
  return points.flatMap((point, i) => {
    const { above, below } = sharesAfter(sums[point]!, shots).save_rate!
    return weights[i] === 0 ? [] : [{ above, below, weight: weights[i]! }]
  })
}

function rangeOf(mean: number, points: Square, rates: HalvedRows | null): AssumptionRange | null {
  if (rates === null) return null
  return rangeUnder(rates, mean, (row) => points.reduce((sum, point, i) => sum + SIGNS[i]! * row[point]!, 0))
}
