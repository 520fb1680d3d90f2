import { planShots, type ShotPlan } from "../../sim/sampling.ts"
import type { Experiment } from "../experiment.ts"

/** Shots after which a wanted half-width is first judged. */
const FIRST_JUDGED = 2048

type Wanted = Pick<Experiment, "shots" | "halfWidth">

/** How an experiment's shots are cut: into batches of one size, for a wanted half-width that of its first judgement. */
export function planOf({ shots, halfWidth }: Wanted): ShotPlan {
  return planShots(halfWidth === null ? shots : Math.min(shots, FIRST_JUDGED))
}

/** Batches of each replicate that the wanted shots are rounded up to. */
export function batchesOf(wanted: Wanted): number {
  const { replicates, batch } = planOf(wanted)
  return Math.max(1, Math.ceil(wanted.shots / (replicates * batch)))
}

/** Shots that are fired at each design point, or with a wanted half-width at most: whole batches of every replicate. */
export function firedShots(wanted: Wanted): number {
  const { replicates, batch } = planOf(wanted)
  return replicates * batch * batchesOf(wanted)
}
