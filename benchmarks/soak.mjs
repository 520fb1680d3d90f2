/**
 * Hours of ill treatment in minutes: runs killed at any moment and carried on, disks that get full, paths through a
 * file, and experiment files spoilt in every way.
 * Prints counts, and ends with 1 where anything went wrong.
 *
 *   npm run soak -- --kills 100 --disks 20 --paths 8 --files 5000 --processes 50 --seed "any text"
 */
import { cpSync, mkdtempSync, rmSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { fileURLToPath } from "node:url"
import { parseArgs } from "node:util"
import seedrandom from "seedrandom"
import { soakDisks, soakPaths } from "./soak/disks.mjs"
import { soakFiles } from "./soak/files.mjs"
import { soakKills } from "./soak/kills.mjs"
import { soakProcesses } from "./soak/processes.mjs"

const { values } = parseArgs({
  options: {
    kills: { type: "string", default: "100" },
    disks: { type: "string", default: "20" },
    paths: { type: "string", default: "8" },
    files: { type: "string", default: "5000" },
    processes: { type: "string", default: "50" },
    seed: { type: "string", default: "goalmouth soak" },
  },
})
const folder = mkdtempSync(join(tmpdir(), "goalmouth-soak-"))
const experiments = fileURLToPath(new URL("../experiments", import.meta.url))
const faults = []
const fault = (text) => {
  faults.push(text)
  console.log(`  FAULT ${text}`)
}
try {
  cpSync(experiments, join(folder, "experiments"), { recursive: true })
  const place = { folder, experiments: join(folder, "experiments"), fault }
  console.log(`seed ${values.seed}`)
  await soakKills(Number(values.kills), seedrandom(`${values.seed} kills`), place)
  await soakDisks(Number(values.disks), seedrandom(`${values.seed} disks`), place)
  await soakPaths(Number(values.paths), place)
  await soakFiles(Number(values.files), seedrandom(`${values.seed} files`), place)
  await soakProcesses(Number(values.processes), seedrandom(`${values.seed} processes`), place)
} finally {
  rmSync(folder, { recursive: true, force: true })
}
console.log(`${faults.length} faults`)
process.exitCode = faults.length === 0 ? 0 : 1
