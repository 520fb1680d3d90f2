import { runExperiment } from "../dist/experiments/run/run-experiment.js"
import { inTurn, processorSeconds } from "./clock.mjs"
import { table } from "./markdown.mjs"
import { QUESTIONS, questionOf, SEED } from "./questions.mjs"

/** Half-widths that are waited for, percentage points. */
const WANTED = [0.5, 0.1]
/** Shots at most: far more than any of them needs. */
const MOST = 10_000_000
/** A run as short as this answers nothing but the rate. */
const OPTIONS = { version: "benchmark", workers: 1, assumptions: false, pictures: false }

/**
 * Processor seconds of whole runs in this thread until one save rate is known to a half-width, and the shots the run
 * fires until it says so: medians of rounds in turn, after one that does not count.
 */
export async function halfWidthStage(rounds, wanted = WANTED) {
  const runs = Object.keys(QUESTIONS).flatMap((question) => wanted.map((points) => ({ question, points })))
  const found = []
  const jobs = runs.map(({ question, points }, i) => {
    const experiment = questionOf(question, `until: { half-width: ${points} %, most: ${MOST} }\n`)
    return async () => {
      const from = processorSeconds()
      const results = await runExperiment(experiment, OPTIONS)
      const seconds = processorSeconds() - from
      found[i] = reached(results)
      return seconds
    }
  })
  const times = await inTurn(jobs, rounds, 1)
  return runs.map((run, i) => ({ ...run, ...found[i], seconds: times[i] }))
}

/** Shots of a run and the half-width of its rate, points. */
function reached({ shots, stoppedBy, points }) {
  if (stoppedBy !== "half-width")
    throw new Error(`Cannot time a run to a half-width as it must get there: it was stopped by ${stoppedBy}`)
  const { low, high } = points[0].estimates.save_rate
  return { shots, half: 50 * (high - low) }
}

/** What the stage found, as a section of a page of Markdown. */
export function halfWidthSection(rows, rounds) {
  return `## Time to a half-width

Whole runs of one save rate in one warm thread, no pictures and no assumptions, until the half-width of its 95 % interval is
what was asked for; seed ${SEED}, medians of ${rounds} rounds. A run judges itself at 2,048 shots and each time they have
doubled, so it mostly ends with less than was asked for. \`variance.md\` has the shots that these questions need without
that rounding up, and how many times fewer they are than those of the plain estimator.

${table(
  ["question", "asked for, points", "reached, points", "shots", "processor time, s"],
  rows.map(({ question, points, half, shots, seconds }) => [
    question,
    `± ${points}`,
    `± ${half.toFixed(2)}`,
    shots.toLocaleString("en-GB"),
    seconds.toPrecision(2),
  ]),
)}`
}
