import { fireBatches } from "../dist/sim/sampling.js"
import * as T from "../dist/sim/tally.js"
import { timed } from "./clock.mjs"
import { COLUMNS, STRIDE } from "./yardstick.mjs"

/**
 * Fires the same shots with every engine and in C++: processor seconds of each engine and of C++, and the largest difference
 * of their tallies.
 */
export function fireAll(yardstick, scene, key, replicates, batches, batch, engines) {
  const other = yardstick.fire(scene, key, replicates, batches, batch)
  let worst = 0
  const seconds = engines.map((e) => {
    const tallies = []
    const taken = timed(() => {
      for (let r = 0; r < replicates; r++) tallies.push(fireBatches(e, key, r, 0, batches, batch))
    })
    for (const [r, tally] of tallies.entries()) worst = Math.max(worst, furthest(tally, other.tallies[r]))
    return taken
  })
  return { seconds, cpp: other.seconds, difference: worst / (batches * batch) }
}

/** Largest difference between two tallies of one replicate, column by column. */
function furthest(tally, other) {
  let worst = 0
  const look = (a, b) => {
    if (!(Math.abs(a - b) <= worst)) worst = Math.abs(a - b)
  }
  const at = new Map(Object.entries(T))
  const columns = COLUMNS.map((name) => at.get(name))
  for (let i = T.BY_REGION; columns.length < STRIDE; i++) columns.push(i)
  for (let row = 0; row < tally.poses * tally.spots; row++)
    for (const [c, column] of columns.entries())
      look(tally.sums[row * T.TALLY_STRIDE + column], other.sums[row * STRIDE + c])
  for (let i = 0; i < tally.maps.length; i++) look(tally.maps[i], other.maps[i])
  return worst
}
