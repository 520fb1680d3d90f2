import type { SceneOutline } from "../../models/plays/scene.ts"
import type { ShotPlan } from "../../sim/sampling.ts"
import { emptyTally, type Sums, type Tally } from "../../sim/tally.ts"

/** What a run has fired so far, and what it carries on from when it was interrupted. */
export interface FiringState {
  readonly plan: ShotPlan
  /** [groups][replicates] */
  readonly tallies: readonly (readonly Tally[])[]
  /** [points] batches of every replicate after which a point took no more; 0 while it does. */
  readonly ends: Float64Array
  readonly earlier: Earlier[]
  readonly place: Place
}

/** All sums, [groups][replicates], as they were after so many shots, when some points had enough of them and others not. */
export interface Earlier {
  readonly shots: number
  readonly sums: readonly (readonly Sums[])[]
}

/** `done` batches of every replicate are merged, and `merged` tasks of the instalment that ends at `to`. */
export interface Place {
  done: number
  to: number
  merged: number
}

/** What an earlier run kept: its place, and its numbers. */
interface KeptNumbers {
  readonly state: Readonly<Record<string, number>>
  readonly numbers: Float64Array
}

/** The beginning. */
export function firingState(scenes: readonly SceneOutline[], points: number, plan: ShotPlan): FiringState {
  const tallies = scenes.map((scene) =>
    Array.from({ length: plan.replicates }, () => emptyTally(scene.poses.length, scene.spots.length)),
  )
  return { plan, tallies, ends: new Float64Array(points), earlier: [], place: { done: 0, to: 0, merged: 0 } }
}

/** All its numbers, for the checkpoint: {@link carryOn} takes them in this order. */
export function numbersOf({ tallies, ends, earlier }: FiringState): Float64Array[] {
  return [...tallies.flat().flatMap(({ sums, maps }) => [sums, maps]), ends, ...earlier.flatMap(arraysOf)]
}

/** Goes to where an earlier run got; not where it holds another number of numbers. */
export function carryOn(state: FiringState, kept: KeptNumbers | null): void {
  if (kept === null) return
  const now = numbersOf(state)
  const length = lengthOf(now)
  const counts = countsOf(kept.numbers.subarray(length - state.ends.length, length))
  const earlier = counts.map((batches) => earlierOf(state, batches))
  const all = [...now, ...earlier.flatMap(arraysOf)]
  if (kept.numbers.length !== lengthOf(all)) return
  let at = 0
  for (const array of all) {
    array.set(kept.numbers.subarray(at, at + array.length))
    at += array.length
  }
  state.earlier.push(...earlier)
  const { done, to, merged } = kept.state
  Object.assign(state.place, { done, to, merged })
}

/** Lets points that are known after `batches` of every replicate take no more; what all sums are then is kept for pairs. */
export function endAt(state: FiringState, batches: number, known: readonly number[]): void {
  const news = known.filter((point) => state.ends[point] === 0)
  for (const point of news) state.ends[point] = batches
  if (news.length === 0 || !state.ends.includes(0)) return
  const kept = earlierOf(state, batches)
  const now = state.tallies.flat()
  for (const [i, { sums }] of kept.sums.flat().entries()) sums.set(now[i]!.sums)
  state.earlier.push(kept)
}

/** Shots of each point, where `further` replicates of the instalment in hand are merged whole. */
export function shotsOfPoints({ ends, place, plan }: FiringState, further = 0): number[] {
  const open = (plan.replicates * place.done + further * (place.to - place.done)) * plan.batch
  return Array.from(ends, (batches) => (batches > 0 ? plan.replicates * batches * plan.batch : open))
}

/** Room for all sums after `batches` of every replicate. */
function earlierOf({ tallies, plan }: FiringState, batches: number): Earlier {
  const sums = tallies.map((group) =>
    group.map(({ poses, spots, sums }) => ({ poses, spots, sums: new Float64Array(sums.length) })),
  )
  return { shots: plan.replicates * batches * plan.batch, sums }
}

/** After how many batches points ended while others went on, upward. */
function countsOf(ends: Float64Array): number[] {
  const counts = [...new Set(ends)].filter((batches) => batches > 0).toSorted((a, b) => a - b)
  return ends.includes(0) ? counts : counts.slice(0, -1)
}

function arraysOf({ sums }: Earlier): Float64Array[] {
  return sums.flat().map((one) => one.sums)
}

function lengthOf(arrays: readonly Float64Array[]): number {
  return arrays.reduce((sum, { length }) => sum + length, 0)
}
