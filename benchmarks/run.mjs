import { writeFileSync } from "node:fs"
import { cpus, loadavg } from "node:os"
import { fileURLToPath } from "node:url"
import { loadKernel } from "../dist/experiments/kernel/load.js"
import { engine } from "../dist/sim/sampling.js"
import { fireAll } from "./agreement.mjs"
import { boxStage } from "./box.mjs"
import { interleaved } from "./clock.mjs"
import { coldStart } from "./cold-start.mjs"
import { contactStage } from "./contact.mjs"
import { unfilledOf } from "./filled.mjs"
import { halfWidthStage } from "./half-width.mjs"
import { replayStage } from "./replay.mjs"
import { reportOf } from "./report.mjs"
import { BATCH, depthScene, KEY } from "./scenes.mjs"
import { poseStages, shotStages } from "./stages.mjs"
import { sweepGain } from "./sweep.mjs"
import { shotsPerSecond, threadGain } from "./throughput.mjs"
import { buildYardstick, compilerVersion } from "./yardstick.mjs"

/** Rounds of every measurement; the medians of them are reported. */
const ROUNDS = 9
/** Rounds of whole runs to a half-width, which take some seconds. */
const HALF_WIDTH_ROUNDS = 5
/** What the yardstick is run on: goalies of a scene, metres from the goal, batches of a round. */
const YARDSTICK_SCENES = [
  { name: "1 depth, 8 m", poses: 1, distance: 8, batches: 40 },
  { name: "11 depths, 8 m", poses: 11, distance: 8, batches: 8 },
  { name: "11 depths, 15 m", poses: 11, distance: 15, batches: 8 },
]

/** Both kernels and C++ in turn, round after round; null where there is no compiler. */
function againstYardstick(kernel) {
  const yardstick = buildYardstick()
  if (yardstick === null) return null
  try {
    return YARDSTICK_SCENES.map(({ name, poses, distance, batches }) => {
      const scene = depthScene(poses, distance)
      // the yardstick draws its shots independently
      const engines = [null, kernel].map((compiled) => engine(scene, BATCH, "independent draws", compiled))
      let fired
      let difference = 0
      const all = () => {
        fired = fireAll(yardstick, scene, KEY, 4, batches, BATCH, engines)
        difference = Math.max(difference, fired.difference)
        return fired.cpp
      }
      const times = interleaved([all, () => fired.seconds[0], () => fired.seconds[1]], ROUNDS)
      const answers = 4 * batches * BATCH * poses
      const [cpp, typescript, compiled] = times.map((seconds) => (1e9 * seconds) / answers)
      return { name, typescript, compiled, cpp, difference }
    })
  } finally {
    yardstick.remove()
  }
}

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
const yardstick = againstYardstick(kernel)
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
