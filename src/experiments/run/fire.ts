import type { Scene } from "../../sim/pose.ts"
import { planShots, type ShotPlan } from "../../sim/sampling.ts"
import { emptyTally, mergeTally, type Tally } from "../../sim/tally.ts"
import type { Experiment } from "../experiment.ts"
import type { Group } from "./groups.ts"
import { widestOf } from "./half-widths.ts"
import { inOrder } from "./in-order.ts"
import { talliesOfPoints } from "./point-results.ts"
import { answersAhead, type Pool } from "./pool.ts"
import type { RunOptions } from "./run-options.ts"
import type { BatchTask } from "./tasks.ts"

/** Shots after which a wanted half-width is first judged. */
const FIRST_JUDGED = 2048
/** A run is fired in about this many instalments at least. */
const INSTALMENTS = 16
/** Shots against poses in one instalment at most, where one batch of each replicate is not already more. */
const LONGEST_INSTALMENT = 400_000
/** Replicates that every point has fired before an interruption is answered with results: fewer tell no spread. */
const LEAST_REPLICATES = 8

/** What was fired: tallies are [groups][replicates], and every point has seen the same shots. */
export interface Fired {
  readonly tallies: readonly (readonly Tally[])[]
  /** Shots of each point. */
  readonly shots: number
  /** Shots that each point would have without an interruption, or at most. */
  readonly most: number
  readonly replicates: number
  readonly stoppedBy: "shots" | "half-width" | "ceiling" | "interrupted"
}

/** How far a run has come: `done` batches of every replicate, and some tasks of the instalment that ends at `to`. */
interface Place {
  done: number
  to: number
  merged: number
}

/** How an experiment's shots are cut: into batches of one size, for a wanted half-width that of its first judgement. */
export function planOf(experiment: Experiment): ShotPlan {
  return planShots(experiment.halfWidth === null ? experiment.shots : Math.min(experiment.shots, FIRST_JUDGED))
}

/**
 * Fires the wanted number of shots. A wanted half-width is judged at fixed counts alone: first after
 * {@link FIRST_JUDGED} shots and each time the shots have doubled. Tallies are merged in the order of their tasks as
 * they come, and kept by the checkpoint of the options. An interruption is answered once every point has fired the same
 * shots.
 */
export async function fireUntilEnough(
  experiment: Experiment,
  groups: readonly Group[],
  scenes: readonly Scene[],
  pool: Pool,
  options: RunOptions,
): Promise<Fired> {
  const plan = planOf(experiment)
  const all = Math.max(1, Math.ceil(experiment.shots / (plan.replicates * plan.batch)))
  const tallies = scenes.map((scene) =>
    Array.from({ length: plan.replicates }, () => emptyTally(scene.poses.length, scene.spots.length)),
  )
  const run: Run = { tallies, place: placeFound(tallies, options), all, plan, pool, options }
  const { place } = run
  const most = plan.replicates * plan.batch * all
  let judged = experiment.halfWidth === null ? all : Math.min(plan.batches, all)
  // once there are shots beyond it, a count has been judged, and its sums are no longer alone
  while (judged < place.done + Math.sign(place.merged)) judged = Math.min(2 * judged, all)
  let stoppedBy: Fired["stoppedBy"] = experiment.halfWidth === null ? "shots" : "ceiling"
  for (;;) {
    if (!(await fireTo(judged, experiment.points.length, run))) {
      await options.checkpoint?.seal("shots", { ...place }, () => arraysOf(tallies), true)
      return { ...interruptedAt(place, tallies, plan), most }
    }
    const { halfWidth } = experiment
    if (halfWidth !== null) {
      const sums = talliesOfPoints(experiment, groups, tallies)
      if (widestOf(experiment, sums, shotsOf(place, plan)) <= halfWidth) stoppedBy = "half-width"
    }
    if (place.done >= all || stoppedBy === "half-width") break
    judged = Math.min(2 * judged, all)
  }
  await options.checkpoint?.seal("shots", { ...place }, () => arraysOf(tallies), options.keepShots !== undefined)
  return { tallies, shots: shotsOf(place, plan), most, replicates: plan.replicates, stoppedBy }
}

