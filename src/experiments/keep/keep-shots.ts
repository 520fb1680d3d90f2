import type { SceneOutline } from "../../models/plays/scene.ts"
import type { Experiment } from "../experiment.ts"
import { identityOf } from "../run/checkpoint-identity.ts"
import type { Fired } from "../run/fire.ts"
import type { Group } from "../run/groups.ts"
import { inOrder } from "../run/in-order.ts"
import { shotsInAll } from "../run/point-tallies.ts"
import { answersAhead, type Pool } from "../run/pool.ts"
import type { RunOptions } from "../run/run-options.ts"
import { planOf } from "../run/shot-plan.ts"
import { keptColumns } from "./columns.ts"
import type { KeptFile } from "./kept-file.ts"
import { type KeptLayout, labelOf, layoutOf } from "./layout.ts"
import type { KeepTask } from "./row-group.ts"

/** Rows of one row group at most, where one batch is not already more. */
const ROWS_OF_A_GROUP = 32_768

/**
 * Writes every shot of a run that has come to its end, a row for each point, and returns whether it came to the last: an
 * interruption is answered after the row groups in hand. The shots are fired once more, in the order of their names:
 * each is a function of its name alone, so these are the shots that were added up, and neither what the run adds up nor
 * its speed hangs on whether they are kept.
 */
export async function keepShots(
  experiment: Experiment,
  groups: readonly Group[],
  scenes: readonly SceneOutline[],
  fired: Fired,
  pool: Pool,
  file: KeptFile,
  options: RunOptions,
): Promise<boolean> {
  const layout = layoutOf(experiment, scenes)
  const tasks = [...tasksOf(experiment, groups, fired, layout)]
  const done = await file.begin(JSON.stringify([identityOf(experiment, options.version), fired.shots, layout]))
  const shots = shotsInAll(fired)
  let kept = done
  const finished = await inOrder(tasks.slice(done), {
    ahead: answersAhead(pool),
    run: (task) => pool.keep(task),
    async take(_task, rows) {
      await file.append(rows)
      kept++
      options.onProgress?.(kept / tasks.length, "keeping", Math.round((shots * kept) / tasks.length))
    },
    stop: () => options.interrupted?.() === true,
  })
  if (!finished) return false
  const columns = keptColumns(layout)
  await file.finish(columns, {
    version: options.version,
    seed: experiment.seed,
    question: experiment.question,
    columns: JSON.stringify(Object.fromEntries(columns.map(({ name, about }) => [name, about]))),
  })
  return true
}

/** Group after group, replicate after replicate, cut into whole batches by their number alone. */
function* tasksOf(
  experiment: Experiment,
  groups: readonly Group[],
  fired: Fired,
  layout: KeptLayout,
): Generator<KeepTask> {
  const { batch } = planOf(experiment)
  for (const [group, { points }] of groups.entries()) {
    const labels = points.map((point) => labelOf(experiment, point))
    const ends = points.map((point) => fired.shots[point]! / (fired.replicates * batch))
    const batches = Math.max(...ends)
    const most = Math.max(1, Math.floor(ROWS_OF_A_GROUP / (batch * points.length)))
    const all = batches * fired.replicates
    for (let first = 0; first < all; first += most)
      yield { group, first, count: Math.min(most, all - first), batches, ends, batch, layout, labels }
  }
}
