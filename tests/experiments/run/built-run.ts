import { type ChildProcess, spawn } from "node:child_process"
import { readdirSync, readFileSync, statSync } from "node:fs"
import { join } from "node:path"
import { fileURLToPath } from "node:url"

export const MAIN = fileURLToPath(new URL("../../../dist/cli/main.js", import.meta.url))

/** Enough shots that the program keeps some before it ends. */
export const LONGER = `question: How far out for a shot from 6 m?
play: { distance: 6 m }
sweep:
  goalie.depth: [0.6 m, 1.4 m]
shots: 40960
seed: northlake longer
charts: [curve]
`

export interface Ended {
  readonly code: number | null
  readonly err: string
}

export interface Started {
  readonly child: ChildProcess
  readonly ended: Promise<Ended>
}

/** Starts `goalmouth run` as a process of its own, without an assumption range. */
export function startRun(file: string, out: string, ...words: string[]): Started {
  const all = [MAIN, "run", file, "--out", out, "--no-assumptions", ...words]
  // some machines ask for colours in pipes
  const env = { ...process.env, NO_COLOR: "1" }
  const child = spawn(process.execPath, all, { stdio: ["ignore", "ignore", "pipe"], env })
  let err = ""
  child.stderr!.on("data", (text) => {
    err += text
  })
  return { child, ended: new Promise((resolve) => child.on("close", (code) => resolve({ code, err }))) }
}

/** Waits until the process has kept something newer than `since`, or has ended. */
export async function keptSomething({ child }: Started, out: string, since = 0): Promise<void> {
  while (child.exitCode === null && child.signalCode === null) {
    const kept = statSync(join(out, ".unfinished", "shots.bin"), { throwIfNoEntry: false })
    if (kept !== undefined && kept.mtimeMs > since) return
    await new Promise((resolve) => setTimeout(resolve, 5))
  }
}

/** Every file of a run's folder but the manifest, by path. */
export function filesOf(folder: string): Record<string, string> {
  const paths = readdirSync(folder, { recursive: true }).map(String).sort()
  const files = paths.filter((path) => statSync(join(folder, path)).isFile() && path !== "manifest.json")
  return Object.fromEntries(files.map((path) => [path, readFileSync(join(folder, path)).toString("base64")]))
}
