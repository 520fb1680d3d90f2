// A thread that fires one scene in turn with others: its code is compiled for that scene alone, as a run of it would have it.
import { parentPort, workerData } from "node:worker_threads"
import { loadKernel } from "../dist/experiments/kernel/load.js"
import { decidePlain } from "../dist/sim/referee.js"
import { engine, fireBatches } from "../dist/sim/sampling.js"
import { timed } from "./clock.mjs"
import { BATCH, KEY, PLAYS } from "./scenes.mjs"

const { play, poses, batches, plainShots } = workerData
const scene = PLAYS[play](poses)
const e = engine(scene, BATCH)
const sooner = engine(scene, BATCH, undefined, loadKernel())

const jobs = {
  compiled: (replicate) => fireBatches(sooner, KEY, replicate, 0, batches, BATCH),
  typescript: (replicate) => fireBatches(e, KEY, replicate, 0, batches, BATCH),
  plain: (replicate) => fireBatches(e, KEY, replicate, 0, 1, plainShots, decidePlain),
}

parentPort.on("message", ({ job, replicate }) => parentPort.postMessage(timed(() => jobs[job](replicate))))
