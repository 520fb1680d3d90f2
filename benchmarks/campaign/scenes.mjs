import { readExperimentText } from "../../dist/experiments/read/read-experiment.js"

/** Small questions that fire fast: the best depth inside the sweep, of seven, five and three depths. */
const SCENES = {
  "reader from 5 m": {
    text: `play: { distance: 5 m }
sweep: { goalie.depth: [0.8 m, 1.05 m, 1.3 m, 1.55 m, 1.8 m, 2.05 m, 2.3 m] }
baseline: { goalie.depth: 0.8 m }`,
  },
  "blind from 4 m": {
    text: `play: { distance: 4 m }
shooter: { reading: 0 }
sweep: { goalie.depth: [0.5 m, 0.85 m, 1.2 m, 1.55 m, 1.9 m] }
baseline: { goalie.depth: 0.5 m }`,
  },
  "three depths": {
    text: `play: { distance: 5 m, angle: 30 deg }
sweep: { goalie.depth: [1 m, 1.5 m, 2 m] }
baseline: { goalie.depth: 1 m }`,
  },
}

/** The experiment of a scene with lines of its own, such as `shots: 1024`. */
export function experimentOf(scene, lines, seed) {
  const text = `question: How often do intervals hold the truth?\n${SCENES[scene].text}\n${lines}\nseed: ${seed}\n`
  const read = readExperimentText("coverage.yaml", text)
  if ("problems" in read) throw new Error(read.problems.map((problem) => problem.text).join("\n"))
  return read.experiment
}

const FIXED = { name: "1,024 shots", lines: "shots: 1024" }
const stopped = (half, of) => ({
  name: `until ± ${half} % of the ${of}`,
  lines: `until: { half-width: ${half} %, most: 65536${of === "rate" ? "" : `, of: ${of}`} }`,
})

/** A scene with a rule for how many shots; half-widths at which about half of the runs stop at the first count. */
export const PARTS = [
  ["reader from 5 m", FIXED],
  ["blind from 4 m", FIXED],
  ["three depths", FIXED],
  ["three depths", stopped(1, "rate")],
  ["three depths", stopped(1.05, "difference")],
  ["blind from 4 m", stopped(1.15, "rate")],
  ["blind from 4 m", stopped(1.3, "difference")],
].map(([scene, { name, lines }, note = ""]) => ({ name: `${scene}, ${name}`, scene, lines, note }))
