import { once } from "node:events"
import { Worker } from "node:worker_threads"
import * as T from "../dist/sim/tally.js"
import { inTurn } from "./clock.mjs"
import { BATCH, depthScene, KEY } from "./scenes.mjs"
import { buildYardstick, COLUMNS, STRIDE } from "./yardstick.mjs"

/** What the yardstick is run on: goalies of a scene, metres from the goal, batches of a replicate. */
const SCENES = [
  { name: "1 depth, 8 m", poses: 1, distance: 8, batches: 40 },
  { name: "11 depths, 8 m", poses: 11, distance: 8, batches: 8 },
  { name: "11 depths, 15 m", poses: 11, distance: 15, batches: 8 },
]
const REPLICATES = 4
const KERNELS = ["typescript", "compiled"]

/**
 * Nanoseconds for each shot and goalie with both kernels and in C++, and the largest difference of their tallies, a shot:
 * medians of rounds that fire the same shots in turn, each kernel and scene in a thread of its own. Null where there is no
 * compiler.
 */
export async function againstYardstick(rounds) {
  const yardstick = buildYardstick()
  if (yardstick === null) return null
  try {
    const rows = []
    for (const scene of SCENES) rows.push(await oneScene(yardstick, scene, rounds))
    return rows
  } finally {
    yardstick.remove()
  }
}

async function oneScene(yardstick, { name, poses, distance, batches }, rounds) {
  const scene = depthScene(poses, distance)
  const arms = KERNELS.map(
    (kernel) =>
      new Worker(new URL("yardstick-arm.mjs", import.meta.url), {
        workerData: { poses, distance, batches, replicates: REPLICATES, kernel },
      }),
  )
  let other
  let difference = 0
  const cpp = () => {
    other = yardstick.fire(scene, KEY, REPLICATES, batches, BATCH)
    return other.seconds
  }
  const jobs = arms.map((arm) => async () => {
    arm.postMessage(null)
    const [{ seconds, tallies }] = await once(arm, "message")
    for (const [r, tally] of tallies.entries())
      difference = Math.max(difference, furthest(tally, other.tallies[r]) / (batches * BATCH))
    return seconds
  })
  try {
    const times = await inTurn([cpp, ...jobs], rounds)
    const [plain, typescript, compiled] = times.map(
      (seconds) => (1e9 * seconds) / (REPLICATES * batches * BATCH * poses),
    )
    return { name, typescript, compiled, cpp: plain, difference }
  } finally {
    for (const arm of arms) await arm.terminate()
  }
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
