import { compileScene } from "../../models/plays/scene.ts"
import type { Scene } from "../../sim/pose.ts"
import type { SeedKey } from "../../sim/random/streams.ts"
import { planShots, type ShotPlan } from "../../sim/sampling.ts"
import { ratioOverReplicates } from "../../sim/statistics/ratio.ts"
import { emptyTally, mergeTally, type Tally } from "../../sim/tally.ts"
import type { Experiment } from "../experiment.ts"
import { warningsOf } from "../report/warnings.ts"
import type { PointResult, RunResults } from "../results.ts"
import { seedKey } from "../seed.ts"
import { findSensitivity } from "../sensitivity/find-sensitivity.ts"
import { ASSUMPTION_SETS, assumedKeys, assumptionSets, ratesOf, withAssumptions, withBestAssumptions } from "./assumptions.ts"
import { ALL_SPOTS } from "./columns.ts"
import { crossingFindings, shiftFindings } from "./curve-pairs.ts"
import { curveFindings, curveSets } from "./curves.ts"
import { exactMeasures } from "./exact.ts"
import { breakdownsOf, goalMapsOf } from "./goal-maps.ts"
import { type Group, groupPoints } from "./groups.ts"
import { picturesOf } from "./pictures.ts"
import { CONFIDENCE, type PointTallies, resultsOfPoint, talliesOfPoints } from "./point-results.ts"
import { openPool, type Pool } from "./pool.ts"
import { sharesOf } from "./shares.ts"

/** Shots of each point under each set of assumed parameters: departures on the same shots need few. */
const LEAST_OF_A_SET = 512
const MOST_OF_A_SET = 2048
/** Shots against poses that all sets together may take, so that many points do not make a quick look slow. */
const WORK_OF_SETS = 3_000_000
/** Shots after which a wanted half-width is first judged. */
const FIRST_INSTALMENT = 8192
/** A run is fired in about this many instalments, so that an interruption loses little. */
const INSTALMENTS = 16
/** Shots against poses in one instalment at most: a second or two of work, the wait after Ctrl-C. */
const LONGEST_INSTALMENT = 400_000

export interface RunOptions {
  readonly version: string
  readonly workers: number
  /** Draw the assumption range beside the sampling interval. */
  readonly assumptions: boolean
  /** Estimator of the run; plain is the slow referee. */
  readonly estimator?: "conditional" | "plain"
  /** Leave out pictures, for quick looks and tests. */
  readonly pictures?: boolean
  /** Share of the stage done, 0 to 1. */
  readonly onProgress?: (share: number, stage: "shots" | "assumptions" | "sensitivity") => void
  /** Asked between instalments: true ends the run with what is done. */
  readonly interrupted?: () => boolean
  /** Delays a finished task by this many milliseconds, for tests of order; never set in a run. */
  readonly delay?: () => number
}

/** Runs an experiment: fires, merges in batch order, estimates, compares, draws the pictures' data. */
export async function runExperiment(experiment: Experiment, options: RunOptions): Promise<RunResults> {
  const key = seedKey(experiment.seed)
  const groups = groupPoints(experiment.points)
  const scenes = groups.map((group) => compileScene(group.settings))
  const size = planShots(
    experiment.halfWidth === null ? experiment.shots : Math.min(experiment.shots, FIRST_INSTALMENT),
  )
  const pool = await openPool(
    { groups: groups.map((group) => group.settings), key, batch: size.batch },
    options.workers,
  )
  try {
    const fired = await fireUntilEnough(experiment, groups, scenes, pool, size, options)
    const sums = talliesOfPoints(experiment, groups, fired.tallies)
    const points = pointResults(experiment, groups, scenes, sums, fired.plan.shots)
    const sets = curveSets(experiment)
    const curves = curveFindings(sets, sums, fired.plan.shots, key)
    const rates =
      options.assumptions && fired.stoppedBy !== "interrupted"
        ? await ratesUnderSets(experiment, groups, pool, key, options)
        : null
    const asked = fired.stoppedBy === "interrupted" ? undefined : experiment.sensitivity
    const sensitivity =
      asked === undefined ? null : await findSensitivity(experiment, asked, groups, pool, key, options)
    const pairs = { experiment, sets, sums, shots: fired.plan.shots, key, rates }
    const baselineOf = (index: number) => experiment.baselineOf?.[index] ?? experiment.baseline
    const results: RunResults = {
      experiment,
      version: options.version,
      points: rates === null ? points : withAssumptions(points, rates, baselineOf),
      curves: rates === null ? curves : withBestAssumptions(curves, sets, rates),
      crossings: crossingFindings(pairs),
      shifts: shiftFindings(pairs),
      ...(sensitivity === null ? {} : { sensitivity }),
      warnings: [],
      ...(options.pictures === false ? { puckEye: [], reachMaps: [] } : picturesOf(experiment)),
      goalMaps: options.pictures === false ? [] : goalMapsOf(experiment, sums, fired.plan.shots),
      breakdowns: breakdownsOf(experiment, sums, fired.plan.shots),
      shots: fired.plan.shots,
      replicates: fired.plan.replicates,
      confidence: CONFIDENCE,
      stoppedBy: fired.stoppedBy,
    }
    return { ...results, warnings: warningsOf(results) }
  } finally {
    await pool.close()
  }
}

