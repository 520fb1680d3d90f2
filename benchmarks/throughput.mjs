import { once } from "node:events"
import { Worker } from "node:worker_threads"
import { openPool } from "../dist/experiments/run/pool.js"
import { inTurn, median, processorSeconds, wallSeconds } from "./clock.mjs"
import { BATCH, depthSettings, depths, KEY } from "./scenes.mjs"

/** What shots are counted of: both plays at one goalie and at many, in batches that take about as long. */
const SCENES = [
  { play: "straight shot", poses: 1, batches: 40 },
  { play: "cross-ice pass", poses: 1, batches: 40 },
  { play: "straight shot", poses: 11, batches: 6 },
  { play: "cross-ice pass", poses: 11, batches: 6 },
]
/** Shots of the plain estimator in a round. */
const PLAIN_SHOTS = 16

/**
 * Shots a second of one thread, every pose of the scene answered: conditional with both kernels, and plain estimator. Each
 * scene has a thread of its own, and they fire in turn, one at a time.
 */
export async function shotsPerSecond(rounds) {
  const threads = SCENES.map(
    (scene) =>
      new Worker(new URL("firing.mjs", import.meta.url), { workerData: { ...scene, plainShots: PLAIN_SHOTS } }),
  )
  try {
    const jobs = ["compiled", "typescript", "plain"]
    const times = await inTurn(
      threads.flatMap((thread) => jobs.map((job) => (round) => fired(thread, job, round))),
      rounds,
    )
    return SCENES.map(({ play, poses, batches }, i) => {
      const [compiled, typescript, plain] = times.slice(jobs.length * i, jobs.length * (i + 1))
      const shots = batches * BATCH
      return { play, poses, compiled: shots / compiled, typescript: shots / typescript, plain: PLAIN_SHOTS / plain }
    })
  } finally {
    for (const thread of threads) await thread.terminate()
  }
}

/** Seconds that a thread takes for a job on the shots of a replicate. */
async function fired(thread, job, replicate) {
  thread.postMessage({ job, replicate })
  const [seconds] = await once(thread, "message")
  return seconds
}

/**
 * How much sooner two warm threads finish the same tasks than one warm thread of the same pool's kind, from the first
 * task to the last: medians of interleaved rounds on the wall clock; and how much processor time they take for it,
 * which tells what the gain would be with both processors free.
 */
export async function threadGain(poses, rounds) {
  const setup = { groups: [depthSettings(depths(poses))], key: KEY, batch: BATCH, sampler: "independent draws" }
  const one = await openPool(setup, 1)
  const two = await openPool(setup, 2)
  try {
    const gains = []
    const costs = []
    for (let round = 0; round < rounds + 2; round++) {
      const alone = await fireOn(one, 1)
      const together = await fireOn(two, 2)
      // the first rounds compile scenes and code
      if (round < 2) continue
      gains.push(alone.wall / together.wall)
      costs.push(together.processor / alone.processor)
    }
    return { gain: median(gains), best: Math.max(...gains), cost: median(costs) }
  } finally {
    await one.close()
    await two.close()
  }
}

async function fireOn(pool, threads) {
  const tasks = Array.from({ length: 32 }, (_, replicate) => ({
    group: 0,
    replicate,
    from: 0,
    to: 4,
    estimator: "conditional",
  }))
  const from = wallSeconds()
  const processor = processorSeconds()
  let next = 0
  // as many tasks in flight as keep every thread busy
  const lane = async () => {
    while (next < tasks.length) await pool.batches(tasks[next++])
  }
  await Promise.all(Array.from({ length: threads === 1 ? 1 : 2 * threads }, lane))
  return { wall: wallSeconds() - from, processor: processorSeconds() - processor }
}
