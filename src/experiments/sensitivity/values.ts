import { BOOTSTRAP, fillUniforms, type SeedKey } from "../../sim/random/streams.ts"
import { planShots, type ShotPlan } from "../../sim/sampling.ts"
import type { SensitivityDesign } from "../../sim/statistics/sensitivity-design.ts"
import type { Ranged } from "../experiment.ts"
import { inOrder } from "../run/in-order.ts"
import { answersAhead, type Pool } from "../run/pool.ts"
import type { Share } from "../run/shares.ts"
import type { ShareTask } from "../run/tasks.ts"

/** A share's sums of every row of a design: [rows x replicates]. */
export interface RowSums {
  readonly above: Float64Array
  readonly below: Float64Array
  readonly replicates: number
}

/** Where the values are found: a design point and what is asked of it. */
export interface Asked {
  readonly group: number
  readonly pose: number
  readonly measure: string
  readonly shots: number
}

/** Tells progress and asks whether to go on. */
export interface Watch {
  readonly onProgress?: (share: number, stage: "sensitivity") => void
  readonly interrupted?: () => boolean
}

/** The share under each of some changes, all on the same shots; null when interrupted. */
export async function sharesUnder(
  changes: readonly Readonly<Record<string, number>>[],
  asked: Asked,
  pool: Pool,
  watch: Watch,
): Promise<Share[] | null> {
  const plan: ShotPlan = planShots(asked.shots)
  const { group, pose, measure } = asked
  const shares: Share[] = []
  const tasks = changes.map((one): ShareTask => ({ ...plan, group, pose, measure, changes: one }))
  const finished = await inOrder(tasks, {
    ahead: answersAhead(pool),
    run: (task) => pool.share(task),
    take(_task, share) {
      shares.push(share)
      watch.onProgress?.(shares.length / changes.length, "sensitivity")
    },
    stop: () => watch.interrupted?.() === true,
  })
  return finished ? shares : null
}

/** Changed quantities of every row of a design, its unit box stretched over the ranges. */
export function changesOf(
  { rows, quantities, points }: SensitivityDesign,
  ranges: readonly Ranged[],
): Record<string, number>[] {
  return Array.from({ length: rows }, (_, row) =>
    Object.fromEntries(
      ranges.map(({ key, low, high }, q) => [key, low + points[row * quantities + q]! * (high - low)] as const),
    ),
  )
}

export function rowSums(shares: readonly Share[]): RowSums {
  const replicates = shares[0]!.above.length
  const above = new Float64Array(shares.length * replicates)
  const below = new Float64Array(shares.length * replicates)
  shares.forEach((share, row) => {
    above.set(share.above, row * replicates)
    below.set(share.below, row * replicates)
  })
  return { above, below, replicates }
}

/** The share of every row, each replicate counted `weights` times. */
export function valuesOf({ above, below, replicates }: RowSums, weights: Float64Array): Float64Array {
  const values = new Float64Array(above.length / replicates)
  for (let row = 0, at = 0; row < values.length; row++) {
    let numerator = 0
    let denominator = 0
    for (let r = 0; r < replicates; r++, at++) {
      numerator += weights[r]! * above[at]!
      denominator += weights[r]! * below[at]!
    }
    values[row] = numerator / denominator
  }
  return values
}

/** How often each replicate counts in one resample: whole replicates drawn again with replacement. */
export function drawnAgain(key: SeedKey, resample: number, replicates: number): Float64Array {
  const uniforms = new Float64Array(replicates)
  fillUniforms(key, 0, BOOTSTRAP, resample, 1, replicates, uniforms)
  const weights = new Float64Array(replicates)
  for (const u of uniforms) {
    const r = Math.floor(u * replicates)
    weights[r] = weights[r]! + 1
  }
  return weights
}
