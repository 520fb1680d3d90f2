import { basename, dirname, join } from "node:path"
import { type Disk, thisDisk } from "./disk.ts"
import { outputError } from "./output-error.ts"

/** A file of a run: path below the output folder, with forward slashes, and its bytes. */
export interface RunFile {
  readonly path: string
  readonly content: Uint8Array
}

/** A file of a run that lies whole on the same disk already. */
export interface WrittenFile {
  readonly path: string
  readonly from: string
}

/**
 * Writes all files beside their places and only then renames them into place, so that a full disk or a killed run
 * leaves the files of the earlier run whole. Throws {@link OutputError}; files that lay written already stay there then.
 */
export async function writeIntoPlace(
  folder: string,
  files: readonly (RunFile | WrittenFile)[],
  disk: Disk = thisDisk,
): Promise<void> {
  const moves = files.map((file) => ({
    from: "from" in file ? file.from : besideOf(join(folder, file.path)),
    to: join(folder, file.path),
    content: "content" in file ? file.content : null,
  }))
  try {
    // a rename that fails half-way would leave new files beside old ones: what can be known is asked before
    for (const { to } of moves) await attempt(to, () => disk.takesFile(to))
    for (const { from, to, content } of moves) {
      await attempt(dirname(to), () => disk.makeFolder(dirname(to)))
      if (content !== null) await attempt(to, () => disk.write(from, content))
    }
    for (const { from, to } of moves) await attempt(to, () => disk.rename(from, to))
  } catch (failure) {
    await Promise.allSettled(moves.filter(({ content }) => content !== null).map(({ from }) => disk.remove(from)))
    throw failure
  }
}

/** Files every run writes. */
const RUN_FILES = ["results.csv", "results.json", "results.parquet", "report.html", "manifest.json"]

/** Makes the folder and proves that a file can be written there, before the first shot is spent; `more` files as well. */
export async function checkOutputFolder(
  folder: string,
  disk: Disk = thisDisk,
  more: readonly string[] = [],
): Promise<void> {
  await attempt(folder, () => disk.makeFolder(folder))
  await attempt(folder, () => disk.writable(folder))
  const trial = join(folder, ".goalmouth.partial")
  try {
    await attempt(folder, () => disk.write(trial, new Uint8Array([10])))
    for (const name of [...RUN_FILES, ...more])
      await attempt(join(folder, name), () => disk.takesFile(join(folder, name)))
  } finally {
    await disk.remove(trial).catch(() => undefined)
  }
}

/** Same folder, hidden name: a rename within one folder cannot be caught half-way. */
function besideOf(path: string): string {
  return join(dirname(path), `.${basename(path)}.partial`)
}

async function attempt(path: string, action: () => Promise<void>): Promise<void> {
  try {
    await action()
  } catch (cause) {
    throw outputError(path, cause)
  }
}
