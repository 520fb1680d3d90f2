/**
 * Puts the random words of the program to a published battery, dieharder, in every order in which a run walks through
 * their addresses, and for comparison a generator of the battery's own. Raw results go to battery/results, one line a test;
 * those that are there are not run again, so it can be stopped and started. Writes battery.md from all of them.
 *
 *   npm run build && node benchmarks/battery.mjs --of fired,shots
 *   node benchmarks/battery.mjs --of fired --repeat   every test once more, of the words of other keys
 *   node benchmarks/battery.mjs --page        writes the page from what is there
 *   node benchmarks/battery.mjs --words fired --key "any text" | dieharder -g 200 -a
 */
import { spawn, spawnSync } from "node:child_process"
import { appendFileSync, existsSync, mkdirSync, readFileSync, writeSync } from "node:fs"
import { fileURLToPath } from "node:url"
import { parseArgs } from "node:util"
import { seedKey } from "../dist/experiments/seed.js"
import { CONTROL, controlWords } from "./battery/control.mjs"
import { writeBattery } from "./battery/page.mjs"
import { ADDRESSINGS, checkWords, fillWords } from "./battery/words.mjs"

const SELF = fileURLToPath(import.meta.url)
const FOLDER = fileURLToPath(new URL("battery/results", import.meta.url))
/** Every test that dieharder calls good, with its -n where it has one, quick ones first; of the 33 lagged sums six. */
const TESTS = [
  ...[0, 1, 2, 3, 4, 8, 9, 10, 11, 12, 13, 15, 16, 100, 101, 205, 206, 209, 102, 204, 17].map((d) => [d, 0]),
  ...Array.from({ length: 12 }, (_, i) => [200, i + 1]),
  ...[2, 3, 4, 5].flatMap((n) => [
    [201, n],
    [202, n],
  ]),
  ...[0, 1, 2, 3, 7, 15].map((n) => [203, n]),
  // the first of the filled trees has one size alone, 32: with 1 it fails dieharder's own generators too
  [207, 0],
  // the second is made with both its sizes at once, and says nothing with an -n of 1
  [208, 0],
]
/** Rounds of a test: the first; of twice the samples, where that was weak; once more whatever the first gave. */
const [FIRST, DOUBLED, REPEATED] = [0, 1, 2]
/** dieharder calls p below this, or above one less this, weak. */
const WEAK = 0.005

const { values } = parseArgs({
  options: {
    of: { type: "string", default: [...Object.keys(ADDRESSINGS), CONTROL].join(",") },
    words: { type: "string" },
    page: { type: "boolean", default: false },
    repeat: { type: "boolean", default: false },
    key: { type: "string", default: "goalmouth battery" },
  },
})

/** Writes words to standard output until the reader has enough. */
function pour(addressing, key) {
  checkWords(addressing, key)
  const out = new Uint32Array(1 << 18)
  const bytes = Buffer.from(out.buffer)
  for (let step = 0; ; ) {
    step = fillWords(addressing, key, step, out)
    for (let at = 0; at < bytes.length; ) {
      try {
        at += writeSync(1, bytes, at)
      } catch (error) {
        if (error.code === "EPIPE") return
        if (error.code !== "EAGAIN") throw error
      }
    }
  }
}

/** A process that writes words to its standard output. */
function pouring(name, key) {
  return spawn(process.execPath, [SELF, "--words", name, "--key", key], { stdio: ["ignore", "pipe", "inherit"] })
}

/** Runs one test on words of a key of its own; its lines: name, -n, samples, samples of p, p, verdict. */
function runTest(name, [d, n], { round, more }) {
  const key = `${values.key} ${name} ${d} ${n} ${round}`
  const words = name === CONTROL ? null : pouring(name, key)
  const from = words === null ? controlWords(key) : ["-g", "200"]
  const asked = [...from, "-d", d, "-n", n, "-k", "2", "-c", ",", "-D", "test_name"]
  const fields = ["ntuple", "tsamples", "psamples", "pvalues", "assessment"].flatMap((field) => ["-D", field])
  const test = spawn("dieharder", [...asked, ...fields, ...more].map(String), {
    stdio: [words?.stdout ?? "ignore", "pipe", "ignore"],
  })
  words?.stdout.destroy()
  let text = ""
  test.stdout.on("data", (part) => {
    text += part
  })
  return new Promise((resolve, reject) => {
    test.on("error", reject)
    test.on("close", () => {
      words?.kill()
      const lines = text.split("\n").filter((line) => line.includes(","))
      resolve(lines.map((line) => [d, n, round, ...line.split(",").map((cell) => cell.trim())].join(",")))
    })
  })
}

async function runOne(name, test) {
  const file = `${FOLDER}/${name.replace(" ", "-")}.csv`
  const known = existsSync(file) ? readFileSync(file, "utf8").split("\n") : []
  const isKnown = ([d, n], round) => known.some((line) => line.startsWith(`${d},${n},${round},`))
  const keep = (lines) => {
    appendFileSync(file, lines.map((line) => `${line}\n`).join(""))
    known.push(...lines)
    for (const line of lines) console.log(`${name}: ${line}`)
  }
  if (values.repeat) {
    if (!isKnown(test, REPEATED)) keep(await runTest(name, test, { round: REPEATED, more: [] }))
    return
  }
  if (!isKnown(test, FIRST)) keep(await runTest(name, test, { round: FIRST, more: [] }))
  // a weak p is asked once more of other words, and of twice as many samples
  const weak = known.find((line) => line.startsWith(`${test[0]},${test[1]},${FIRST},`) && isWeak(line))
  if (weak === undefined || isKnown(test, DOUBLED)) return
  keep(await runTest(name, test, { round: DOUBLED, more: ["-p", 2 * Number(weak.split(",")[6])] }))
}

function isWeak(line) {
  const p = Number(line.split(",")[7])
  return p < WEAK || p > 1 - WEAK
}

if (values.words !== undefined) pour(ADDRESSINGS[values.words], seedKey(values.key))
else if (spawnSync("dieharder", ["-l"]).status === null)
  console.log("No dieharder here: it is a package of Debian and of others")
else {
  mkdirSync(FOLDER, { recursive: true })
  // every order gets a test before the next test begins, so that a campaign cut short has met them all
  const orders = values.page ? [] : values.of.split(",")
  for (const test of TESTS) for (const name of orders) await runOne(name, test)
  writeBattery(FOLDER, { key: values.key, tests: TESTS, weak: WEAK, date: new Date().toISOString().slice(0, 10) })
}
