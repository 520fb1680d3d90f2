import type { SeedKey } from "../../sim/random/streams.ts"
import { planShots } from "../../sim/sampling.ts"
import { mergeTally, type Tally } from "../../sim/tally.ts"
import type { Experiment } from "../experiment.ts"
import { ratedBy } from "../rated.ts"
import type { HalvedRows, SetRows } from "./assumption-range.ts"
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

/** Of each rate: after all shots, and after either half of them. */
const PARTS = 3

/**
 * Rates of every point, as the file rates them, and goals over all attempts, under every set of assumed parameters, on the
 * same shots; row 0 is the default. `fired` is how many shots the run itself has fired, over all points. Null when
 * interrupted before the last set.
 */
export async function ratesUnderSets(
  experiment: Experiment,
  groups: readonly Group[],
  pool: Pool,
  key: SeedKey,
  fired: number,
  options: RunOptions,
): Promise<UnderSets | null> {
  const points = experiment.points.length
  const { replicates, batches, batch } = planShots(Math.min(shotsOfASet(points, fired), experiment.shots))
  const sets = assumptionSets(assumedKeys(experiment), key)
  const tables = 2 * PARTS
  const numbers = new Float64Array(tables * sets.length * points)
  const rows = Array.from({ length: tables * sets.length }, (_, row) =>
    numbers.subarray(row * points, (row + 1) * points),
  )
  const table = (at: number): SetRows => rows.slice(at * sets.length, (at + 1) * sets.length)
  const shots = replicates * batches * batch
  const halved = (at: number): HalvedRows => ({ whole: table(at), halves: [table(at + 1), table(at + 2)], shots })
  const under: UnderSets = { rates: halved(0), goals: halved(PARTS) }
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
    take({ set, group }, [even, odd]) {
      const write = (tally: Tally, rowsOf: (rows: HalvedRows) => SetRows): void => {
        ratesOf(groups[group]!, tally, ratedBy(experiment), rowsOf(under.rates)[set]!)
        goalsOf(groups[group]!, tally, rowsOf(under.goals)[set]!)
      }
      write(even, ({ halves }) => halves[0])
      write(odd, ({ halves }) => halves[1])
      mergeTally(even, odd)
      write(even, ({ whole }) => whole)
      state.merged++
      options.onProgress?.(
        state.merged / all,
        "assumptions",
        Math.round((state.merged / groups.length) * shots * points),
      )
      options.checkpoint?.keep("assumptions", { ...state }, () => [numbers])
    },
    stop: () => options.interrupted?.() === true,
  })
  await options.checkpoint?.seal("assumptions", { ...state }, () => [numbers], !finished)
  return finished ? under : null
}

/**
 * Shots of each point under one set: a power of two that keeps the work of all sets in bounds. A run that took more work
 * than that itself gives its sets up to as much.
 */
export function shotsOfASet(points: number, fired: number): number {
  const affordable = WORK_OF_SETS / (ASSUMPTION_SETS * points)
  let shots = MOST_OF_A_SET
  while (shots > LEAST_OF_A_SET && shots > affordable) shots /= 2
  while (2 * shots * ASSUMPTION_SETS * points <= fired) shots *= 2
  return shots
}
