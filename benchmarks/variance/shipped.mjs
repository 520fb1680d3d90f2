import { readExperiment } from "../../dist/experiments/read/read-experiment.js"
import { groupPoints } from "../../dist/experiments/run/groups.js"
import { shippedExperiments } from "../../dist/experiments/shipped.js"
import { compileScene } from "../../dist/models/plays/scene.js"
import { drawsWithoutDimension } from "../../dist/sim/spread-draws.js"
import { ARMS, armEngine, departures, KEY, replicateSums, variance } from "./arms.mjs"

const REPLICATES = 512
const SHOTS = 256
/** Design points of an experiment that are looked at: the baseline and others that share its shots, evenly. */
const MOST_POINTS = 4

/** Settings of the baseline and of others that meet the same shots. */
function settingsOf({ points, baseline }) {
  const group = groupPoints(points).find((one) => one.points.includes(baseline))
  const others = group.points.filter((index) => index !== baseline)
  const count = Math.min(MOST_POINTS - 1, others.length)
  const taken = Array.from({ length: count }, (_, i) => others[Math.round(((i + 1) / count) * (others.length - 1))])
  return [baseline, ...new Set(taken)].map((index) => points[index].settings)
}

/** How many times fewer shots points need than independent draws: a save rate, and a difference from the baseline. */
export function findShipped() {
  return shippedExperiments().map(({ path }) => {
    const { experiment } = readExperiment(path)
    const scene = compileScene(settingsOf(experiment))
    const [draws, points] = [ARMS[1], ARMS[2]].map((arm) => {
      const e = armEngine(scene, arm)
      const found = Array.from({ length: REPLICATES }, (_, r) => replicateSums(e, r, [SHOTS], arm.decide)[0])
      return scene.poses.map((_, pose) => departures(found.map((poses) => poses[pose])))
    })
    const alone = (poses, i) => poses[i].residuals
    const less = (poses, i) => poses[i].residuals.map((one, r) => one - poses[0].residuals[r])
    const gains = (of, from) =>
      scene.poses.flatMap((_, i) => (i < from ? [] : [variance(of(draws, i)) / variance(of(points, i))]))
    const apart = scene.poses.map((_, i) => {
      const error = Math.sqrt((variance(alone(draws, i)) + variance(alone(points, i))) / REPLICATES)
      return Math.abs(draws[i].rate - points[i].rate) / error
    })
    return {
      name: experiment.name,
      beyond: drawsWithoutDimension(scene),
      rate: mean(gains(alone, 0)),
      difference: mean(gains(less, 1)),
      apart: Math.max(...apart.filter(Number.isFinite)),
    }
  })
}

/** Geometric mean; null of nothing. */
function mean(gains) {
  const finite = gains.filter((gain) => Number.isFinite(gain) && gain > 0)
  return finite.length === 0 ? null : Math.exp(finite.reduce((sum, gain) => sum + Math.log(gain), 0) / finite.length)
}

export function shippedText(rows) {
  const lines = [
    "## Shipped experiments",
    "",
    `The ${rows.length} experiments that were shipped when this was measured.`,
    "",
    "How many times fewer shots scrambled Sobol points need than independent draws, both with the conditional estimator: a",
    `save rate, and its difference from the baseline on the same shots (the baseline and at most ${MOST_POINTS - 1} other points that share its`,
    `shots, geometric means); ${REPLICATES} replicates of ${SHOTS} shots, seed key ${KEY.join(", ")}. A factor is good to about 9 %. Draws beyond are those of a`,
    "shot that have no dimension and stay independent. Apart is how many standard errors the save rates of the two lie from each",
    "other where they lie furthest.",
    "",
    "| experiment | draws beyond | save rate | difference | apart |",
    "| --- | ---: | ---: | ---: | ---: |",
  ]
  const shown = (gain) => (gain === null ? "" : gain.toFixed(2))
  for (const { name, beyond, rate, difference, apart } of rows)
    lines.push(`| ${name} | ${beyond} | ${shown(rate)} | ${shown(difference)} | ${apart.toFixed(1)} |`)
  return lines.join("\n")
}
