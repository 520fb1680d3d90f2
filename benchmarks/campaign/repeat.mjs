import { samplingOf } from "../../dist/experiments/experiment.js"
import { curveFindings, curveSets } from "../../dist/experiments/run/curves.js"
import { fireUntilEnough, planOf } from "../../dist/experiments/run/fire.js"
import { groupPoints } from "../../dist/experiments/run/groups.js"
import { resultsOfPoint } from "../../dist/experiments/run/point-results.js"
import { talliesOfPoints } from "../../dist/experiments/run/point-tallies.js"
import { runBatchTask, taskRunner } from "../../dist/experiments/run/tasks.js"
import { findingsWaited } from "../../dist/experiments/run/waited.js"
import { seedKey } from "../../dist/experiments/seed.js"
import { compileScene } from "../../dist/models/plays/scene.js"

/** Makes a run of an experiment again and again under other seeds, with what is compiled kept. */
export function repeater(experiment) {
  const groups = groupPoints(experiment.points)
  const scenes = groups.map((group) => compileScene(group.settings))
  const sets = curveSets(experiment)
  const batch = planOf(experiment).batch
  const kept = taskRunner({
    groups: groups.map((group) => group.settings),
    key: [0, 0],
    batch,
    sampler: samplingOf(experiment),
  })
  return async (seed) => {
    const key = seedKey(seed)
    const runner = { ...kept, setup: { ...kept.setup, key } }
    const pool = { workers: 1, batches: async (task) => runBatchTask(runner, task) }
    const fired = await fireUntilEnough({ ...experiment, seed }, groups, scenes, pool, {})
    const sums = talliesOfPoints(experiment, groups, fired)
    const rows = experiment.points.map(({ index }) => resultsOfPoint(experiment, index, sums, [], {})[0])
    const said = { curves: curveFindings(sets, sums, key, "save_rate"), crossings: [], shifts: [] }
    const { curves } = findingsWaited(experiment, said)
    return { shots: Math.max(...fired.shots), found: figuresOfRun(experiment, rows, curves) }
  }
}

/** The estimates whose coverage is counted: rates at the first and the middle depth, differences, the best depth. */
export function figuresOfRun(experiment, rows, curves) {
  const at = (index) => `${experiment.points[index].swept[0].toFixed(2)} m`
  const last = rows.length - 1
  const middle = last / 2
  const figures = {}
  for (const index of [0, middle]) figures[`save rate at ${at(index)}`] = rows[index].estimates.save_rate
  for (const index of new Set([1, middle, last]))
    figures[`save rate at ${at(index)} less that at ${at(0)}`] = rows[index].differences.save_rate
  figures["best depth"] = curves[0].best
  const places = Object.entries(figures).map(([name, { mean, low, high }]) => [name, [mean, low, high]])
  return Object.fromEntries(places)
}
