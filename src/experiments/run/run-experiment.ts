import { compileScene, outlineScene, type SceneOutline } from "../../models/plays/scene.ts"
import { INDEPENDENT_DRAWS, type Sampler } from "../../sim/sampler.ts"
import { drawsWithoutDimension, SPREAD_DIMENSIONS } from "../../sim/spread-draws.ts"
import { type Experiment, samplingOf } from "../experiment.ts"
import { keepShots } from "../keep/keep-shots.ts"
import { ratedBy } from "../rated.ts"
import { warningsOf } from "../report/warnings.ts"
import { comparedWith } from "../report/words.ts"
import type { PointResult, RunResults, Warning } from "../results.ts"
import { seedKey } from "../seed.ts"
import { findSensitivity } from "../sensitivity/find-sensitivity.ts"
import { withAssumptions, withBestAssumptions } from "./assumptions.ts"
import { crossingFindings, type PairSource, rivalFindings, shiftFindings } from "./curve-pairs.ts"
import { curveFindings, curveSets } from "./curves.ts"
import { type Fired, fireUntilEnough } from "./fire.ts"
import { breakdownsOf, goalMapsOf } from "./goal-maps.ts"
import { type Group, groupPoints } from "./groups.ts"
import { withStops } from "./half-widths.ts"
import { interactionFindings } from "./interactions.ts"
import { CONFIDENCE } from "./intervals.ts"
import { keptShares } from "./kept-shares.ts"
import { withOpenNets } from "./open-net-estimates.ts"
import { measuresOf, openNetsOf, picturesOf } from "./pictures.ts"
import { resultsOfPoint } from "./point-results.ts"
import { type PointTallies, shotsInAll, talliesOfPoints } from "./point-tallies.ts"
import { openPool, type Pool } from "./pool.ts"
import type { RunOptions } from "./run-options.ts"
import { ratesUnderSets } from "./set-rates.ts"
import { planOf } from "./shot-plan.ts"
import { findingsWaited } from "./waited.ts"
import { worstFindings } from "./worst-of.ts"

export type { RunOptions } from "./run-options.ts"

/** Runs an experiment: fires, merges in batch order, estimates, compares, draws the pictures' data. */
export async function runExperiment(experiment: Experiment, options: RunOptions): Promise<RunResults> {
  const key = seedKey(experiment.seed)
  const rated = ratedBy(experiment)
  const groups = groupPoints(experiment.points)
  const setup = { groups: groups.map((group) => group.settings), key, ...firingOf(experiment) }
  const pool = await openPool(setup, options.workers)
  try {
    // what cannot be played is found before the first shot: in the first group by who fires it, in the others here
    const scenes = groups.map(({ settings }, at) => (at === 0 ? outlineScene(settings) : compileScene(settings)))
    const picturing = picturesOf(experiment, groups, pool, options)
    const fired = await fireUntilEnough(experiment, groups, scenes, pool, options)
    let stoppedBy: string = fired.stoppedBy
    const sums = talliesOfPoints(experiment, groups, fired)
    const points = await pointResults(experiment, groups, scenes, sums, fired.stoppedBy, pool)
    const sets = curveSets(experiment)
    const curves = curveFindings(sets, sums, key, rated)
    const wanted = options.assumptions && stoppedBy !== "interrupted"
    const under = wanted ? await ratesUnderSets(experiment, groups, pool, key, shotsInAll(fired), options) : null
    if (wanted && under === null) stoppedBy = "interrupted"
    const halved = under?.rates ?? null
    const rates = halved?.whole ?? null
    const pairs = { experiment, sets, sums, key, rates }
    const asked = stoppedBy === "interrupted" ? undefined : experiment.sensitivity
    const kept = keptShares(pool, options.checkpoint)
    const sensitivity =
      asked === undefined ? null : await findSensitivity(experiment, asked, groups, kept.pool, key, options)
    if (asked !== undefined) await kept.seal(sensitivity === null)
    if (asked !== undefined && sensitivity === null) stoppedBy = "interrupted"
    const file = stoppedBy === "interrupted" ? undefined : options.keepShots
    if (file !== undefined && !(await keepShots(experiment, groups, scenes, fired, pool, file, options)))
      stoppedBy = "interrupted"
    const said = {
      curves: rates === null ? curves : withBestAssumptions(curves, sets, rates, rated),
      ...pairedFindings(pairs),
    }
    const results: RunResults = {
      experiment,
      version: options.version,
      points:
        under === null ? points : withAssumptions(points, under, (index) => comparedWith(experiment, index), rated),
      ...findingsWaited(experiment, said),
      ...(experiment.interactions === undefined
        ? {}
        : { interactions: interactionFindings(experiment, sums, rated === "save_rate" ? halved : null) }),
      ...(sensitivity === null ? {} : { sensitivity }),
      warnings: [],
      ...(await picturing),
      goalMaps: options.pictures === false ? [] : goalMapsOf(experiment, sums),
      breakdowns: breakdownsOf(experiment, sums),
      ...spreadOf(setup.sampler, scenes),
      shots: Math.max(...fired.shots),
      replicates: fired.replicates,
      confidence: CONFIDENCE,
      stoppedBy,
    }
    return { ...results, warnings: [...interruption(stoppedBy, fired), ...warningsOf(results)] }
  } finally {
    await pool.close()
  }
}

