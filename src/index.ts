/**
 * goalmouth as a library: the same engine the command line runs.
 *
 *     import { answerOf, readExperiment, runExperiment } from "goalmouth"
 *
 *     const read = readExperiment("experiments/depth-straight-shots.yaml", { shots: "4000" })
 *     if ("problems" in read) throw new Error(read.problems.map((problem) => problem.text).join("\n"))
 *     const results = await runExperiment(read.experiment, { version: "mine", workers: 1, assumptions: false })
 *     answerOf(results).headline    // the answer in a sentence
 *     results.points[0].estimates.save_rate    // { mean, low, high, standardError, n, confidence, method }
 *
 * Everything inside is SI and radians in one frame: origin at the centre of the goal line on the ice, x out toward
 * centre ice, y to the left of a goalie who faces out, z up. What crosses a border is plain data.
 */

// questions: read a file, run it, say what it found, write it down
export type { DesignPoint, Experiment, Swept } from "./experiments/experiment.ts"
export { instantiateKernel } from "./experiments/kernel/instantiate.ts"
export { loadKernel } from "./experiments/kernel/load.ts"
export { MEASURES, type Measure } from "./experiments/measures.ts"
export {
  type Overrides,
  type Problem,
  type ReadResult,
  readExperiment,
  readExperimentText,
} from "./experiments/read/read-experiment.ts"
export { type Answer, answerOf, type Finding } from "./experiments/report/answer.ts"
export type {
  AssumptionRange,
  Crossing,
  CurveFinding,
  PointResult,
  PuckEyePanel,
  ReachMapPicture,
  RunResults,
  Warning,
} from "./experiments/results.ts"
export { type RunOptions, runExperiment } from "./experiments/run/run-experiment.ts"
export { seedKey } from "./experiments/seed.ts"
export type { RunFacts } from "./experiments/write/manifest.ts"
export { runFilesOf, writeRun } from "./experiments/write/run-files.ts"
// hockey: settings, what each parameter is and where it is from, and the flat scene the engine runs
export type { Choice, Quantity } from "./models/parameter.ts"
export { compileScene } from "./models/plays/scene.ts"
export { boxOfPlay, puckEyeOf } from "./models/positioning/box-of.ts"
export { reachOf } from "./models/positioning/reach-of.ts"
export {
  CHOICES,
  type ChoiceKey,
  defaultSettings,
  QUANTITIES,
  type QuantityKey,
  type Settings,
  withSettings,
} from "./models/settings.ts"
export type { Source } from "./models/source.ts"
export { SOURCES } from "./models/sources.ts"
// engine: shots, tallies, estimates
export { type Box, measureBox } from "./sim/box/box.ts"
export { decideConditional } from "./sim/conditional.ts"
export type { Estimate } from "./sim/estimate.ts"
export type { Pose, Scene } from "./sim/pose.ts"
export type { SeedKey } from "./sim/random/streams.ts"
export { decidePlain } from "./sim/referee.ts"
export { engine, fireBatches, planShots, type ShotPlan } from "./sim/sampling.ts"
export { differenceOverReplicates } from "./sim/statistics/difference.ts"
export { ratioOverReplicates } from "./sim/statistics/ratio.ts"
export { wilson } from "./sim/statistics/wilson.ts"
export type { Tally } from "./sim/tally.ts"
