import { readExperimentText } from "../dist/experiments/read/read-experiment.js"

/** The questions of one rate that are measured as runs: what each says of its play, everything else by default. */
export const QUESTIONS = {
  "straight shot from 6 m": "play.distance: 6 m",
  "cross-ice pass": "play.kind: cross-ice pass",
}

/** The seed of their runs. */
export const SEED = "northlake question"

/** One of them, read as from a file; `more` is further lines of it. */
export function questionOf(name, more = "") {
  const text = `question: How often does the goalie save it?\n${QUESTIONS[name]}\nseed: ${SEED}\n${more}`
  const read = readExperimentText("question.yaml", text)
  if ("problems" in read) throw new Error(read.problems.map((problem) => problem.text).join("\n"))
  return read.experiment
}
