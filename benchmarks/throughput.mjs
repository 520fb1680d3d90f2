import { openPool } from "../dist/experiments/run/pool.js"
import { decideConditional } from "../dist/sim/conditional.js"
import { decidePlain } from "../dist/sim/referee.js"
import { engine, fireBatches } from "../dist/sim/sampling.js"
import { interleaved, median, processorSeconds, timed, wallSeconds } from "./clock.mjs"
import { BATCH, depthScene, depthSettings, depths, KEY } from "./scenes.mjs"

/** Shots a second of one thread, every pose of the scene answered: conditional with both kernels, and plain estimator. */
export function shotsPerSecond(poses, rounds, kernel) {
  const scene = depthScene(poses)
  const e = engine(scene, BATCH)
  const sooner = engine(scene, BATCH, undefined, kernel)
  const batches = poses > 4 ? 6 : 40
  let replicate = 0
  const conditional = () => timed(() => fireBatches(e, KEY, replicate++, 0, batches, BATCH, decideConditional))
  const compiled = () => timed(() => fireBatches(sooner, KEY, replicate, 0, batches, BATCH, decideConditional))
  const plain = () => timed(() => fireBatches(e, KEY, replicate++, 0, 1, 16, decidePlain))
  const [fast, slow, slowest] = interleaved([compiled, conditional, plain], rounds)
  return { compiled: (batches * BATCH) / fast, conditional: (batches * BATCH) / slow, plain: 16 / slowest }
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
