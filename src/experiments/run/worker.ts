import { workerData } from "node:worker_threads"
import type { KeepTask } from "../keep/row-group.ts"
import type { Geometry } from "./geometry.ts"
import {
  type BatchTask,
  type GeometryTask,
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

/** Entry of one worker thread: compiles the scenes it is asked for once and answers tasks. */
const runner = taskRunner(workerData as RunSetup)

export function batches(task: BatchTask) {
  return runBatchTask(runner, task)
}

export function set(task: SetTask) {
  return runSetTask(runner, task)
}

export function geometry(task: GeometryTask<keyof Geometry>) {
  return runGeometryTask(runner, task)
}

export function keep(task: KeepTask) {
  return runKeepTask(runner, task)
}

export function share(task: ShareTask) {
  return runShareTask(runner, task)
}
