import { writeFileSync } from "node:fs"
import { cpus, loadavg } from "node:os"
import { fileURLToPath } from "node:url"
import { loadKernel } from "../dist/experiments/kernel/load.js"
import { againstYardstick } from "./against-yardstick.mjs"
import { boxStage } from "./box.mjs"
import { coldStart } from "./cold-start.mjs"
import { contactStage } from "./contact.mjs"
import { unfilledOf } from "./filled.mjs"
import { halfWidthStage } from "./half-width.mjs"
import { replayStage } from "./replay.mjs"
import { reportOf } from "./report.mjs"
import { depthScene } from "./scenes.mjs"
import { poseStages, shotStages } from "./stages.mjs"
import { sweepGain } from "./sweep.mjs"
import { shotsPerSecond, threadGain } from "./throughput.mjs"
import { compilerVersion } from "./yardstick.mjs"

/** Rounds of every measurement; the medians of them are reported. */
const ROUNDS = 9
/** Rounds of whole runs to a half-width, which take some seconds. */
const HALF_WIDTH_ROUNDS = 5
function say(text) {
  process.stderr.write(`${text}\n`)
}

const before = loadavg()[0]
const kernel = loadKernel()
if (kernel === null) throw new Error("Cannot measure the compiled kernel as this engine must run it: found none")
say("stages")
const scene = depthScene(11)
const shot = shotStages(scene, ROUNDS)
const pose = poseStages(scene, ROUNDS, kernel)
say("shots a second")
const throughput = await shotsPerSecond(ROUNDS)
say("yardstick")
const yardstick = await againstYardstick(ROUNDS)
say("one contact")
const contact = contactStage(ROUNDS)
say("threads")
const threads = await threadGain(11, ROUNDS)
say("sweep")
const sweep = sweepGain(ROUNDS, kernel)
// from here on this thread meets other plays than the straight shot
say("box")
const box = boxStage(ROUNDS, kernel)
say("replay")
const replay = replayStage(ROUNDS)
say("half-widths")
const halfWidths = await halfWidthStage(HALF_WIDTH_ROUNDS)
say("cold start")
const start = coldStart(5)

const report = reportOf({
  date: new Date().toISOString().slice(0, 10),
  machine: `${cpus().length} x ${cpus()[0].model.trim()}`,
  node: process.version,
  compiler: compilerVersion(),
  load: [before, loadavg()[0]],
  rounds: ROUNDS,
  shot,
  pose,
  throughput,
  yardstick,
  contact,
  threads,
  sweep,
  box,
  replay,
  halfWidths,
  halfWidthRounds: HALF_WIDTH_ROUNDS,
  start,
})
const unfilled = unfilledOf(report)
if (unfilled.length > 0)
  throw new Error(`Cannot write the page as every figure must be measured: missing in\n${unfilled.join("\n")}`)
writeFileSync(fileURLToPath(new URL("README.md", import.meta.url)), report)
process.stdout.write(report)
