import { spawnSync } from "node:child_process"
import { mkdtempSync, rmSync } from "node:fs"
import { loadavg, tmpdir } from "node:os"
import { join } from "node:path"
import { fileURLToPath } from "node:url"
import { interleaved, wallSeconds } from "./clock.mjs"

const PROGRAM = fileURLToPath(new URL("../dist/cli/main.js", import.meta.url))
const SMALL = fileURLToPath(new URL("../experiments/depth-straight-shots.yaml", import.meta.url))
const TWENTY = fileURLToPath(new URL("twenty-depths.yaml", import.meta.url))

/**
 * Wall seconds of a fresh process, medians of interleaved rounds: the bare interpreter, the help, a small run, and twenty
 * depths to half a point with three charts and the report, without and with the assumption range.
 */
export function coldStart(rounds) {
  const out = mkdtempSync(join(tmpdir(), "goalmouth-bench-"))
  const run = (file, ...words) => [PROGRAM, "run", file, ...words, "--quiet", "--out", out]
  const jobs = [
    ["-e", "0"],
    [PROGRAM, "--help"],
    run(SMALL, "--shots", "2000", "--no-assumptions"),
    run(TWENTY, "--no-assumptions"),
    run(TWENTY),
  ]
  try {
    const [bare, help, small, twenty, assumed] = interleaved(
      jobs.map((words) => () => fresh(words)),
      rounds,
      1,
    )
    return { bare, help, run: small, twenty, assumed }
  } finally {
    rmSync(out, { recursive: true, force: true })
  }
}

function fresh(words) {
  const from = wallSeconds()
  const { status, stderr } = spawnSync(process.execPath, words, { encoding: "utf8" })
  if (status !== 0) throw new Error(`Cannot time a run as it must end well: current status is ${status}\n${stderr}`)
  return wallSeconds() - from
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const before = loadavg()[0]
  for (const [name, seconds] of Object.entries(coldStart(9)))
    process.stdout.write(`${name}: ${(1000 * seconds).toFixed(0)} ms\n`)
  process.stdout.write(`Load of the machine ${before.toFixed(1)} before, ${loadavg()[0].toFixed(1)} after\n`)
}
