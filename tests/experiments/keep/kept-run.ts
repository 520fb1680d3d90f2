import { readFile } from "node:fs/promises"
import { parquetMetadata, parquetReadObjects } from "hyparquet"
import { type Experiment, samplingOf } from "../../../src/experiments/experiment.ts"
import { keepShots } from "../../../src/experiments/keep/keep-shots.ts"
import { keptFile } from "../../../src/experiments/keep/kept-file.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import type { Fired } from "../../../src/experiments/run/fire.ts"
import { groupPoints } from "../../../src/experiments/run/groups.ts"
import { openPool } from "../../../src/experiments/run/pool.ts"
import type { RunOptions } from "../../../src/experiments/run/run-experiment.ts"
import { planOf } from "../../../src/experiments/run/shot-plan.ts"
import { seedKey } from "../../../src/experiments/seed.ts"
import type { Disk } from "../../../src/experiments/write/disk.ts"
import { compileScene } from "../../../src/models/plays/scene.ts"
import { run } from "../run/unfinished-run.ts"

/** Six groups of shots, so six row groups of a few hundred rows, soon made. */
export const SIX_GROUPS = `question: Where from which distance?
play: { angle: 5 deg }
goalie: none
sweep:
  play.distance: [4 m, 5 m, 6 m, 7 m, 8 m, 9 m]
shots: 512
seed: northlake kept
charts: []
`

/** A run that keeps its shots in a folder. */
export function keptRun(
  folder: string,
  experiment: Experiment,
  options: Partial<RunOptions> = {},
  disk?: Disk,
): Promise<RunResults> {
  return run({ keepShots: keptFile(folder, disk), ...options }, experiment)
}

/** Only the keeping of a run that has fired all its shots; false when it was interrupted. */
export async function keepAlone(
  folder: string,
  experiment: Experiment,
  options: Partial<RunOptions> = {},
  disk?: Disk,
): Promise<boolean> {
  const all: RunOptions = { version: "1.2.3", workers: 1, assumptions: false, ...options }
  const groups = groupPoints(experiment.points)
  const scenes = groups.map(({ settings }) => compileScene(settings))
  const { batch, shots: most, replicates } = planOf(experiment)
  const setup = {
    groups: groups.map(({ settings }) => settings),
    key: seedKey(experiment.seed),
    batch,
    sampler: samplingOf(experiment),
  }
  const pool = await openPool(setup, all.workers)
  try {
    const shots = experiment.points.map(() => most)
    const fired: Fired = { tallies: [], shots, earlier: [], most, replicates, stoppedBy: "shots" }
    return await keepShots(experiment, groups, scenes, fired, pool, keptFile(folder, disk), all)
  } finally {
    await pool.close()
  }
}

export function bytesKept(folder: string): Promise<Buffer> {
  return readFile(keptFile(folder).path)
}

/** A row as an independent reader finds it. */
export type KeptRow = Readonly<Record<string, number | string | boolean | null>>

export async function rowsKept(folder: string): Promise<KeptRow[]> {
  return (await parquetReadObjects({ file: await arrayOf(folder) })) as KeptRow[]
}

export async function endOfKept(folder: string): Promise<ReturnType<typeof parquetMetadata>> {
  return parquetMetadata(await arrayOf(folder))
}

async function arrayOf(folder: string): Promise<ArrayBuffer> {
  return new Uint8Array(await bytesKept(folder)).buffer
}
