import { planShots, type ShotPlan } from "../../sim/sampling.ts"
import type { Experiment } from "../experiment.ts"

/** One shot of a run: its replicate, and its place among the shots of that replicate; both count from 0. */
export interface ShotName {
  readonly replicate: number
  readonly index: number
}

/** Reads `replicate:index`; null for any other text. */
export function readShotName(text: string): ShotName | null {
  const match = /^\s*(\d{1,9})\s*:\s*(\d{1,9})\s*$/.exec(text)
  return match === null ? null : { replicate: Number(match[1]), index: Number(match[2]) }
}

/** How a shot is written. */
export function shotText({ replicate, index }: ShotName): string {
  return `${replicate}:${index}`
}

/** How a run of the experiment cuts its shots, at most: a run that stops early has fewer batches of the same size. */
export function planOf(experiment: Experiment): ShotPlan {
  return planShots(experiment.shots)
}

/** Whether the run can hold this shot. */
export function isInPlan({ replicate, index }: ShotName, plan: ShotPlan): boolean {
  return replicate < plan.replicates && index < plan.batches * plan.batch
}

/** The first and the last shot of a run in words, for messages. */
export function planText(plan: ShotPlan): string {
  const last = { replicate: plan.replicates - 1, index: plan.batches * plan.batch - 1 }
  return `replicate:index from 0:0 to ${shotText(last)}`
}

/** The shot after this one, in the next replicate after the last of its own; null after the last of all. */
export function nextShot({ replicate, index }: ShotName, plan: ShotPlan): ShotName | null {
  if (index + 1 < plan.batches * plan.batch) return { replicate, index: index + 1 }
  return replicate + 1 < plan.replicates ? { replicate: replicate + 1, index: 0 } : null
}
