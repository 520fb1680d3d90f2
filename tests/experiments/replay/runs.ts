import type { Experiment } from "../../../src/experiments/experiment.ts"
import { readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import { fireShot, openReplay, type Replay } from "../../../src/experiments/replay/replay.ts"
import { isOnGoal } from "../../../src/sim/fate.ts"

/** An experiment from the lines of its file. */
export function experimentOf(...lines: readonly string[]): Experiment {
  const read = readExperimentText(
    "northlake.yaml",
    ["question: Is it saved?", "seed: northlake replay", ...lines].join("\n"),
  )
  if ("problems" in read) throw new Error(read.problems.map(({ text }) => text).join("\n"))
  return read.experiment
}

export function replayOf(...lines: readonly string[]): Replay {
  const experiment = experimentOf(...lines)
  return openReplay(experiment, experiment.baseline)
}

/** Calls back with the shots of replicate 0 that the goalie has to stop, in order, until `count` are done. */
export function eachOnGoal(replay: Replay, count: number, visit: (shot: ReturnType<typeof fireShot>) => void): void {
  for (let index = 0, done = 0; done < count; index++) {
    const shot = fireShot(replay, { replicate: 0, index })
    if (!isOnGoal(replay.engine.batch.fate[shot.i]!)) continue
    visit(shot)
    done++
  }
}
