import { QUANTITIES } from "../../models/settings.ts"
import type { Estimate } from "../../sim/estimate.ts"
import { planShots } from "../../sim/sampling.ts"
import { differenceOverReplicates } from "../../sim/statistics/difference.ts"
import type { Experiment, Ranged } from "../experiment.ts"
import { CONFIDENCE } from "../run/intervals.ts"
import type { Pool } from "../run/pool.ts"
import type { Share } from "../run/shares.ts"
import type { Gain } from "./finding.ts"
import { type Trainable, trainableOf } from "./training.ts"
import { type Asked, sharesUnder, type Watch } from "./values.ts"

/** By how much better: a tenth, which a season of practice may bring. */
const BETTER = 0.1
/** Shots behind each value at most: few values, so each can have many. */
const MOST_SHOTS = 32_768

/** Gains by quantity, null for those that no training changes, and the shots behind each. */
export interface Gains {
  readonly list: readonly (Gain | null)[]
  readonly shots: number
}

/**
 * What each trained quantity is worth when it alone becomes a tenth better than the goalie's own: the paired difference
 * of save rates on the same shots. Null when interrupted.
 */
export async function gainsOf(
  experiment: Experiment,
  ranges: readonly Ranged[],
  at: Asked,
  pool: Pool,
  watch: Watch,
): Promise<Gains | null> {
  const today = experiment.points[experiment.baseline]!.settings.quantities
  const steps = ranges.flatMap(({ key }, index) => {
    const trained = trainableOf(key)
    return trained === undefined ? [] : [{ index, key, from: today[key], to: betterOf(trained, today[key]) }]
  })
  const list: (Gain | null)[] = ranges.map(() => null)
  if (steps.length === 0) return { list, shots: 0 }
  const wanted = Math.min(experiment.shots, MOST_SHOTS)
  const changes = [{}, ...steps.map(({ key, to }) => ({ [key]: to }))]
  const shares = await sharesUnder(changes, { ...at, measure: "save_rate", shots: wanted }, pool, watch)
  if (shares === null) return null
  const { shots } = planShots(wanted)
  const less = (a: Share, b: Share): Estimate =>
    differenceOverReplicates(a.above, a.below, b.above, b.below, shots, CONFIDENCE)
  const gains = steps.map(({ index, from, to }, i) => ({
    index,
    from,
    to,
    share: shares[i + 1]!,
    change: less(shares[i + 1]!, shares[0]!),
  }))
  const best = gains.reduce((top, gain) => (gain.change.mean > top.change.mean ? gain : top))
  for (const gain of gains) {
    const { index, from, to, change } = gain
    list[index] = { from, to, change, behind: gain === best ? null : less(best.share, gain.share) }
  }
  return { list, shots }
}

/** A tenth less or more, within what the quantity may be. */
function betterOf({ key, better }: Trainable, today: number): number {
  const { least, most } = QUANTITIES[key]
  return Math.min(most, Math.max(least, today * (better === "less" ? 1 - BETTER : 1 + BETTER)))
}
