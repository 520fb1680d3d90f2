// A thread that fires one scene with one kernel and no other, as a run of it does: what V8 makes of the code for several
// scenes and both kernels is up to a third slower than for one.
import { parentPort, workerData } from "node:worker_threads"
import { loadKernel } from "../dist/experiments/kernel/load.js"
import { engine, fireBatches } from "../dist/sim/sampling.js"
import { timed } from "./clock.mjs"
import { BATCH, depthScene, KEY } from "./scenes.mjs"

const { poses, distance, batches, replicates, kernel } = workerData
// the yardstick draws its shots independently
const e = engine(depthScene(poses, distance), BATCH, "independent draws", kernel === "compiled" ? loadKernel() : null)

parentPort.on("message", () => {
  const tallies = []
  const seconds = timed(() => {
    for (let r = 0; r < replicates; r++) tallies.push(fireBatches(e, KEY, r, 0, batches, BATCH))
  })
  parentPort.postMessage({ seconds, tallies })
})
