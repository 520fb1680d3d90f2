import { writeFileSync } from "node:fs"
import { cpus, loadavg } from "node:os"
import { fileURLToPath } from "node:url"
import { engine } from "../dist/sim/sampling.js"
import { fireBoth } from "./agreement.mjs"
import { interleaved } from "./clock.mjs"
import { coldStart } from "./cold-start.mjs"
import { reportOf } from "./report.mjs"
import { BATCH, depthScene, KEY } from "./scenes.mjs"
import { poseStages, shotStages } from "./stages.mjs"
import { sweepGain } from "./sweep.mjs"
import { shotsPerSecond, threadGain } from "./throughput.mjs"
import { buildYardstick, compilerVersion } from "./yardstick.mjs"

/** Rounds of every measurement; the medians of them are reported. */
const ROUNDS = 9
/** What the yardstick is run on: goalies of a scene, metres from the goal, batches of a round. */
const YARDSTICK_SCENES = [
  { name: "1 depth, 8 m", poses: 1, distance: 8, batches: 40 },
  { name: "11 depths, 8 m", poses: 11, distance: 8, batches: 8 },
  { name: "11 depths, 15 m", poses: 11, distance: 15, batches: 8 },
]

/** Both languages in turn, round after round; null where there is no compiler. */
function againstYardstick() {
  const yardstick = buildYardstick()
  if (yardstick === null) return null
  try {
    return YARDSTICK_SCENES.map(({ name, poses, distance, batches }) => {
      const scene = depthScene(poses, distance)
      // the yardstick draws its shots independently
      const e = engine(scene, BATCH, "independent draws")
      let cpp = 0
      let difference = 0
      const both = () => {
        const result = fireBoth(yardstick, scene, KEY, 4, batches, BATCH, e)
        cpp = result.cpp
        difference = Math.max(difference, result.difference)
        return result.typescript
      }
      const [typescript, plain] = interleaved([both, () => cpp], ROUNDS)
      const answers = 4 * batches * BATCH * poses
      return { name, typescript: (1e9 * typescript) / answers, cpp: (1e9 * plain) / answers, difference }
    })
  } finally {
    yardstick.remove()
  }
}

function say(text) {
  process.stderr.write(`${text}\n`)
}

const before = loadavg()[0]
say("stages")
const scene = depthScene(11)
const shot = shotStages(scene, ROUNDS)
const pose = poseStages(scene, ROUNDS)
say("shots a second")
const throughput = [1, 11].map((poses) => ({ poses, ...shotsPerSecond(poses, ROUNDS) }))
say("yardstick")
const yardstick = againstYardstick()
say("threads")
const threads = await threadGain(11, ROUNDS)
say("sweep")
const sweep = sweepGain(ROUNDS)
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
  threads,
  sweep,
  start,
})
writeFileSync(fileURLToPath(new URL("README.md", import.meta.url)), report)
process.stdout.write(report)
