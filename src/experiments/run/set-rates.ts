import type { SeedKey } from "../../sim/random/streams.ts"
import { planShots } from "../../sim/sampling.ts"
import type { Experiment } from "../experiment.ts"
import { ratedBy } from "../rated.ts"
import { ASSUMPTION_SETS, assumedKeys, assumptionSets, goalsOf, ratesOf, type UnderSets } from "./assumptions.ts"
import type { Group } from "./groups.ts"
import { inOrder } from "./in-order.ts"
import { answersAhead, type Pool } from "./pool.ts"
import type { RunOptions } from "./run-options.ts"

/** Shots of each point under each set of assumed parameters: departures on the same shots need few. */
const LEAST_OF_A_SET = 512
const MOST_OF_A_SET = 2048
/** Shots against poses that all sets together may take, so that many points do not make a quick look slow. */
const WORK_OF_SETS = 1_600_000

/**
 * Rates of every point, as the file rates them, and goals over all attempts, under every set of assumed parameters, on the
 * same shots; row 0 is the default. Null when interrupted before the last set.
 */
export async function ratesUnderSets(
  experiment: Experiment,
  groups: readonly Group[],
  pool: Pool,
  key: SeedKey,
  options: RunOptions,
): Promise<UnderSets | null> {
  const points = experiment.points.length
  const { replicates, batches, batch } = planShots(Math.min(shotsOfASet(points), experiment.shots))
  const sets = assumptionSets(assumedKeys(experiment), key)
  const numbers = new Float64Array(2 * sets.length * points)
  const rows = Array.from({ length: 2 * sets.length }, (_, row) => numbers.subarray(row * points, (row + 1) * points))
  const [rates, goals] = [rows.slice(0, sets.length), rows.slice(sets.length)]
  const found = options.checkpoint?.found("assumptions", numbers.length) ?? null
  if (found !== null) numbers.set(found.numbers)
  const all = sets.length * groups.length
  const state = { merged: found?.state.merged ?? 0 }
  const tasks = Array.from({ length: all }, (_, task) => ({
    set: Math.floor(task / groups.length),
    group: task % groups.length,
  }))
  const finished = await inOrder(tasks.slice(state.merged), {
    ahead: answersAhead(pool),
    run: ({ set, group }) => pool.set({ changes: sets[set]!, group, replicates, batches, batch }),
    take({ set, group }, tally) {
      ratesOf(groups[group]!, tally, ratedBy(experiment), rates[set]!)
      goalsOf(groups[group]!, tally, goals[set]!)
      state.merged++
      const shots = (state.merged / groups.length) * replicates * batches * batch * points
      options.onProgress?.(state.merged / all, "assumptions", Math.round(shots))
      options.checkpoint?.keep("assumptions", { ...state }, () => [numbers])
    },
    stop: () => options.interrupted?.() === true,
  })
  await options.checkpoint?.seal("assumptions", { ...state }, () => [numbers], !finished)
  return finished ? { rates, goals } : null
}

/** Shots of each point under one set: a power of two that keeps the work of all sets in bounds. */
function shotsOfASet(points: number): number {
  const affordable = WORK_OF_SETS / (ASSUMPTION_SETS * points)
  let shots = MOST_OF_A_SET
  while (shots > LEAST_OF_A_SET && shots > affordable) shots /= 2
  return shots
}
