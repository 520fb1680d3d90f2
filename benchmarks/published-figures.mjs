/**
 * The model beside published figures: runs each row with the one set of defaults and writes the table into
 * experiments/published-figures.md, between its two marks.
 *
 *     npm run build && node benchmarks/published-figures.mjs [--shots 16384] [--print]
 */
import { readFileSync, writeFileSync } from "node:fs"
import { fileURLToPath } from "node:url"
import { parseArgs } from "node:util"
import { readExperimentText, runExperiment } from "../dist/index.js"
import { ROWS } from "./published-rows.mjs"

const PAGE = fileURLToPath(new URL("../experiments/published-figures.md", import.meta.url))
const FOLDER = fileURLToPath(new URL("../experiments/row.yaml", import.meta.url))
const [FROM, TO] = ["<!-- table -->", "<!-- end of table -->"]
const { values } = parseArgs({
  options: { shots: { type: "string", default: "16384" }, print: { type: "boolean", default: false } },
})

const run = async (text) => {
  const read = readExperimentText(FOLDER, text, { shots: values.shots })
  if ("problems" in read) throw new Error(read.problems.map((problem) => problem.text).join("\n"))
  return runExperiment(read.experiment, { version: "figures", workers: 2, assumptions: false, pictures: true })
}

/** Results of each text, run once however many rows read it. */
const known = new Map()
const resultsOf = (text) => {
  if (!known.has(text)) known.set(text, run(text))
  return known.get(text)
}

// idle threads alone do not keep a process going
const awake = setInterval(() => undefined, 60_000)

const lines = []
for (const row of ROWS) {
  const results = await Promise.all(row.runs.map((text) => resultsOf(text)))
  const found = row.find(results)
  const { target } = row
  const verdict =
    target === null
      ? "no target"
      : found.mean >= target[0] && found.mean <= target[1]
        ? "within"
        : found.mean < target[0]
          ? "below"
          : "above"
  const interval = `${share(found.mean)} [${share(found.low)}, ${share(found.high)}]`
  const range =
    found.assumed === undefined ? "" : ` assumptions ${share(found.assumed.low)} to ${share(found.assumed.high)}`
  const aim = target === null ? "" : `${share(target[0])} to ${share(target[1])}`
  lines.push(
    `| ${row.name} | ${row.kept ? "test" : "looked at"} | ${row.published} | ${aim} | ${interval}${range} | ${verdict} | ${row.why} |`,
  )
  console.log(lines.at(-1))
}

function share(value) {
  return value.toFixed(3).replace(/^0/, "").replace(/^-0/, "-")
}

const table = [
  `Written by \`node benchmarks/published-figures.mjs --shots ${values.shots}\` on ${new Date().toISOString().slice(0, 10)}; ${values.shots} shots a row (seeds in \`benchmarks/published-rows.mjs\`), 95 % sampling intervals.`,
  "",
  "| row | use | published | aim | model | verdict | remark |",
  "| --- | --- | --- | --- | --- | --- | --- |",
  ...lines,
]
if (!values.print) {
  const page = readFileSync(PAGE, "utf8")
  const [head, rest] = page.split(FROM)
  const tail = rest.split(TO)[1]
  writeFileSync(PAGE, `${head}${FROM}\n\n${table.join("\n")}\n\n${TO}${tail}`)
}
clearInterval(awake)
