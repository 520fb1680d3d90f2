import { execFileSync, spawnSync } from "node:child_process"
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { fileURLToPath } from "node:url"

const SOURCE = fileURLToPath(new URL("yardstick/main.cpp", import.meta.url))
export const COMPILER = "g++"
export const FLAGS = ["-std=c++20", "-O3", "-march=native"]

/** Version of the compiler, or null where there is none. */
export function compilerVersion() {
  const { status, stdout } = spawnSync(COMPILER, ["-dumpfullversion"], { encoding: "utf8" })
  return status === 0 ? stdout.trim() : null
}

/** The straight-shot kernel in C++, built in a folder of its own; null where there is no compiler. */
export function buildYardstick() {
  if (compilerVersion() === null) return null
  const folder = mkdtempSync(join(tmpdir(), "goalmouth-yardstick-"))
  const program = join(folder, "yardstick")
  execFileSync(COMPILER, [...FLAGS, "-o", program, SOURCE])
  return {
    /** Fires replicates 0 to `replicates` - 1; their tallies in order, and the processor seconds it took. */
    fire(scene, key, replicates, batches, batch) {
      const file = join(folder, "scene.bin")
      const out = join(folder, "tally.bin")
      writeFileSync(file, new Uint8Array(flatten(scene).buffer))
      const words = [...key, replicates, batches, batch].map(String)
      const stdout = execFileSync(program, [file, out, ...words], { encoding: "utf8" })
      const numbers = new Float64Array(new Uint8Array(readFileSync(out)).buffer)
      return { seconds: Number(stdout), tallies: cut(numbers, scene, replicates) }
    },
    remove() {
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** Columns of a tally as the yardstick writes them. */
export const COLUMNS = [
  "SHOTS_COUNTED",
  "ON_GOAL_SUM",
  "SAVED",
  "STOOD",
  "CLEAR_ON_GOAL",
  "CLEAR_SAVED",
  "MISSED",
  "IRON_OUT_SUM",
  "IRON_IN_SUM",
  "SHORT_SUM",
  "UNREACHABLE",
  "DEPTH_CUT",
  "BLOCKS",
  "DEPTH_SUM",
]
const REGIONS = 9
const ZONES = 6
const MAP_CELLS = 24 * 16
/** Numbers of one pose and spot. */
export const STRIDE = COLUMNS.length + REGIONS + ZONES

function cut(numbers, scene, replicates) {
  const sums = scene.poses.length * scene.spots.length * STRIDE
  const length = sums + scene.poses.length * MAP_CELLS
  return Array.from({ length: replicates }, (_, r) => ({
    sums: numbers.subarray(r * length, r * length + sums),
    maps: numbers.subarray(r * length + sums, (r + 1) * length),
  }))
}

/** A scene as one row of numbers; every table comes after its length. */
function flatten(scene) {
  const out = []
  const table = (values) => {
    out.push(values.length)
    for (const value of values) out.push(value)
  }
  table(scene.world)
  out.push(scene.strata.count)
  table(scene.strata.table)
  table(scene.strata.allotment)
  table(scene.strata.share)
  out.push(scene.spots.length, scene.postures.length)
  for (const posture of scene.postures) {
    out.push(posture.phases, posture.count)
    for (const name of ["parts", "region", "carrier", "limbs", "roots"]) table(posture[name])
    out.push(posture.halfStance, posture.foremost, posture.leak)
  }
  out.push(scene.poses.length)
  for (const pose of scene.poses) {
    out.push(pose.posture)
    table(pose.numbers)
  }
  return Float64Array.from(out)
}