interface Run {
  readonly tallies: readonly (readonly Tally[])[]
  readonly place: Place
  /** Batches of a replicate in the whole run. */
  readonly all: number
  readonly plan: ShotPlan
  readonly pool: Pool
  readonly options: RunOptions
}

/** Fires until `until` batches of every replicate are done; false when interrupted before. */
async function fireTo(until: number, points: number, run: Run): Promise<boolean> {
  const { tallies, place, all, plan, pool, options } = run
  const ofOne = plan.replicates * plan.batch * points
  const most = Math.max(1, Math.min(Math.ceil(all / INSTALMENTS), Math.floor(LONGEST_INSTALMENT / ofOne)))
  const tasks = tallies.length * plan.replicates
  return inOrder(tasksFrom({ ...place }, until, most, tallies.length, plan.replicates), {
    ahead: answersAhead(pool),
    async run({ group, replicate, from, to }) {
      const tally = await pool.batches({ group, replicate, from, to, estimator: options.estimator ?? "conditional" })
      if (options.delay !== undefined) await new Promise((resolve) => setTimeout(resolve, options.delay!()))
      return tally
    },
    take({ group, replicate, to }, tally) {
      mergeTally(tallies[group]![replicate]!, tally)
      place.to = to
      place.merged++
      const done = (place.done + ((to - place.done) * place.merged) / tasks) / all
      options.onProgress?.(done, "shots", Math.round(done * all * ofOne))
      if (place.merged === tasks) Object.assign(place, { done: to, merged: 0 })
      options.checkpoint?.keep("shots", { ...place }, () => arraysOf(tallies))
    },
    stop({ group, replicate, from }) {
      return group === 0 && (from > 0 || replicate >= LEAST_REPLICATES) && options.interrupted?.() === true
    },
  })
}

/** The tasks that are left, instalment by instalment: one replicate of every group after the other. */
function* tasksFrom(
  { done, to, merged }: Place,
  until: number,
  most: number,
  groups: number,
  replicates: number,
): Generator<Omit<BatchTask, "estimator">> {
  while (done < until) {
    // the first instalment is short, so that there are results early
    if (merged === 0) to = Math.min(done === 0 ? 1 : done + most, until)
    for (let task = merged; task < groups * replicates; task++)
      yield { group: task % groups, replicate: Math.floor(task / groups), from: done, to }
    done = to
    merged = 0
  }
}

/** Where an earlier run got to, with its sums put into `tallies`; or the beginning. */
function placeFound(tallies: readonly (readonly Tally[])[], options: RunOptions): Place {
  const arrays = arraysOf(tallies)
  const length = arrays.reduce((sum, array) => sum + array.length, 0)
  const found = options.checkpoint?.found("shots", length)
  if (found === undefined || found === null) return { done: 0, to: 0, merged: 0 }
  let at = 0
  for (const array of arrays) {
    array.set(found.numbers.subarray(at, at + array.length))
    at += array.length
  }
  return { done: found.state.done!, to: found.state.to!, merged: found.state.merged! }
}

function arraysOf(tallies: readonly (readonly Tally[])[]): Float64Array[] {
  return tallies.flat().flatMap(({ sums, maps }) => [sums, maps])
}

/** Shots of each point where whole replicates of the instalment in hand are merged. */
function shotsOf({ done, to }: Place, { replicates, batch }: ShotPlan, further = 0): number {
  return (replicates * done + further * (to - done)) * batch
}

/** Some replicates may be an instalment ahead of others, or alone; every point has the same. */
function interruptedAt(place: Place, tallies: readonly (readonly Tally[])[], plan: ShotPlan): Omit<Fired, "most"> {
  const further = place.merged / tallies.length
  const shots = shotsOf(place, plan, further)
  if (place.done > 0) return { tallies, shots, replicates: plan.replicates, stoppedBy: "interrupted" }
  return {
    tallies: tallies.map((group) => group.slice(0, further)),
    shots,
    replicates: further,
    stoppedBy: "interrupted",
  }
}
