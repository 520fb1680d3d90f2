import { ratioOverReplicates } from "../../dist/sim/statistics/ratio.js"
import { ARMS, armEngine, KEY, replicateSums } from "./arms.mjs"
import { RATES } from "./scenes.mjs"

const REPLICATES = 32
const RUNS = 20
const WANTED = [0.005, 0.001]
/** Shots of a replicate: independent draws are measured at the first alone, as their half-width falls as the root. */
const COUNTS = [32, 64, 128, 256, 512, 1024, 2048, 4096]
const MEASURED_BY = 512

/** Mean half-width of RUNS runs of REPLICATES replicates, each from its own error bar, by shots of a replicate. */
function halfWidths(scene, arm, counts) {
  const e = armEngine(scene, arm)
  const sums = counts.map(() => [])
  for (let r = 0; r < RUNS * REPLICATES; r++)
    for (const [k, [one]] of replicateSums(e, r, counts, arm.decide).entries()) sums[k].push(one)
  return sums.map((all, k) => {
    let sum = 0
    for (let run = 0; run < RUNS; run++) {
      const mine = all.slice(run * REPLICATES, (run + 1) * REPLICATES)
      const shots = REPLICATES * counts[k]
      const { low, high } = ratioOverReplicates(
        mine.map((m) => m.saved),
        mine.map((m) => m.onGoal),
        shots,
        0.95,
      )
      sum += 0.5 * (high - low)
    }
    return sum / RUNS
  })
}

/** Shots at which a half-width is reached: between two counts on the straight line of their logarithms. */
function shotsFor(wanted, counts, widths) {
  for (let k = 1; k < counts.length; k++) {
    if (widths[k] > wanted && k + 1 < counts.length) continue
    const slope = Math.log(widths[k] / widths[k - 1]) / Math.log(counts[k] / counts[k - 1])
    return REPLICATES * counts[k - 1] * Math.exp(Math.log(wanted / widths[k - 1]) / slope)
  }
}

/** For each question and arm the shots each half-width takes. */
export function findRates() {
  return Object.entries(RATES).map(([question, make]) => {
    const scene = make()
    const arms = ARMS.map((arm) => {
      if (arm.sampler === "independent draws") {
        const [width] = halfWidths(scene, arm, [MEASURED_BY])
        return { name: arm.name, shots: WANTED.map((wanted) => REPLICATES * MEASURED_BY * (width / wanted) ** 2) }
      }
      const widths = halfWidths(scene, arm, COUNTS)
      return { name: arm.name, shots: WANTED.map((wanted) => shotsFor(wanted, COUNTS, widths)), widths }
    })
    return { question, arms }
  })
}

export function ratesText(found) {
  const lines = [
    "## One rate",
    "",
    `Shots of a point until the half-width of its 95 % interval, as the run itself gives it, is 0.5 and 0.1 points: mean`,
    `half-widths of ${RUNS} runs of ${REPLICATES} replicates, seed key ${KEY.join(", ")}. Independent draws are measured with ${MEASURED_BY} shots a replicate`,
    `and scaled by the root; points with ${COUNTS[0]} to ${COUNTS.at(-1).toLocaleString("en-US")} shots a replicate. In brackets how many times fewer than the first row.`,
    "A half-width is good to about 3 %, a number of shots to about 6 %.",
    "",
    "| question | draws and estimator | ± 0.5 points | ± 0.1 points |",
    "| --- | --- | ---: | ---: |",
  ]
  for (const { question, arms } of found)
    for (const { name, shots } of arms) {
      const cells = shots.map(
        (n, k) => `${Math.round(n).toLocaleString("en-US")} (${(arms[0].shots[k] / n).toFixed(1)})`,
      )
      lines.push(`| ${question} | ${name} | ${cells.join(" | ")} |`)
    }
  return lines.join("\n")
}
