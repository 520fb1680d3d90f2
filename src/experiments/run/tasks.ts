import { compileScene } from "../../models/plays/scene.ts"
import { type Settings, withSettings } from "../../models/settings.ts"
import type { CompiledKernel } from "../../sim/compiled/kernel.ts"
import { decideConditional } from "../../sim/conditional.ts"
import type { SeedKey } from "../../sim/random/streams.ts"
import { decidePlain } from "../../sim/referee.ts"
import type { Sampler } from "../../sim/sampler.ts"
import { addBatches, type Engine, engine, fireBatches } from "../../sim/sampling.ts"
import { checkTally, emptyTally, type Tally } from "../../sim/tally.ts"
import { type EncodedRows, encodeRows, type KeepTask } from "../keep/row-group.ts"
import { loadKernel } from "../kernel/load.ts"
import { ALL_SPOTS } from "./columns.ts"
import type { Geometry } from "./geometry.ts"
import { type Share, sharesOf } from "./shares.ts"

/** What every worker knows before its first task. Structured-clone safe. */
export interface RunSetup {
  /** Settings of the poses, by group. */
  readonly groups: readonly (readonly Settings[])[]
  readonly key: SeedKey
  readonly batch: number
  /** Where the draws of the shots come from. */
  readonly sampler: Sampler
}

/** Some batches of one replicate, met by some poses of one group, by all unless given. */
export interface BatchTask {
  readonly group: number
  readonly poses?: readonly number[]
  readonly replicate: number
  readonly from: number
  readonly to: number
  readonly estimator: "conditional" | "plain"
}

/** One group under one set of assumed parameters: all its replicates, a few batches each. */
export interface SetTask {
  readonly group: number
  readonly changes: Readonly<Record<string, number>>
  readonly replicates: number
  readonly batches: number
  readonly batch: number
}

/** Tallies of the even replicates and of the odd ones. */
export type HalvedTally = readonly [Tally, Tally]

/** One design point alone under some changed quantities: the sums of one measure. */
export interface ShareTask {
  readonly group: number
  readonly pose: number
  readonly measure: string
  readonly changes: Readonly<Record<string, number>>
  readonly replicates: number
  readonly batches: number
  readonly batch: number
}

/** What is found of one design point without a shot. */
export interface GeometryTask<Kind extends keyof Geometry> {
  readonly group: number
  readonly pose: number
  readonly kind: Kind
}

/** A thread's memory: scenes compiled so far. Held by the caller, never by a module. */
export interface TaskRunner {
  readonly setup: RunSetup
  /** Null where this thread runs the kernel in TypeScript. */
  readonly compiled: CompiledKernel | null
  readonly engines: Map<string, Engine>
}

export function taskRunner(setup: RunSetup): TaskRunner {
  return { setup, compiled: loadKernel(), engines: new Map() }
}

/** Fires the batches of a task; the tally of that replicate. */
export function runBatchTask(runner: TaskRunner, task: BatchTask): Tally {
  const { groups, key, batch } = runner.setup
  const e = engineOf(runner, `${task.group}`, () => groups[task.group]!, batch)
  const decide = task.estimator === "plain" ? decidePlain : decideConditional
  return fireBatches(e, key, task.replicate, task.from, task.to, batch, decide, task.poses)
}

/** Fires batches again and encodes a row for every shot and pose. */
export function runKeepTask(runner: TaskRunner, task: KeepTask): Promise<EncodedRows> {
  const { groups, key, batch } = runner.setup
  const e = engineOf(runner, `${task.group}`, () => groups[task.group]!, batch)
  return encodeRows(e, key, task)
}

/** Fires one group under changed parameters; its tallies over either half of the replicates, the even ones first. */
export function runSetTask(runner: TaskRunner, task: SetTask): HalvedTally {
  const { groups, key, sampler } = runner.setup
  const changed = groups[task.group]!.map((one) => withSettings(one, { quantities: task.changes }))
  const scene = compileScene(changed)
  const e = engine(scene, task.batch, sampler, runner.compiled)
  const halves = [0, 1].map(() => emptyTally(scene.poses.length, scene.spots.length))
  for (let r = 0; r < task.replicates; r++) addBatches(e, key, r, 0, task.batches, task.batch, halves[r % 2]!)
  halves.forEach(checkTally)
  return [halves[0]!, halves[1]!]
}

/** Fires all replicates at one design point with some quantities changed; one measure's sums by replicate. */
export function runShareTask(runner: TaskRunner, task: ShareTask): Share {
  const settings = runner.setup.groups[task.group]![task.pose]!
  const e = engine(
    compileScene([withSettings(settings, { quantities: task.changes })]),
    task.batch,
    runner.setup.sampler,
    runner.compiled,
  )
  const tallies = Array.from({ length: task.replicates }, (_, r) =>
    fireBatches(e, runner.setup.key, r, 0, task.batches, task.batch),
  )
  return sharesOf(tallies, 0, ALL_SPOTS)[task.measure]!
}

/** Finds the geometry of one design point; how is loaded when the first is asked for. */
export async function runGeometryTask<Kind extends keyof Geometry>(
  { setup, compiled }: TaskRunner,
  { group, pose, kind }: GeometryTask<Kind>,
): Promise<Geometry[Kind]> {
  const { GEOMETRY } = await import("./geometry.ts")
  const { key, sampler } = setup
  return GEOMETRY[kind](setup.groups[group]![pose]!, { key, sampler, compiled })
}

function engineOf(runner: TaskRunner, id: string, settings: () => readonly Settings[], batch: number): Engine {
  let e = runner.engines.get(id)
  if (e === undefined) {
    e = engine(compileScene(settings()), batch, runner.setup.sampler, runner.compiled)
    runner.engines.set(id, e)
  }
  return e
}
