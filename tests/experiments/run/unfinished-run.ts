import { mkdtempSync, rmSync } from "node:fs"
import { writeFile } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import seedrandom from "seedrandom"
import { afterAll, expect } from "vitest"
import type { Experiment } from "../../../src/experiments/experiment.ts"
import { type Overrides, readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import { type Checkpoint, type CheckpointOptions, openCheckpoint } from "../../../src/experiments/run/checkpoint.ts"
import { identityOf } from "../../../src/experiments/run/checkpoint-identity.ts"
import { type RunOptions, runExperiment } from "../../../src/experiments/run/run-experiment.ts"
import { csvOf } from "../../../src/experiments/write/csv.ts"
import { type Disk, thisDisk } from "../../../src/experiments/write/disk.ts"
import { resultsJsonOf } from "../../../src/experiments/write/json.ts"
import { tableOf } from "../../../src/experiments/write/table.ts"

/** A small run of two groups and four points: two instalments of 32 replicates, 128 tasks. */
export const NORTHLAKE = `question: How far out for a shot from 6 m and from 9 m?
play: { angle: 5 deg }
sweep:
  goalie.depth: [0.6 m, 1.4 m]
  play.distance: [6 m, 9 m]
shots: 768
seed: northlake unfinished
charts: [curve]
`
/** One point whose assumption range and sensitivity are asked for as well. */
export const ASSUMED = `question: What does it hang on?
play: { distance: 6 m }
shots: 512
sensitivity: { over: [goalie.stature, play.distance], sets: 32, shots: 512 }
seed: northlake assumed
charts: []
`
const VERSION = "1.2.3"

/** A folder of its own for each test file, removed at its end. */
export function ownFolder(): (name: string) => string {
  const folder = mkdtempSync(join(tmpdir(), "goalmouth-unfinished-"))
  afterAll(() => rmSync(folder, { recursive: true }))
  return (name) => join(folder, name)
}

export function northlake(overrides: Overrides = {}, text = NORTHLAKE): Experiment {
  const read = readExperimentText("northlake.yaml", text, overrides)
  if ("problems" in read) throw new Error(read.problems.map((problem) => problem.text).join("; "))
  return read.experiment
}

/** This machine's disk without the wait for its platters, so that a small run is kept many times. */
const QUICK_DISK: Disk = { ...thisDisk, write: (path, content) => writeFile(path, content) }

/** The checkpoint in a folder, written as often as it can be. */
export async function checkpointIn(
  folder: string,
  options: CheckpointOptions = {},
  experiment = northlake(),
  version = VERSION,
): Promise<Checkpoint> {
  const opened = await openCheckpoint(folder, identityOf(experiment, version), {
    pause: 0,
    disk: QUICK_DISK,
    ...options,
  })
  expect(opened).not.toHaveProperty("differences")
  return (opened as { checkpoint: Checkpoint }).checkpoint
}

/** Why a folder's run cannot be carried on. */
export async function differencesIn(folder: string, experiment: Experiment, version = VERSION): Promise<string> {
  const opened = await openCheckpoint(folder, identityOf(experiment, version))
  return "differences" in opened ? opened.differences.join(", ") : ""
}

export function run(options: Partial<RunOptions>, experiment = northlake()): Promise<RunResults> {
  return runExperiment(experiment, { version: VERSION, workers: 1, assumptions: false, pictures: false, ...options })
}

/** What a run writes of its numbers. */
export function bytesOf(results: RunResults): string {
  return csvOf(tableOf(results)) + resultsJsonOf(results)
}

/** `count` whole numbers from `least` to `most` - 1. */
export function seededNumbers(seed: string, count: number, least: number, most: number): number[] {
  const chance = seedrandom(seed)
  return Array.from({ length: count }, () => least + Math.floor((most - least) * chance()))
}

/** Options that count tasks as they are merged and call `at` once `after` of them are and `ready` says so. */
export function afterTasks(after: number, at: () => void, ready = () => true): Pick<RunOptions, "onProgress"> {
  let tasks = 0
  let called = false
  return {
    onProgress: () => {
      if (++tasks < after || called || !ready()) return
      called = true
      at()
    },
  }
}

/** Options that ask a run to stop once `after` tasks are merged. */
export function interruptedAfter(after: number): Pick<RunOptions, "onProgress" | "interrupted"> {
  let stop = false
  const counted = afterTasks(after, () => {
    stop = true
  })
  return { ...counted, interrupted: () => stop }
}