interface Fired {
  readonly tallies: readonly (readonly Tally[])[]
  readonly plan: ShotPlan
  readonly stoppedBy: string
}

/**
 * Fires the wanted number of shots in instalments. A wanted half-width is judged at fixed counts alone: after the
 * first instalment and each time the shots have doubled. An interruption is answered after the instalment in hand.
 */
async function fireUntilEnough(
  experiment: Experiment,
  groups: readonly Group[],
  scenes: readonly Scene[],
  pool: Pool,
  size: ShotPlan,
  options: RunOptions,
): Promise<Fired> {
  const tallies = scenes.map((scene) =>
    Array.from({ length: size.replicates }, () => emptyTally(scene.poses.length, scene.spots.length)),
  )
  const all = Math.max(1, Math.ceil(experiment.shots / (size.replicates * size.batch)))
  const ofOne = size.replicates * size.batch * experiment.points.length
  const most = Math.max(1, Math.min(Math.ceil(all / INSTALMENTS), Math.floor(LONGEST_INSTALMENT / ofOne)))
  let done = 0
  let judge = experiment.halfWidth === null ? Infinity : Math.min(size.batches, all)
  for (;;) {
    const next = Math.min(done + most, all, judge)
    await fire(tallies, done, next, all, pool, options)
    done = next
    const plan = { ...size, batches: done, shots: size.replicates * done * size.batch }
    if (done === judge) {
      if (widest(experiment, groups, tallies, plan.shots) <= (experiment.halfWidth ?? 0))
        return { tallies, plan, stoppedBy: "half-width" }
      judge = Math.min(2 * done, all)
    }
    if (done >= all) return { tallies, plan, stoppedBy: experiment.halfWidth === null ? "shots" : "ceiling" }
    if (options.interrupted?.() === true) return { tallies, plan, stoppedBy: "interrupted" }
  }
}

/** Batches `from` to `to` - 1 of every replicate of every group, merged in their order whoever finishes first. */
async function fire(
  tallies: readonly Tally[][],
  from: number,
  to: number,
  all: number,
  pool: Pool,
  options: RunOptions,
): Promise<void> {
  const estimator = options.estimator ?? "conditional"
  const tasks = tallies.flatMap((replicates, group) =>
    replicates.map((into, replicate) => ({ group, replicate, into })),
  )
  let finished = 0
  const answers = tasks.map(async ({ group, replicate, into }) => {
    const tally = await pool.batches({ group, replicate, from, to, estimator })
    if (options.delay !== undefined) await new Promise((resolve) => setTimeout(resolve, options.delay!()))
    finished++
    options.onProgress?.((from + ((to - from) * finished) / tasks.length) / all, "shots")
    return () => mergeTally(into, tally)
  })
  for (const merge of await Promise.all(answers)) merge()
}

/** Half-width of the widest save-rate interval among the points. */
function widest(
  experiment: Experiment,
  groups: readonly Group[],
  tallies: readonly (readonly Tally[])[],
  shots: number,
): number {
  let most = 0
  for (const { tallies: mine, pose } of talliesOfPoints(experiment, groups, tallies)) {
    const { above, below } = sharesOf(mine, pose, ALL_SPOTS)["save_rate"]!
    const { low, high } = ratioOverReplicates(above, below, shots, CONFIDENCE)
    most = Math.max(most, 0.5 * (high - low))
  }
  return most
}

function pointResults(
  experiment: Experiment,
  groups: readonly Group[],
  scenes: readonly Scene[],
  sums: readonly PointTallies[],
  shots: number,
): PointResult[] {
  const groupOf = new Map(groups.flatMap((group, g) => group.points.map((point) => [point, g] as const)))
  return experiment.points.flatMap(({ index, settings }) =>
    resultsOfPoint(experiment, index, sums, scenes[groupOf.get(index)!]!.spots, shots, exactMeasures(settings)),
  )
}

/** Save rates of every point under every set of assumed parameters, on the same shots; row 0 is the default. */
async function ratesUnderSets(
  experiment: Experiment,
  groups: readonly Group[],
  pool: Pool,
  key: SeedKey,
  options: RunOptions,
): Promise<Float64Array[]> {
  const plan = planShots(Math.min(shotsOfASet(experiment.points.length), experiment.shots))
  const sets = assumptionSets(assumedKeys(experiment), key)
  let finished = 0
  return Promise.all(
    sets.map(async (changes) => {
      const tallies = await pool.set({ changes, replicates: plan.replicates, batches: plan.batches, batch: plan.batch })
      options.onProgress?.(++finished / sets.length, "assumptions")
      return ratesOf(groups, tallies, experiment.points.length)
    }),
  )
}

/** Shots of each point under one set: a power of two that keeps the work of all sets in bounds. */
function shotsOfASet(points: number): number {
  const affordable = WORK_OF_SETS / (ASSUMPTION_SETS * points)
  let shots = MOST_OF_A_SET
  while (shots > LEAST_OF_A_SET && shots > affordable) shots /= 2
  return shots
}
