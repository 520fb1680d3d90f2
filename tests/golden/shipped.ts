import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { basename } from "node:path"
import { fileURLToPath } from "node:url"
import type { Experiment } from "../../src/experiments/experiment.ts"
import { readExperiment } from "../../src/experiments/read/read-experiment.ts"
import { shippedExperiments } from "../../src/experiments/shipped.ts"

/** Shots of each design point: enough for every column to be told from nothing, and a second for each experiment. */
const SHOTS = 2048
const FEW_VALUES = { sets: 8, shots: 512 }

/** Every experiment that ships, few shots, its own seed. Throws when one does not read. */
export function shipped(): Experiment[] {
  return shippedExperiments().map(({ path }) => {
    const read = readExperiment(path, { shots: String(SHOTS) })
    if ("problems" in read) throw new Error(`${basename(path)}: ${read.problems.map(({ text }) => text).join("; ")}`)
    return withFewValues(read.experiment)
  })
}

/** What a result hangs on from few values: enough to see that one has changed. */
function withFewValues(experiment: Experiment): Experiment {
  const { sensitivity } = experiment
  return sensitivity === undefined ? experiment : { ...experiment, sensitivity: { ...sensitivity, ...FEW_VALUES } }
}

/** The experiment with some of its design points alone, the first of them the baseline; nothing is swept any more. */
export function pointsOnly(experiment: Experiment, indices: readonly number[]): Experiment {
  const { baselineOf: _baselineOf, sensitivity: _sensitivity, ...rest } = experiment
  const points = indices.map((index, i) => ({ ...experiment.points[index]!, index: i }))
  return { ...rest, points, baseline: 0, halfWidth: null }
}

/** A file beside this one. */
function beside(path: string): string {
  return fileURLToPath(new URL(path, import.meta.url))
}

/** Expected text of an experiment's folder, null where there is none yet. */
export function expectedText(name: string, file: string): string | null {
  const path = beside(`${name}/${file}`)
  return existsSync(path) ? readFileSync(path, "utf8") : null
}

/** Writes what is expected from now on, or with `changed` what was found instead, beside the expected file. */
export function writeText(name: string, file: string, text: string, changed: boolean): string {
  mkdirSync(beside(name), { recursive: true })
  const path = beside(`${name}/${changed ? changedName(file) : file}`)
  writeFileSync(path, text)
  return path
}

/** Removes what an earlier mismatch left behind. */
export function forgetChanged(name: string, file: string): void {
  rmSync(beside(`${name}/${changedName(file)}`), { force: true })
}

function changedName(file: string): string {
  return file.replace(/(\.\w+)$/, "-changed$1")
}

/**
 * What the last digits of a result hang on: sin, exp and log are not the same bits in every engine, and a compiler for
 * another processor may fuse a product and a sum.
 */
export function runtime(): string {
  return `${process.versions.v8.split(".").slice(0, 2).join(".")} ${process.arch}`
}
