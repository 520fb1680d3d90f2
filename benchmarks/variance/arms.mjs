import { loadKernel } from "../../dist/experiments/kernel/load.js"
import { decideConditional } from "../../dist/sim/conditional.js"
import { engine, fireBatches } from "../../dist/sim/sampling.js"
import { DRAW_REACTION, GOALIE_DRAWS } from "../../dist/sim/shots.js"
import { mergeTally, ON_GOAL_SUM, SAVED, TALLY_STRIDE } from "../../dist/sim/tally.js"

export const BATCH = 256
export const KEY = [20_261, 77]

/**
 * Whole saves, as the plain estimator counts them: the conditional probability against one uniform of the shot. Which of
 * the shot's chances decides is no matter, as only how often it does is measured; the referee itself steps by a millisecond.
 */
export const decideWhole = (g, pose, batch, i, path, outcome) => {
  decideConditional(g, pose, batch, i, path, outcome)
  outcome.saved = batch.goalie[i * GOALIE_DRAWS + DRAW_REACTION] < outcome.saved ? 1 : 0
}

export const ARMS = [
  { name: "independent draws, plain estimator", sampler: "independent draws", decide: decideWhole },
  { name: "independent draws, conditional estimator", sampler: "independent draws", decide: decideConditional },
  {
    name: "scrambled Sobol points, conditional estimator",
    sampler: "scrambled Sobol points",
    decide: decideConditional,
  },
]

/** Sums of one replicate after each of some counts of shots: [counts][poses] of { saved, onGoal }. */
export function replicateSums(e, replicate, counts, decide) {
  const found = []
  let tally = null
  let done = 0
  for (const count of counts) {
    const size = Math.min(BATCH, count)
    const more = fireBatches(e, KEY, replicate, done / size, count / size, size, decide)
    if (tally === null) tally = more
    else mergeTally(tally, more)
    done = count
    found.push(e.goalkeeping.scene.poses.map((_, pose) => sumsOf(tally, pose)))
  }
  return found
}

function sumsOf(tally, pose) {
  const column = (c) => {
    let sum = 0
    for (let spot = 0; spot < tally.spots; spot++) sum += tally.sums[(pose * tally.spots + spot) * TALLY_STRIDE + c]
    return sum
  }
  return { saved: column(SAVED), onGoal: column(ON_GOAL_SUM) }
}

export function armEngine(scene, { sampler }) {
  return engine(scene, BATCH, sampler, loadKernel())
}

/** Rate over all replicates, and what each replicate's rate departs from it. */
export function departures(sums) {
  const all = sums.reduce((sum, { onGoal }) => sum + onGoal, 0)
  const rate = sums.reduce((sum, { saved }) => sum + saved, 0) / all
  const mean = all / sums.length
  return { rate, onGoal: mean, residuals: sums.map(({ saved, onGoal }) => (saved - rate * onGoal) / mean) }
}

export function variance(values) {
  const mean = values.reduce((a, b) => a + b, 0) / values.length
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1)
}
