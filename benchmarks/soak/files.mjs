import { writeFileSync } from "node:fs"
import { join } from "node:path"
import { goalmouth } from "../../dist/cli/goalmouth.js"
import { mutants } from "./mutants.mjs"
import { filesBelow, hasTrace } from "./program.mjs"

/** A file that takes longer to read has hung, milliseconds. */
const HUNG = 5000

/** Checks spoilt files in this process: each reads clean or is refused in words, and nothing is written. */
export async function soakFiles(count, chance, { experiments, fault }) {
  const next = mutants(experiments, chance)
  const file = join(experiments, "spoilt.yaml")
  const before = filesBelow(experiments).length + 1
  const seen = { clean: 0, refused: 0, slowest: 0 }
  for (let i = 0; i < count; i++) {
    const text = next()
    writeFileSync(file, text)
    let out = ""
    let err = ""
    const began = performance.now()
    const streams = {
      out: (more) => {
        out += more
      },
      err: (more) => {
        err += more
      },
      colour: false,
    }
    const code = await goalmouth(["check", file], streams).catch((error) => `thrown ${error.stack}`)
    const took = performance.now() - began
    seen.slowest = Math.max(seen.slowest, took)
    seen.clean += Number(code === 0)
    seen.refused += Number(code === 2)
    const silent = code === 2 && (err.trim() === "" || out !== "")
    if ((code !== 0 && code !== 2) || silent || hasTrace(out + err) || took > HUNG)
      fault(`file ${i}: ${code} after ${took.toFixed(0)} ms ${err.slice(0, 300)}\n${text.slice(0, 400)}`)
  }
  if (count > 0 && filesBelow(experiments).length !== before) fault("a check left files behind")
  console.log(
    `${count} spoilt files in this process: ${seen.clean} read clean all the same, ${seen.refused} refused, slowest ${seen.slowest.toFixed(0)} ms`,
  )
}
