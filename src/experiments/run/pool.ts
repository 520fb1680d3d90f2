import { existsSync } from "node:fs"
import { fileURLToPath } from "node:url"
import type { Tally } from "../../sim/tally.ts"
import type { Share } from "./shares.ts"
import {
  type BatchTask,
  type RunSetup,
  runBatchTask,
  runSetTask,
  runShareTask,
  type SetTask,
  type ShareTask,
  taskRunner,
} from "./tasks.ts"

/** Does tasks, here or on threads; answers come back in any order and are used in task order. */
export interface Pool {
  readonly workers: number
  batches(task: BatchTask): Promise<Tally>
  set(task: SetTask): Promise<Tally>
  share(task: ShareTask): Promise<Share>
  close(): Promise<void>
}

/** Answers of each thread that are started and not yet merged at most: enough that none waits, few enough to hold. */
const AHEAD_OF_A_THREAD = 4

/** Tasks to have started and not yet merged; a single thread does one at a time. */
export function answersAhead(pool: Pool): number {
  return pool.workers === 1 ? 1 : AHEAD_OF_A_THREAD * pool.workers
}

/** A pool of `workers` threads; with one, everything is done in this thread, a task at a time. */
export async function openPool(setup: RunSetup, workers: number): Promise<Pool> {
  const file = workerFile()
  if (workers <= 1 || file === null) return inlinePool(setup)
  const { Piscina } = await import("piscina")
  const pool = new Piscina({ filename: file, minThreads: workers, maxThreads: workers, workerData: setup })
  return {
    workers,
    batches: (task) => pool.run(task, { name: "batches" }),
    set: (task) => pool.run(task, { name: "set" }),
    share: (task) => pool.run(task, { name: "share" }),
    close: () => pool.destroy(),
  }
}

function inlinePool(setup: RunSetup): Pool {
  const runner = taskRunner(setup)
  return {
    workers: 1,
    batches: async (task) => {
      await breathe()
      return runBatchTask(runner, task)
    },
    set: async (task) => {
      await breathe()
      return runSetTask(runner, task)
    },
    share: async (task) => {
      await breathe()
      return runShareTask(runner, task)
    },
    close: async () => {},
  }
}

/** Lets signals and progress through between tasks. */
function breathe(): Promise<void> {
  return new Promise((resolve) => setImmediate(resolve))
}

/** The built worker beside this file, or the one in dist when running from source. */
function workerFile(): string | null {
  const beside = fileURLToPath(new URL("./worker.js", import.meta.url))
  if (existsSync(beside)) return beside
  const built = fileURLToPath(new URL("../../../dist/experiments/run/worker.js", import.meta.url))
  return existsSync(built) ? built : null
}
