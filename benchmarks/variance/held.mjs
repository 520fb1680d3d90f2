import { differenceOverReplicates } from "../../dist/sim/statistics/difference.js"
import { ratioOverReplicates } from "../../dist/sim/statistics/ratio.js"
import { ARMS, armEngine, departures, KEY, replicateSums } from "./arms.mjs"
import { depthsScene, PAIR_DEPTHS } from "./scenes.mjs"

const REPLICATES = 32
const RUNS = 400
const COUNTS = [32, 256]
const DEPTHS = [1, 1.2]

/** How often 95 % intervals of runs of points hold the rate and the difference that all runs together give. */
export function findHeld() {
  const scene = depthsScene(6, 1)
  const poses = DEPTHS.map((depth) => PAIR_DEPTHS.indexOf(depth))
  const e = armEngine(
    { ...scene, poses: poses.map((pose) => scene.poses[pose]), strata: ofPoses(scene.strata, poses) },
    ARMS[2],
  )
  const found = Array.from({ length: RUNS * REPLICATES }, (_, r) => replicateSums(e, r, COUNTS, ARMS[2].decide))
  return COUNTS.map((count, k) => {
    const sums = DEPTHS.map((_, pose) => found.map((replicate) => replicate[k][pose]))
    const [first, second] = sums.map((all) => departures(all).rate)
    const held = { rate: 0, difference: 0 }
    for (let run = 0; run < RUNS; run++) {
      const columns = sums.flatMap((all) => {
        const mine = all.slice(run * REPLICATES, (run + 1) * REPLICATES)
        return [mine.map(({ saved }) => saved), mine.map(({ onGoal }) => onGoal)]
      })
      const rate = ratioOverReplicates(columns[0], columns[1], REPLICATES * count, 0.95)
      const difference = differenceOverReplicates(...columns, REPLICATES * count, 0.95)
      if (rate.low <= first && first <= rate.high) held.rate++
      if (difference.low <= first - second && first - second <= difference.high) held.difference++
    }
    return { shots: REPLICATES * count, rate: held.rate / RUNS, difference: held.difference / RUNS }
  })
}

function ofPoses(strata, poses) {
  const rows = poses.map((pose) => strata.share.subarray(pose * strata.count, (pose + 1) * strata.count))
  const share = new Float64Array(poses.length * strata.count)
  for (const [to, row] of rows.entries()) share.set(row, to * strata.count)
  return { ...strata, share }
}

export function heldText(found) {
  const lines = [
    "## Whether intervals hold",
    "",
    `How often the 95 % intervals of ${RUNS} runs of scrambled Sobol points hold what all runs together give: the save rate at`,
    `${DEPTHS[0].toFixed(1)} m and its difference from that at ${DEPTHS[1]} m, 6 m, a shooter who reads, seed key ${KEY.join(", ")}. A share is good to about 1.1 %.`,
    "",
    "| shots of a run | rate | difference |",
    "| ---: | ---: | ---: |",
  ]
  for (const { shots, rate, difference } of found)
    lines.push(
      `| ${shots.toLocaleString("en-US")} | ${(100 * rate).toFixed(1)} % | ${(100 * difference).toFixed(1)} % |`,
    )
  return lines.join("\n")
}
