import { existsSync } from "node:fs"
import { fileURLToPath } from "node:url"
import type { Piscina } from "piscina"
import type { Tally } from "../../sim/tally.ts"
import type { EncodedRows, KeepTask } from "../keep/row-group.ts"
import { wantedKernel } from "../kernel/load.ts"
import type { Geometry } from "./geometry.ts"
import type { Share } from "./shares.ts"
import {
  type BatchTask,
  type GeometryTask,
  type HalvedTally,
  type RunSetup,
  runBatchTask,
  runGeometryTask,
  runKeepTask,
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
  set(task: SetTask): Promise<HalvedTally>
  share(task: ShareTask): Promise<Share>
  keep(task: KeepTask): Promise<EncodedRows>
  geometry<Kind extends keyof Geometry>(task: GeometryTask<Kind>): Promise<Geometry[Kind]>
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
  // a thread that cannot load would take the whole process with it
  wantedKernel()
  const file = workerFile()
  if (workers <= 1 || file === null) return inlinePool(setup)
  const { Piscina } = await import("piscina")
  const pool = new Piscina({ filename: file, minThreads: workers, maxThreads: workers, workerData: setup })
  // who opens a pool has things of its own to do while the threads load
  const ready = allReady(pool, workers)
  ready.catch(() => {})
  const inHand = new Set<Promise<unknown>>()
  const ask = <Task, Answer>(task: Task, name: string): Promise<Answer> => {
    const answer: Promise<Answer> = ready.then(() => pool.run(task, { name }))
    const settled = () => inHand.delete(answer)
    inHand.add(answer)
    answer.then(settled, settled)
    return answer
  }
  return {
    workers,
    batches: (task) => ask(task, "batches"),
    set: (task) => ask(task, "set"),
    share: (task) => ask(task, "share"),
    keep: (task) => ask(task, "keep"),
    geometry: (task) => ask(task, "geometry"),
    close: async () => {
      // an answer that comes while the threads are ended would be an error of its own, and hide the first
      await Promise.allSettled([ready, ...inHand])
      await pool.destroy()
    },
  }
}

/** Waits until every thread has loaded: one that is ended while it loads can take the whole process with it. */
function allReady(pool: Piscina, workers: number): Promise<void> {
  return new Promise((resolve, reject) => {
    let ready = 0
    pool.on("workerCreate", () => {
      if (++ready === workers) resolve()
    })
    pool.once("error", reject)
  })
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
    keep: async (task) => {
      await breathe()
      return runKeepTask(runner, task)
    },
    geometry: async (task) => {
      await breathe()
      return runGeometryTask(runner, task)
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
