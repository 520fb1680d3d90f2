import type { SceneOutline } from "../../models/plays/scene.ts"
import { mergeTally } from "../../sim/tally.ts"
import type { Experiment } from "../experiment.ts"
import { carryOn, endAt, type FiringState, firingState, numbersOf, type Place, shotsOfPoints } from "./firing-state.ts"
import type { Group } from "./groups.ts"
import { knownWell } from "./half-widths.ts"
import { inOrder } from "./in-order.ts"
import { type SumsOfPoints, talliesOfPoints } from "./point-tallies.ts"
import { answersAhead, type Pool } from "./pool.ts"
import type { RunOptions } from "./run-options.ts"
import { batchesOf, firedShots, planOf } from "./shot-plan.ts"
import type { BatchTask } from "./tasks.ts"

/** A run is fired in about this many instalments at least. */
const INSTALMENTS = 16
/** Shots against poses in one instalment at most, where one batch of each replicate is not already more. */
const LONGEST_INSTALMENT = 400_000
/** Replicates that every point has fired before an interruption is answered with results: fewer tell no spread. */
const LEAST_REPLICATES = 8

/**
 * What was fired. All points of a group have met the same shots; where a half-width is wanted some have met the first of
 * them alone.
 */
export interface Fired extends SumsOfPoints {
  /** Shots that each point would have without an interruption, or at most. */
  readonly most: number
  readonly replicates: number
  readonly stoppedBy: "shots" | "half-width" | "ceiling" | "interrupted"
}

/**
 * Fires the wanted number of shots. A wanted half-width is judged at fixed counts alone: first after
 * the shots of {@link planOf} and each time the shots have doubled. A point that is known as well as wanted takes no more of
 * them. Tallies are merged in the order of their tasks as they come, and kept by the checkpoint of the options. An
 * interruption is answered once every point that takes more shots has taken the same.
 */
export async function fireUntilEnough(
  experiment: Experiment,
  groups: readonly Group[],
  scenes: readonly SceneOutline[],
  pool: Pool,
  options: RunOptions,
): Promise<Fired> {
  const plan = planOf(experiment)
  const all = batchesOf(experiment)
  const state = firingState(scenes, experiment.points.length, plan)
  carryOn(state, options.checkpoint?.found("shots") ?? null)
  const { tallies, place, ends } = state
  const most = firedShots(experiment)
  let judged = experiment.halfWidth === null ? all : Math.min(plan.batches, all)
  // once there are shots beyond it, a count has been judged, and its sums are no longer alone
  while (judged < place.done + Math.sign(place.merged)) judged = Math.min(2 * judged, all)
  for (;;) {
    const open = openOf(groups, ends)
    if (open.length > 0 && !(await fireTo(judged, { state, open, all, pool, options }))) {
      await options.checkpoint?.seal("shots", { ...place }, () => numbersOf(state), true)
      return { ...interruptedAt(state, open.length), most }
    }
    if (experiment.halfWidth !== null) {
      const sums = talliesOfPoints(experiment, groups, { ...state, shots: shotsOfPoints(state) })
      endAt(state, judged, knownWell(experiment, sums))
    }
    if (place.done >= all || !ends.includes(0)) break
    judged = Math.min(2 * judged, all)
  }
  await options.checkpoint?.seal("shots", { ...place }, () => numbersOf(state), options.keepShots !== undefined)
  const stoppedBy = experiment.halfWidth === null ? "shots" : ends.includes(0) ? "ceiling" : "half-width"
  const { earlier } = state
  return { tallies, shots: shotsOfPoints(state), earlier, most, replicates: plan.replicates, stoppedBy }
}

/** The points of a group that take more shots, as poses of its scene. */
interface Open {
  readonly group: number
  readonly poses: readonly number[]
}

function openOf(groups: readonly Group[], ends: Float64Array): Open[] {
  return groups.flatMap(({ points }, group) => {
    const poses = [...points.keys()].filter((pose) => ends[points[pose]!] === 0)
    return poses.length === 0 ? [] : [{ group, poses }]
  })
}

interface Firing {
  readonly state: FiringState
  readonly open: readonly Open[]
  /** Batches of a replicate in the whole run. */
  readonly all: number
  readonly pool: Pool
  readonly options: RunOptions
}

/** Fires until `until` batches of every replicate are done; false when interrupted before. */
async function fireTo(until: number, { state, open, all, pool, options }: Firing): Promise<boolean> {
  const { tallies, place, plan } = state
  const ofBatches = plan.replicates * plan.batch
  const points = open.reduce((sum, { poses }) => sum + poses.length, 0)
  const ended = ofBatches * state.ends.reduce((sum, batches) => sum + batches, 0)
  const longest = Math.floor(LONGEST_INSTALMENT / (ofBatches * points))
  const most = Math.max(1, Math.min(Math.ceil(all / INSTALMENTS), longest))
  const tasks = open.length * plan.replicates
  return inOrder(tasksFrom({ ...place }, until, most, open, plan.replicates), {
    ahead: answersAhead(pool),
    async run(task) {
      const tally = await pool.batches({ ...task, estimator: options.estimator ?? "conditional" })
      if (options.delay !== undefined) await new Promise((resolve) => setTimeout(resolve, options.delay!()))
      return tally
    },
    take({ group, replicate, to }, tally) {
      mergeTally(tallies[group]![replicate]!, tally)
      place.to = to
      place.merged++
      const done = place.done + ((to - place.done) * place.merged) / tasks
      options.onProgress?.(done / all, "shots", Math.round(done * ofBatches * points + ended))
      if (place.merged === tasks) Object.assign(place, { done: to, merged: 0 })
      options.checkpoint?.keep("shots", { ...place }, () => numbersOf(state))
    },
    stop({ group, replicate, from }) {
      const isFirst = group === open[0]!.group
      return isFirst && (from > 0 || replicate >= LEAST_REPLICATES) && options.interrupted?.() === true
    },
  })
}

/** The tasks that are left, instalment by instalment: one replicate of every group after the other. */
function* tasksFrom(
  { done, to, merged }: Place,
  until: number,
  most: number,
  open: readonly Open[],
  replicates: number,
): Generator<Open & Pick<BatchTask, "replicate" | "from" | "to">> {
  while (done < until) {
    // the first instalment is short, so that there are results early
    if (merged === 0) to = Math.min(done === 0 ? 1 : done + most, until)
    for (let task = merged; task < open.length * replicates; task++)
      yield { ...open[task % open.length]!, replicate: Math.floor(task / open.length), from: done, to }
    done = to
    merged = 0
  }
}

/** Some replicates may be an instalment ahead of others, or alone; every point that takes more shots has the same. */
function interruptedAt(state: FiringState, groups: number): Omit<Fired, "most"> {
  const { tallies, place, plan, earlier } = state
  const further = place.merged / groups
  const shots = shotsOfPoints(state, further)
  if (place.done > 0) return { tallies, shots, earlier, replicates: plan.replicates, stoppedBy: "interrupted" }
  return {
    tallies: tallies.map((group) => group.slice(0, further)),
    shots,
    earlier,
    replicates: further,
    stoppedBy: "interrupted",
  }
}
