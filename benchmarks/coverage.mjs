/**
 * How often do the 95 % intervals hold the truth? Makes each part's run a thousand times under seeds of its own, for a
 * fixed number of shots and under the rule that stops at a half-width, and counts against one long run. What was found
 * goes to out/coverage, a line a run; those that are there are not made again, so it can be stopped and started.
 * Writes coverage.md from all of them.
 *
 *   npm run build && node benchmarks/coverage.mjs --repeats 1000 --workers 2 --of "blind from 4 m, 1,024 shots"
 *   node benchmarks/coverage.mjs --also "goalie.stature: 1.9 m"   with that line in every file, and a page of its own
 *   node benchmarks/coverage.mjs --page       writes the page from what is there
 */
import { appendFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { fileURLToPath } from "node:url"
import { parseArgs } from "node:util"
import { Worker } from "node:worker_threads"
import { runExperiment } from "../dist/experiments/run/run-experiment.js"
import { coveragePage } from "./campaign/page.mjs"
import { figuresOfRun, repeater } from "./campaign/repeat.mjs"
import { experimentOf, PARTS } from "./campaign/scenes.mjs"

const FOLDER = fileURLToPath(new URL("../out/coverage", import.meta.url))
/** Shots of the long run: its error has to be under a tenth of every half-width it judges. */
const TRUTH = 2 ** 21

const { values } = parseArgs({
  options: {
    of: { type: "string" },
    repeats: { type: "string", default: "1000" },
    workers: { type: "string", default: "2" },
    page: { type: "boolean", default: false },
    also: { type: "string", default: "" },
  },
})
const workers = Number(values.workers)

/** The long run of a scene, made once; what was made with another engine is thrown away. */
async function truthOf({ scene, label = "" }) {
  const file = `${FOLDER}/truth ${scene}${label}.json`
  const lines = (shots) => (values.also === "" ? `shots: ${shots}` : `shots: ${shots}\n${values.also}`)
  const probe = await repeater(experimentOf(scene, lines(1024), "probe"))("probe")
  const known = existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : null
  if (JSON.stringify(known?.probe) === JSON.stringify(probe)) return known.truth
  const isOfScene = (name) => name.includes(scene) && name.includes(" with ") === (label !== "") && name.includes(label)
  for (const name of readdirSync(FOLDER)) if (isOfScene(name)) rmSync(`${FOLDER}/${name}`)
  const experiment = experimentOf(scene, lines(TRUTH), `truth ${scene}`)
  const results = await runExperiment(experiment, { version: "0", workers, assumptions: false, pictures: false })
  const truth = figuresOfRun(experiment, results.points, results.curves)
  writeFileSync(file, JSON.stringify({ truth, probe }, null, 1))
  console.log(`${scene}: ${TRUTH} shots for the truth`)
  return truth
}

/** The runs of a part that are known, and after them those that are still to be made. */
async function repeatsOf(part, repeats) {
  const file = `${FOLDER}/${part.name}.jsonl`
  const text = existsSync(file) ? readFileSync(file, "utf8") : ""
  // a line that was being written when the campaign was stopped is made again
  const known = text.split("\n").flatMap((line) => {
    try {
      return line === "" ? [] : [JSON.parse(line)]
    } catch {
      return []
    }
  })
  if (text !== "" && !text.endsWith("\n")) appendFileSync(file, "\n")
  const there = new Set(known.map(({ number }) => number))
  const wanted = values.page ? 0 : repeats
  const left = Array.from({ length: wanted }, (_, i) => i).filter((number) => !there.has(number))
  await makeAll(part, left, (run) => {
    known.push(run)
    appendFileSync(file, `${JSON.stringify(run)}\n`)
  })
  return values.page ? known : known.filter(({ number }) => number < repeats)
}

/** Hands the numbers of runs to threads, one at a time. */
async function makeAll(part, numbers, take) {
  const next = numbers[Symbol.iterator]()
  const worker = () =>
    new Promise((resolve, reject) => {
      const url = new URL("./campaign/worker.mjs", import.meta.url)
      const thread = new Worker(url, { workerData: { scene: part.scene, lines: part.lines, part: part.name } })
      const ask = () => {
        const { value, done } = next.next()
        if (done) thread.terminate().then(resolve, reject)
        else thread.postMessage(value)
      }
      thread.on("error", reject)
      thread.on("message", (run) => {
        take(run)
        ask()
      })
      ask()
    })
  await Promise.all(Array.from({ length: Math.min(workers, numbers.length) }, worker))
}

/** A part with the line that was asked for, under a name that tells. */
function withLine(part) {
  const { also } = values
  if (also === "") return part
  const label = ` with ${also.replaceAll(/[^\w ]+/g, "")}`
  return { scene: part.scene, label, name: `${part.name}${label}`, lines: `${part.lines}\n${also}` }
}

mkdirSync(FOLDER, { recursive: true })
const found = []
const parts = PARTS.filter(({ name }) => values.of === undefined || values.of === name)
const isThere = ({ scene, label = "" }) => existsSync(`${FOLDER}/truth ${scene}${label}.json`)
for (const part of parts.map(withLine).filter((one) => !values.page || isThere(one))) {
  const began = performance.now()
  const truth = await truthOf(part)
  const runs = await repeatsOf(part, Number(values.repeats))
  found.push({ part, truth, runs })
  console.log(`${part.name}: ${runs.length} runs, ${((performance.now() - began) / 1000).toFixed(0)} s`)
}
const made = found.filter(({ runs }) => runs.length > 0)
const page = coveragePage(made, { truth: TRUTH, date: new Date().toISOString().slice(0, 10), also: values.also })
console.log(page)
const words = ["coverage", ...(values.also.toLowerCase().match(/\w+/g) ?? [])]
if (values.of === undefined) writeFileSync(new URL(`./${words.join("-")}.md`, import.meta.url), page)
