/**
 * What coaches dispute and what the shipped experiments found: runs each experiment of claims-list.mjs with its
 * assumption range and writes the table into experiments/README.md, between its two marks.
 *
 *     npm run build && node benchmarks/claims.mjs [--shots 4096] [--minutes 60] [--print]
 *
 * The experiments with the fewest points come first; those begun after so many minutes get no assumption range, and say so.
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs"
import { fileURLToPath } from "node:url"
import { parseArgs } from "node:util"
import { measureOf } from "../dist/experiments/measures.js"
import { answerOf, readExperiment, runExperiment } from "../dist/index.js"
import { CLAIMS } from "./claims-list.mjs"

const FOLDER = fileURLToPath(new URL("../experiments/", import.meta.url))
const PAGE = `${FOLDER}README.md`
const [FROM, TO] = ["<!-- table -->", "<!-- end of table -->"]
const { values } = parseArgs({
  options: {
    shots: { type: "string", default: "4096" },
    minutes: { type: "string", default: "60" },
    print: { type: "boolean", default: false },
  },
})

// idle threads alone do not keep a process going
const awake = setInterval(() => undefined, 60_000)

const names = readdirSync(FOLDER)
  .filter((file) => file.endsWith(".yaml"))
  .map((file) => file.slice(0, -".yaml".length))
  .sort()
const experiments = new Map(names.map((name) => [name, experimentOf(name)]))
const asked = new Set(CLAIMS.flatMap(({ asks }) => asks))
const results = new Map()
const bySize = [...asked].sort((a, b) => experiments.get(a).points.length - experiments.get(b).points.length)
const until = Date.now() + Number(values.minutes) * 60_000
const without = new Set()
for (const name of bySize) {
  const assumptions = Date.now() < until
  if (!assumptions) without.add(name)
  results.set(
    name,
    await runExperiment(experiments.get(name), { version: "claims", workers: 2, assumptions, pictures: false }),
  )
  console.log(`${name}: ${answerOf(results.get(name)).headline}`)
}
clearInterval(awake)

const page = [
  `Written by \`node benchmarks/claims.mjs --shots ${values.shots}\` on ${new Date().toISOString().slice(0, 10)}: ${values.shots} shots a point, 95 % sampling intervals, then the range under assumptions.`,
  ...CLAIMS.flatMap(told),
  "",
  "## What asks about other things",
  "",
  ...names.filter((name) => !asked.has(name)).map((name) => `- ${link(name)}: ${experiments.get(name).question}`),
]
if (values.print) console.log(page.join("\n"))
else {
  const [head, rest] = readFileSync(PAGE, "utf8").split(FROM)
  writeFileSync(PAGE, `${head}${FROM}\n\n${page.join("\n")}\n\n${TO}${rest.split(TO)[1]}`)
}

function experimentOf(name) {
  const read = readExperiment(`${FOLDER}${name}.yaml`, { shots: values.shots })
  if ("problems" in read) throw new Error(read.problems.map(({ text }) => text).join("\n"))
  return read.experiment
}

function link(name) {
  return `[${name}](${name}.yaml)`
}

/** A claim's section: in short, what each experiment answered, what it leaves out. */
function told({ says, so, asks, only, shows = [], but }, at) {
  return [
    "",
    `## ${at + 1}. ${says}`,
    "",
    ...(so === undefined ? [] : [`**${so}.**`, ""]),
    ...asks.flatMap((name) => foundBy(name, only, shows)),
    ...(asks.length === 0 ? [`No experiment. ${but}.`] : but === undefined ? [] : ["", `${but}.`]),
  ]
}

/** The answer's sentence, and the findings one by one where it has no room for both spreads. */
function foundBy(name, only, shows) {
  const { headline, findings } = answerOf(results.get(name))
  const { points, experiment } = results.get(name)
  const alike = findings.filter(({ measure }) => measure === findings[0].measure).map(({ sentence }) => sentence)
  const wanted = only === undefined ? alike : alike.filter((text) => only.some((start) => text.startsWith(`${start}:`)))
  const isWhole = only === undefined && headline.includes("assumptions") && !headline.includes("more below")
  const base = points.find(({ index, spot }) => index === experiment.baseline && spot === "all")
  const shown = shows.map((key) => `${measureOf(key).title} ${share(base.estimates[key])}`)
  const first = only === undefined ? ` ${headline}.` : ""
  const behind = (isWhole || (wanted.length === 1 && wanted[0] === headline) ? [] : wanted).concat(shown)
  const bare = without.has(name) ? " (no assumption range was drawn)" : ""
  return [`- ${link(name)}${bare}:${first}`, ...behind.map((text) => `  - ${text}.`)]
}

function share({ mean, low, high }) {
  const percent = (value) => (value * 100).toFixed(1)
  return `${percent(mean)} % [${percent(low)}, ${percent(high)}]`
}
