import { spawnSync } from "node:child_process"
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs"
import { loadavg, tmpdir } from "node:os"
import { join } from "node:path"
import { fileURLToPath } from "node:url"
import { median } from "./clock.mjs"

/**
 * Peak memory of a whole run, threads included, at few shots and at many: sums do not grow with the shots, so neither
 * may the memory. The cheapest play there is, so that many shots are soon fired. Say `--few`, `--many`, `--rounds`,
 * `--kept` for other numbers; of a run that keeps its shots the few are `--kept`, the many ten times as many: the first row groups warm the threads up.
 */
const PROGRAM = fileURLToPath(new URL("../dist/cli/main.js", import.meta.url))
const PLAY = `question: How much memory does it take?
goalie: none
shooter.aim: point
seed: northlake memory
charts: [bars]
`
/** By how much the memory at many shots may be above that at few. */
const ALLOWED = 0.2

function given(name, usual) {
  const at = process.argv.indexOf(`--${name}`)
  return at < 0 ? usual : Number(process.argv[at + 1])
}

/** Peak resident megabytes of one run of so many shots. */
function peakOf(folder, shots, flags) {
  const told = join(folder, "peak")
  const teller = join(folder, "teller.mjs")
  writeFileSync(
    teller,
    `import { writeFileSync } from "node:fs"
    import { isMainThread } from "node:worker_threads"
    if (isMainThread) process.on("exit", () => writeFileSync(${JSON.stringify(told)}, String(process.resourceUsage().maxRSS)))`,
  )
  const file = join(folder, "memory.yaml")
  writeFileSync(file, PLAY)
  const words = ["run", file, "--shots", String(shots), "--no-assumptions", "--workers", "2", "--quiet", "--fresh"]
  const out = join(folder, "out")
  const all = ["--import", teller, PROGRAM, ...words, ...flags, "--out", out]
  const { status, stderr } = spawnSync(process.execPath, all, { encoding: "utf8" })
  if (status !== 0) throw new Error(`Cannot measure a run as it must end well: current status is ${status}\n${stderr}`)
  const megabytes = Number(readFileSync(told, "utf8")) / 1024
  return { megabytes, file: statSync(join(out, "shots.parquet"), { throwIfNoEntry: false })?.size ?? 0 }
}

/** Medians of interleaved rounds, few and many, and what many take more. */
function growth(folder, few, many, rounds, flags) {
  const peaks = [[], []]
  let file = 0
  for (let round = 0; round < rounds; round++)
    for (const [i, shots] of [few, many].entries()) {
      const peak = peakOf(folder, shots, flags)
      peaks[i].push(peak.megabytes)
      file = peak.file
    }
  const [atFew, atMany] = peaks.map(median)
  return { atFew, atMany, more: atMany / atFew - 1, file }
}

const rounds = given("rounds", 3)
const folder = mkdtempSync(join(tmpdir(), "goalmouth-memory-"))
let wrong = 0
try {
  const plans = [
    ["", given("few", 200_000), given("many", 20_000_000), []],
    [", every shot kept", given("kept", 1_000_000), 10 * given("kept", 1_000_000), ["--keep-shots"]],
  ]
  for (const [what, few, many, flags] of plans) {
    const { atFew, atMany, more, file } = growth(folder, few, many, rounds, flags)
    const size =
      file === 0 ? "" : `, a file of ${(file / 1e6).toFixed(0)} MB (${(file / many).toFixed(0)} bytes a shot)`
    const shots = (count) => `${count.toLocaleString("en-US")} shots`
    process.stdout.write(
      `${shots(few)}${what}: ${atFew.toFixed(0)} MB; ${shots(many)}: ${atMany.toFixed(0)} MB${size}; ${(100 * more).toFixed(1)} % more\n`,
    )
    if (more > ALLOWED) wrong++
  }
  process.stdout.write(`Medians of ${rounds}; load of the machine at the end ${loadavg()[0].toFixed(1)}\n`)
} finally {
  rmSync(folder, { recursive: true, force: true })
}
process.exitCode = wrong > 0 ? 1 : 0
