import { rmSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { mutants } from "./mutants.mjs"
import { filesBelow, hasTrace, program } from "./program.mjs"

const RESULTS = ["manifest.json", "report.html", "results.csv", "results.json", "results.parquet"]

/** Runs spoilt files as processes: each is done whole or refused before it wrote anything. */
export async function soakProcesses(count, chance, { folder, experiments, fault }) {
  const next = mutants(experiments, chance)
  const file = join(experiments, "spoilt.yaml")
  const out = join(folder, "spoilt")
  const seen = { done: 0, refused: 0 }
  for (let i = 0; i < count; i++) {
    const text = next()
    writeFileSync(file, text)
    rmSync(out, { recursive: true, force: true })
    const words = ["run", file, "--out", out, "--shots", "128", "--no-assumptions"]
    const { code, hung, out: said, err } = await program(words)
    const files = filesBelow(out)
    seen.done += Number(code === 0)
    seen.refused += Number(code === 2)
    const whole =
      code === 0 && RESULTS.every((name) => files.includes(name)) && !files.some((path) => /(^|\/)\./.test(path))
    const refused = code === 2 && files.length === 0 && said === "" && err.trim() !== ""
    if (hung || hasTrace(said + err) || !(whole || refused))
      fault(
        `process ${i}: exit ${code}${hung ? ", hung" : ""}, files ${files.join(" ")} ${err.slice(0, 400)}\n${text.slice(0, 400)}`,
      )
  }
  console.log(`${count} spoilt files as processes: ${seen.done} run all the same, ${seen.refused} refused`)
}
