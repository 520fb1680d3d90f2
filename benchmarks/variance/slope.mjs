import seedrandom from "seedrandom"
import { ARMS, armEngine, departures, KEY, replicateSums, variance } from "./arms.mjs"
import { RATES } from "./scenes.mjs"

/** Scramblings of each question: with so many the upper bound of the slope stands some 0.013 above it. */
const SCRAMBLES = 1024
const DIGITS = [10, 11, 12, 13, 14, 15, 16]
const RESAMPLES = 2000
const BOUND = 0.95

/** Slope of the logarithm of the error over scrambles on that of the shots, and its upper bound by the bootstrap. */
export function findSlopes() {
  return Object.entries(RATES).map(([question, make]) => {
    const e = armEngine(make(), ARMS[2])
    const counts = DIGITS.map((digits) => 2 ** digits)
    // the first points of a scrambling are a scrambling of fewer: one run tells of every count
    const found = Array.from({ length: SCRAMBLES }, (_, r) => replicateSums(e, r, counts, ARMS[2].decide))
    const residuals = counts.map((_, k) => departures(found.map((sums) => sums[k][0])).residuals)
    const chance = seedrandom("slope")
    const slopes = Array.from({ length: RESAMPLES }, () => {
      const taken = residuals[0].map(() => Math.floor(chance() * residuals[0].length))
      return slopeOf(residuals.map((row) => taken.map((r) => row[r])))
    }).sort((a, b) => a - b)
    const errors = residuals.map((row) => Math.sqrt(variance(row)))
    const upper = slopes[Math.ceil(BOUND * RESAMPLES) - 1]
    return { question, scrambles: found.length, errors, slope: slopeOf(residuals), upper }
  })
}

/** Least squares of log2 error on log2 shots. */
function slopeOf(residuals) {
  const y = residuals.map((row) => 0.5 * Math.log2(variance(row)))
  const [mx, my] = [DIGITS, y].map((list) => list.reduce((a, b) => a + b, 0) / list.length)
  const above = DIGITS.reduce((sum, x, k) => sum + (x - mx) * (y[k] - my), 0)
  return above / DIGITS.reduce((sum, x) => sum + (x - mx) ** 2, 0)
}

export function slopesText(found) {
  const lines = [
    "## How fast the error falls",
    "",
    `Standard deviation of the save rate over independent scramblings, in points, by shots of one scrambling (seed key`,
    `${KEY.join(", ")}), and the slope of its logarithm on that of the shots; independent draws have -0.5. The upper bound is the`,
    `${100 * BOUND} % point of ${RESAMPLES.toLocaleString("en-US")} bootstrap samples of the scramblings, seed "slope".`,
    "",
    `| question | scramblings | ${DIGITS.map((digits) => `2^${digits}`).join(" | ")} | slope | upper bound |`,
    `| --- | ---: |${DIGITS.map(() => " ---: |").join("")} ---: | ---: |`,
  ]
  for (const { question, scrambles, errors, slope, upper } of found) {
    const cells = errors.map((error) => (100 * error).toFixed(4)).join(" | ")
    lines.push(`| ${question} | ${scrambles} | ${cells} | ${slope.toFixed(3)} | ${upper.toFixed(3)} |`)
  }
  return lines.join("\n")
}
