import { ARMS, armEngine, departures, KEY, replicateSums, variance } from "./arms.mjs"
import { depthsScene, PAIR_DEPTHS, PAIRS } from "./scenes.mjs"

const REPLICATES = 512
const SHOTS = 256
const DISTANCES = [5, 6, 8, 12]

/** Rate and departures of every depth with the draws of an arm. */
function depthsOf(scene, arm) {
  const e = armEngine(scene, arm)
  const found = Array.from({ length: REPLICATES }, (_, r) => replicateSums(e, r, [SHOTS], arm.decide)[0])
  return PAIR_DEPTHS.map((_, pose) => departures(found.map((poses) => poses[pose])))
}

/** How many fewer shots a difference needs than from two runs of the plain estimator: by shooter, distance and pair. */
export function findPairs() {
  const rows = []
  for (const [shooter, reading] of [
    ["blind", 0],
    ["reads", 1],
  ])
    for (const distance of DISTANCES) {
      const scene = depthsScene(distance, reading)
      const [draws, points] = [ARMS[1], ARMS[2]].map((arm) => depthsOf(scene, arm))
      for (const pair of PAIRS) {
        const [i, j] = pair.map((depth) => PAIR_DEPTHS.indexOf(depth))
        // plain runs of as many shots: every save a whole one
        const plain = [i, j].reduce((sum, k) => sum + (draws[k].rate * (1 - draws[k].rate)) / draws[k].onGoal, 0)
        const gain = (poses) => plain / variance(poses[i].residuals.map((one, r) => one - poses[j].residuals[r]))
        rows.push({
          shooter,
          distance,
          pair,
          points: 100 * (points[j].rate - points[i].rate),
          gains: [gain(draws), gain(points)],
        })
      }
    }
  return rows
}

export function pairsText(rows) {
  const lines = [
    "## Differences of two depths",
    "",
    `How many times fewer shots for each depth a difference needs on the same shots than from two runs of the plain estimator`,
    `on shots of their own; ${REPLICATES} replicates of ${SHOTS} shots, seed key ${KEY.join(", ")}, default settings. A factor is good to about 9 %.`,
    "",
    "| shooter | distance | depths | difference | independent draws | scrambled Sobol points |",
    "| --- | --- | --- | ---: | ---: | ---: |",
  ]
  for (const { shooter, distance, pair, points, gains } of rows) {
    const depths = pair.map((depth) => depth.toFixed(1)).join(" to ")
    lines.push(
      `| ${shooter} | ${distance} m | ${depths} m | ${points.toFixed(2)} points | ${gains.map((gain) => gain.toFixed(1)).join(" | ")} |`,
    )
  }
  return lines.join("\n")
}
