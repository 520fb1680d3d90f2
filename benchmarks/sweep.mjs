import { compileScene } from "../dist/models/plays/scene.js"
import { engine, fireBatches } from "../dist/sim/sampling.js"
import { ON_GOAL_SUM, SAVED, TALLY_STRIDE } from "../dist/sim/tally.js"
import { interleaved, timed } from "./clock.mjs"
import { BATCH, depthSettings, depths, KEY } from "./scenes.mjs"

const POSES = 20
const REPLICATES = 32
const BATCHES = 4
/** Differences looked at: positions apart in the sweep. */
const APART = [1, 5, 10]

/**
 * A sweep of twenty depths over the same shots against twenty separate runs: processor time to reach the same half-width
 * of a difference of two save rates, from the measured variances of the differences and the measured costs.
 */
export function sweepGain(rounds, kernel) {
  const settings = depthSettings(depths(POSES, 0.2, 2.1))
  const together = engine(compileScene(settings), BATCH, undefined, kernel)
  const alone = settings.map((one) => engine(compileScene([one]), BATCH, undefined, kernel))

  // what one batch costs
  let replicate = 0
  const [sweep, separate] = interleaved(
    [
      () => timed(() => fireBatches(together, KEY, replicate++, 0, 2, BATCH)),
      () =>
        timed(() => {
          for (const e of alone) fireBatches(e, KEY, replicate, 0, 2, BATCH)
        }),
    ],
    rounds,
  )

  // how far save rates of the replicates differ
  const paired = ratesOf([together], KEY)
  const apart = alone.map((e, i) => ratesOf([e], [KEY[0] + 1 + i, KEY[1]])[0])
  return APART.map((steps) => {
    let same = 0
    let other = 0
    for (let i = 0; i + steps < POSES; i++) {
      same += varianceOf(paired[i], paired[i + steps])
      other += varianceOf(apart[i], apart[i + steps])
    }
    return { metres: 0.1 * steps, variance: other / same, time: (other / same) * (separate / sweep) }
  })
}

/** Save rate of each pose in each replicate. */
function ratesOf(engines, key) {
  return engines.flatMap((e) => {
    const poses = e.goalkeeping.scene.poses.length
    const rates = Array.from({ length: poses }, () => [])
    for (let r = 0; r < REPLICATES; r++) {
      const { sums } = fireBatches(e, key, r, 0, BATCHES, BATCH)
      for (let p = 0; p < poses; p++)
        rates[p].push(sums[p * TALLY_STRIDE + SAVED] / sums[p * TALLY_STRIDE + ON_GOAL_SUM])
    }
    return rates
  })
}

function varianceOf(a, b) {
  const differences = a.map((rate, r) => rate - b[r])
  const mean = differences.reduce((sum, d) => sum + d, 0) / differences.length
  return differences.reduce((sum, d) => sum + (d - mean) ** 2, 0) / (differences.length - 1)
}
