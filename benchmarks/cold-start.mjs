import { spawnSync } from "node:child_process"
import { mkdtempSync, rmSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { fileURLToPath } from "node:url"
import { interleaved, wallSeconds } from "./clock.mjs"

const PROGRAM = fileURLToPath(new URL("../dist/cli/main.js", import.meta.url))
const EXPERIMENT = fileURLToPath(new URL("../experiments/depth-straight-shots.yaml", import.meta.url))

/** Wall seconds of a fresh process, medians: the bare interpreter, the help, and a small run without pictures. */
export function coldStart(rounds) {
  const out = mkdtempSync(join(tmpdir(), "goalmouth-bench-"))
  try {
    const small = [PROGRAM, "run", EXPERIMENT, "--shots", "2000", "--no-assumptions", "--out", out]
    const [bare, help, run] = interleaved(
      [() => fresh(["-e", "0"]), () => fresh([PROGRAM, "--help"]), () => fresh(small)],
      rounds,
      1,
    )
    return { bare, help, run }
  } finally {
    rmSync(out, { recursive: true, force: true })
  }
}

function fresh(parameters) {
  const from = wallSeconds()
  const { status, stderr } = spawnSync(process.execPath, parameters, { encoding: "utf8" })
  if (status !== 0) throw new Error(`Cannot time a run as it must end well: current status is ${status}\n${stderr}`)
  return wallSeconds() - from
}
