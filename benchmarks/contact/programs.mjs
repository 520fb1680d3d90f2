import { execFileSync, spawnSync } from "node:child_process"
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { fileURLToPath } from "node:url"
import { COMPILER, compilerVersion, FLAGS } from "../yardstick.mjs"

/** Numbers of a record that a program reads: the path, the box, the range and the disc. */
const HEAD = 17
const [CPP, PYTHON, CASTS] = ["clearances.cpp", "clearances.py", "casts.mjs"].map((name) =>
  fileURLToPath(new URL(name, import.meta.url)),
)

/**
 * What else finds the clearances of records, or casts along their paths, each in a process of its own: plain C++, C++ four at
 * a time, NumPy, and Jolt's casts. Null where this machine lacks the compiler, the processor's instructions, or
 * Python with NumPy; else a function of the passes that gives the answers and the processor seconds.
 */
export function programs(records) {
  const folder = mkdtempSync(join(tmpdir(), "goalmouth-contact-"))
  const [pairs, out, program] = ["pairs.bin", "answers.bin", "clearances"].map((name) => join(folder, name))
  const heads = new Float64Array(HEAD * records.length)
  for (const [i, record] of records.entries()) heads.set(record.subarray(0, HEAD), HEAD * i)
  writeFileSync(pairs, new Uint8Array(heads.buffer))
  const run = (command, head) => (passes) => {
    const stdout = execFileSync(command, [...head, pairs, out, String(passes)], { encoding: "utf8" })
    if (stdout.trim() === "missing") return null
    return { seconds: Number(stdout), answers: new Float64Array(new Uint8Array(readFileSync(out)).buffer) }
  }
  const compiled = compilerVersion() !== null
  if (compiled) execFileSync(COMPILER, [...FLAGS, "-o", program, CPP])
  const four = compiled ? run(program, ["four"]) : null
  const numpy = spawnSync("python3", ["-c", "import numpy"]).status === 0
  return {
    scalar: compiled ? run(program, ["scalar"]) : null,
    four: four !== null && four(1) !== null ? four : null,
    numpy: numpy ? run("python3", [PYTHON]) : null,
    casts: run(process.execPath, [CASTS]),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  }
}
