import { readFile, rmdir } from "node:fs/promises"
import { join } from "node:path"
import { type Disk, thisDisk } from "../write/disk.ts"
import { outputError } from "../write/output-error.ts"
import { bytesOfKept, type Kept, keptOfBytes } from "./checkpoint-file.ts"
import { differencesOf, type Identity } from "./checkpoint-identity.ts"

/** Folder below that of the run. */
export const UNFINISHED = ".unfinished"
/** What lies there beside the stages: the growing file of kept shots, see keep/kept-file.ts. */
const KEPT = ["shots.parquet", "shots.journal"]
/** Stages of a run, a file each: the first holds all sums, the others are small and change after it is final. */
const STAGES = ["shots", "assumptions", "sensitivity"] as const
export type Stage = (typeof STAGES)[number]
/** Milliseconds between writes at least. */
const USUAL_PAUSE = 1000
/** The first pause is this part of the usual one. */
const FIRST_PAUSE = 0.25
/** A write that took long is followed by a pause this many times as long, so that keeping costs a few percent at most. */
const PAUSE_FOR_COST = 30

/** Keeps what a run has done on disk while it goes on, so that the same command can carry on. */
export interface Checkpoint {
  /** Whether anything of an earlier run is carried on. */
  readonly carriesOn: boolean
  /** What an earlier run got to in a stage; null when nothing, or when it holds another number of numbers. */
  found(stage: Stage, length?: number): Kept | null
  /** Writes the stage if the last write is long enough ago. The numbers may change as soon as this returns. */
  keep(stage: Stage, state: Kept["state"], numbers: () => readonly Float64Array[]): void
  /** As {@link keep}, at the end of a stage or, with `always`, of a run that was interrupted; returns when on disk. */
  seal(stage: Stage, state: Kept["state"], numbers: () => readonly Float64Array[], always: boolean): Promise<void>
  /** Removes all of it once the run's results are in place. */
  remove(): Promise<void>
}

export interface CheckpointOptions {
  /** Remove what an earlier run left. */
  readonly fresh?: boolean
  /** Told of damaged files, and of a disk that takes none. */
  readonly warn?: (text: string) => void
  readonly disk?: Disk
  /** Milliseconds between writes at least; 0 writes at every task. */
  readonly pause?: number
}

/** Opens what an unfinished run left in a run's folder; `differences` says why it cannot be carried on. */
export async function openCheckpoint(
  folder: string,
  identity: Identity,
  options: CheckpointOptions = {},
): Promise<{ readonly checkpoint: Checkpoint } | { readonly differences: readonly string[] }> {
  const disk = options.disk ?? thisDisk
  const place = join(folder, UNFINISHED)
  const warn = options.warn ?? (() => undefined)
  if (options.fresh === true) await removeAll(place, disk)
  const kept = new Map<Stage, Kept>()
  for (const stage of STAGES) {
    const read = await readStage(fileOf(place, stage))
    if (read === null) continue
    if (read === "format") return { differences: ["program version"] }
    if (read === "damaged") {
      warn(`${fileOf(place, stage)} is damaged and not used; what it held is done again`)
      continue
    }
    const differences = differencesOf(read.identity, identity)
    if (differences.length > 0) return { differences }
    kept.set(stage, read)
  }
  const keeper = keeperOf(place, identity, disk, warn, options.pause ?? USUAL_PAUSE)
  const found = (stage: Stage, length?: number) => {
    const read = kept.get(stage)
    return read !== undefined && read.numbers.length === (length ?? read.numbers.length) ? read : null
  }
  return { checkpoint: { carriesOn: kept.size > 0, found, ...keeper, remove: () => removeAll(place, disk) } }
}

function keeperOf(
  place: string,
  identity: Identity,
  disk: Disk,
  warn: (text: string) => void,
  pause: number,
): Pick<Checkpoint, "keep" | "seal"> {
  let writing: Promise<void> | null = null
  let last = performance.now()
  // the first comes early, so that a short run has one at all
  let due = last + FIRST_PAUSE * pause
  let warned = false

  const write = async (stage: Stage, bytes: Uint8Array, began: number) => {
    const to = fileOf(place, stage)
    try {
      await writeWhole(to, place, bytes, disk)
      warned = false
    } catch (cause) {
      if (!warned) warn(`${outputError(to, cause).message}; the run goes on, and this is tried again`)
      warned = true
    }
    last = performance.now()
    due = last + pause * Math.max(1, (PAUSE_FOR_COST * (last - began)) / USUAL_PAUSE)
    writing = null
  }
  const begin: Checkpoint["keep"] = (stage, state, numbers) => {
    const began = performance.now()
    writing = write(stage, bytesOfKept(identity, state, numbers()), began)
  }
  return {
    keep(stage, state, numbers) {
      if (writing === null && performance.now() >= due) begin(stage, state, numbers)
    },
    async seal(stage, state, numbers, always) {
      await writing
      if (always || performance.now() >= last + pause) begin(stage, state, numbers)
      await writing
    },
  }
}

/** Written beside and renamed: whenever the power goes, there is the old file or the new one. */
async function writeWhole(to: string, place: string, bytes: Uint8Array, disk: Disk): Promise<void> {
  const beside = besideOf(to)
  try {
    await disk.makeFolder(place)
    await disk.write(beside, bytes)
    await disk.rename(beside, to)
  } catch (cause) {
    await disk.remove(beside).catch(() => undefined)
    throw cause
  }
}

async function readStage(path: string): Promise<Kept | "damaged" | "format" | null> {
  const bytes = await readFile(path).catch((cause: NodeJS.ErrnoException) => (cause.code === "ENOENT" ? null : cause))
  if (bytes === null) return null
  return bytes instanceof Uint8Array ? keptOfBytes(bytes) : "damaged"
}

async function removeAll(place: string, disk: Disk): Promise<void> {
  const files = STAGES.map((stage) => fileOf(place, stage))
  const all = [...files, ...files.map(besideOf), ...KEPT.map((name) => join(place, name))]
  for (const path of all) await disk.remove(path).catch(() => undefined)
  // a folder that holds something else is left
  await rmdir(place).catch(() => undefined)
}

function fileOf(place: string, stage: Stage): string {
  return join(place, `${stage}.bin`)
}

function besideOf(path: string): string {
  return `${path}.partial`
}
