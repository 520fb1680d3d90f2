import { ARMS, armEngine, departures, KEY, replicateSums, variance } from "./arms.mjs"
import { RATES } from "./scenes.mjs"

const REPLICATES = 512
/** Batches of 256 of a replicate: powers of two, and what lies between them. */
const BATCHES = [1, 2, 3, 4, 5, 6, 7, 8]

/** Standard deviation of the save rate over scramblings after each count of whole batches. */
export function findBetween() {
  return Object.entries(RATES).map(([question, make]) => {
    const e = armEngine(make(), ARMS[2])
    const counts = BATCHES.map((batches) => 256 * batches)
    const found = Array.from({ length: REPLICATES }, (_, r) => replicateSums(e, r, counts, ARMS[2].decide))
    const errors = counts.map((_, k) => Math.sqrt(variance(departures(found.map((sums) => sums[k][0])).residuals)))
    return { question, errors }
  })
}

/** The error that a straight line through the neighbouring powers of two has, on logarithms. */
function expected(errors, batches) {
  const below = 2 ** Math.floor(Math.log2(batches))
  const share = Math.log2(batches / below)
  return errors[below - 1] * (errors[2 * below - 1] / errors[below - 1]) ** share
}

export function betweenText(found) {
  const lines = [
    "## Between the powers of two",
    "",
    "A replicate is whole batches of 256 points, each of which is evenly spread by itself, and their number is not rounded up",
    "to a power of two. Standard deviation of the save rate over scramblings, in points, by shots of one scrambling, and in",
    "brackets how many times that of the line through the powers of two on either side, on logarithms;",
    `${REPLICATES} scramblings, seed key ${KEY.join(", ")}. A deviation is good to about 3 %.`,
    "",
    `| question | ${BATCHES.map((batches) => (256 * batches).toLocaleString("en-US")).join(" | ")} |`,
    `| --- |${BATCHES.map(() => " ---: |").join("")}`,
  ]
  for (const { question, errors } of found) {
    const cells = errors.map((error, k) => {
      const isPower = Number.isInteger(Math.log2(BATCHES[k]))
      return `${(100 * error).toFixed(3)}${isPower ? "" : ` (${(error / expected(errors, BATCHES[k])).toFixed(2)})`}`
    })
    lines.push(`| ${question} | ${cells.join(" | ")} |`)
  }
  return lines.join("\n")
}