/** How an experiment's shots are cut, and where their draws come from. */
function firingOf(experiment: Experiment) {
  return { batch: planOf(experiment).batch, sampler: samplingOf(experiment) }
}

/** What several curves say together. */
function pairedFindings(source: PairSource) {
  const rivals = rivalFindings(source)
  return {
    crossings: crossingFindings(source),
    shifts: shiftFindings(source),
    ...(rivals.length === 0 ? {} : { rivals }),
    ...worstFindings(source),
  }
}

/** Dimensions of the points, and how many draws of a shot lie beyond them; nothing where draws are independent. */
function spreadOf(sampler: Sampler, scenes: readonly SceneOutline[]): Pick<RunResults, "spread"> {
  if (sampler === INDEPENDENT_DRAWS) return {}
  return { spread: { dimensions: SPREAD_DIMENSIONS, beyond: Math.max(...scenes.map(drawsWithoutDimension)) } }
}

/** An interrupted run says so first, and what it lacks. */
function interruption(stoppedBy: string, fired: Fired): Warning[] {
  if (stoppedBy !== "interrupted") return []
  const [shots, most] = [Math.max(...fired.shots).toLocaleString("en-US"), fired.most.toLocaleString("en-US")]
  const missing =
    fired.stoppedBy === "interrupted"
      ? `after ${shots} of at most ${most} shots a point, so its intervals are wider than the file asks for`
      : "after its last shot, but before all that the file and the flags ask for beside them was found or kept"
  return [{ kind: "Interrupted", text: `The run was interrupted ${missing}. The same command carries on from there` }]
}

/** What every design point comes to: its shots, its geometry and, where asked for, the open net on the way. */
async function pointResults(
  experiment: Experiment,
  groups: readonly Group[],
  scenes: readonly SceneOutline[],
  sums: readonly PointTallies[],
  stoppedBy: string,
  pool: Pool,
): Promise<readonly PointResult[]> {
  const measures = await measuresOf(experiment, groups, pool)
  const groupOf = new Map(groups.flatMap((group, g) => group.points.map((point) => [point, g] as const)))
  const found = experiment.points.flatMap(({ index }) =>
    resultsOfPoint(experiment, index, sums, scenes[groupOf.get(index)!]!.spots, measures[index]!),
  )
  return withStops(withOpenNets(found, await openNetsOf(experiment, groups, pool)), experiment, stoppedBy)
}
