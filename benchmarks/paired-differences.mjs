// How many fewer shots a difference of two depths needs on the same shots than from independent runs, by distance and
// pair of depths. Prints a Markdown table. Run after `npm run build`: node benchmarks/paired-differences.mjs
import { compileScene } from "../dist/models/plays/scene.js"
import { defaultSettings, withSettings } from "../dist/models/settings.js"
import { engine, fireBatches } from "../dist/sim/sampling.js"
import { ON_GOAL_SUM, SAVED, TALLY_STRIDE } from "../dist/sim/tally.js"

const KEY = [5, 6]
const REPLICATES = 512
const SHOTS = 256
const DEPTHS = [0.5, 1, 1.2, 1.5, 2]
const PAIRS = [
  [1, 1.2],
  [1, 1.5],
  [0.5, 1.5],
  [1, 2],
]

/** Variance of a list. */
function variance(values) {
  const mean = values.reduce((a, b) => a + b, 0) / values.length
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1)
}

/** Save rates and linearised residuals of every depth, by replicate. */
function fire(distance, reading) {
  const settings = DEPTHS.map((depth) =>
    withSettings(defaultSettings(), {
      quantities: { "play.distance": distance, "goalie.depth": depth, "shooter.reading": reading },
    }),
  )
  const e = engine(compileScene(settings), SHOTS)
  const tallies = Array.from({ length: REPLICATES }, (_, r) => fireBatches(e, KEY, r, 0, 1, SHOTS))
  return DEPTHS.map((_, pose) => {
    const saved = tallies.map((tally) => tally.sums[pose * TALLY_STRIDE + SAVED])
    const onGoal = tallies.map((tally) => tally.sums[pose * TALLY_STRIDE + ON_GOAL_SUM])
    const all = onGoal.reduce((a, b) => a + b, 0)
    const rate = saved.reduce((a, b) => a + b, 0) / all
    const mean = all / REPLICATES
    // a plain run of as many shots: every save a whole one
    const plain = (rate * (1 - rate)) / mean
    return { rate, plain, residuals: saved.map((value, r) => (value - rate * onGoal[r]) / mean) }
  })
}

console.log(`| shooter | distance | depths | difference | against plain independent runs | against conditional ones |`)
console.log(`|---|---|---|---|---|---|`)
for (const [name, reading] of [
  ["blind", 0],
  ["reads", 1],
])
  for (const distance of [5, 6, 8, 12]) {
    const arms = fire(distance, reading)
    for (const [from, to] of PAIRS) {
      const a = arms[DEPTHS.indexOf(from)]
      const b = arms[DEPTHS.indexOf(to)]
      const paired = variance(a.residuals.map((value, r) => value - b.residuals[r]))
      const plain = (a.plain + b.plain) / paired
      const own = (variance(a.residuals) + variance(b.residuals)) / paired
      const points = (100 * (b.rate - a.rate)).toFixed(2)
      console.log(
        `| ${name} | ${distance} m | ${from.toFixed(1)} to ${to.toFixed(1)} m | ${points} points | ${plain.toFixed(1)} | ${own.toFixed(1)} |`,
      )
    }
  }
console.log(
  `\nseed key ${KEY.join(", ")}, ${REPLICATES} replicates of ${SHOTS} shots, default settings; a factor is good to about 9 %`,
)
