import { type Goalkeeping, goalkeeping } from "./answer.ts"
import type { CompiledKernel } from "./compiled/kernel.ts"
import { answerBatch, type Decide, decideConditional, emptyOutcome, type Outcome } from "./conditional.ts"
import type { Scene } from "./pose.ts"
import type { SeedKey } from "./random/streams.ts"
import { type Rebounds, rebounds } from "./rebound/follow.ts"
import { type Sampler, USUAL_SAMPLER } from "./sampler.ts"
import { makeShots, type ShotBatch, shotBatch } from "./shots.ts"
import { emptyTally, type Tally } from "./tally.ts"

/** Independent replicates of every run: intervals come from how they differ. */
export const REPLICATES = 32
/** Shots of a full batch: fixed by the cost of a straight shot, never by a clock. */
const FULL_BATCH = 256
const SMALLEST_BATCH = 16

/** How a wanted number of shots is cut: replicates x batches x shots of a batch. */
export interface ShotPlan {
  readonly replicates: number
  readonly batches: number
  readonly batch: number
  /** Shots really fired at each design point: the wanted number rounded up. */
  readonly shots: number
}

/** Cuts a wanted number of shots into equal batches of 2^k shots, the same number in each replicate. */
export function planShots(wanted: number): ShotPlan {
  const each = Math.max(1, wanted / REPLICATES)
  let batch = FULL_BATCH
  while (batch > SMALLEST_BATCH && batch > each) batch /= 2
  const batches = Math.ceil(each / batch)
  return { replicates: REPLICATES, batches, batch, shots: REPLICATES * batches * batch }
}

/** One thread's engine for one scene: postures prepared, scratch made. */
export interface Engine {
  readonly goalkeeping: Goalkeeping
  readonly batch: ShotBatch
  readonly outcome: Outcome
  /** Null where rebounds are not played. */
  readonly rebounds: Rebounds | null
  /** Every pose of the scene. */
  readonly poses: readonly number[]
}

export function engine(
  scene: Scene,
  batchSize: number,
  sampler: Sampler = USUAL_SAMPLER,
  compiled: CompiledKernel | null = null,
): Engine {
  return {
    goalkeeping: goalkeeping(scene, compiled),
    batch: shotBatch(scene, batchSize, false, sampler),
    outcome: emptyOutcome(),
    rebounds: scene.rebound.length === 0 ? null : rebounds(scene),
    poses: [...scene.poses.keys()],
  }
}

/** Fires batches `from` to `to` - 1 of one replicate at some poses, all unless given, and returns their tally. */
export function fireBatches(
  e: Engine,
  key: SeedKey,
  replicate: number,
  from: number,
  to: number,
  batchSize: number,
  decide: Decide = decideConditional,
  poses: readonly number[] = e.poses,
): Tally {
  const { scene } = e.goalkeeping
  const tally = emptyTally(scene.poses.length, scene.spots.length)
  addBatches(e, key, replicate, from, to, batchSize, tally, decide, poses)
  return tally
}

/** The same added to a tally: of several replicates where only their sum is wanted. */
export function addBatches(
  e: Engine,
  key: SeedKey,
  replicate: number,
  from: number,
  to: number,
  batchSize: number,
  tally: Tally,
  decide: Decide = decideConditional,
  poses: readonly number[] = e.poses,
): void {
  const { scene } = e.goalkeeping
  for (let b = from; b < to; b++) {
    makeShots(scene, key, replicate, b * batchSize, batchSize, e.batch)
    answerBatch(e.goalkeeping, e.batch, poses, decide, tally, e.outcome, e.rebounds)
  }
}
