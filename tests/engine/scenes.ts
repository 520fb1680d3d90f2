import { compileScene } from "../../src/models/plays/scene.ts"
import {
  type ChoiceKey,
  defaultSettings,
  type QuantityKey,
  type Settings,
  withSettings,
} from "../../src/models/settings.ts"
import type { Decide } from "../../src/sim/conditional.ts"
import { PART_STRIDE, type Posture } from "../../src/sim/parts.ts"
import type { Scene } from "../../src/sim/pose.ts"
import type { Sampler } from "../../src/sim/sampler.ts"
import { engine, fireBatches, planShots } from "../../src/sim/sampling.ts"
import * as T from "../../src/sim/tally.ts"

export const KEY = [20_261, 77] as const

/** Default settings with some changed. */
export function playing(
  quantities: Partial<Record<QuantityKey, number>>,
  choices: Partial<Record<ChoiceKey, string>> = {},
): Settings {
  return withSettings(defaultSettings(), { quantities, choices })
}

/** No error of position, so that what is compared stands still. */
export const EXACT: Partial<Record<QuantityKey, number>> = {
  "goalie.depth_error": 0,
  "goalie.off_line_error": 0,
  "goalie.angle_error": 0,
  "goalie.turn_error": 0,
}

/** Tallies by replicate of a scene. */
export function fired(scene: Scene, shots: number, decide?: Decide, sampler?: Sampler): T.Tally[] {
  const plan = planShots(shots)
  const e = engine(scene, plan.batch, sampler)
  return Array.from({ length: plan.replicates }, (_, r) => fireBatches(e, KEY, r, 0, plan.batches, plan.batch, decide))
}

/** Sum of a column of one pose over replicates and spots. */
export function sum(tallies: readonly T.Tally[], column: number, pose = 0): number {
  let total = 0
  for (const tally of tallies)
    for (let s = 0; s < tally.spots; s++) total += tally.sums[(pose * tally.spots + s) * T.TALLY_STRIDE + column]!
  return total
}

/** A share and its standard error. */
export interface SaveRate {
  readonly mean: number
  readonly se: number
}

/** Save rate of one pose with its standard error over replicates. */
export function saveRate(tallies: readonly T.Tally[], pose = 0, saved = T.SAVED, onGoal = T.ON_GOAL_SUM): SaveRate {
  const mean = sum(tallies, saved, pose) / sum(tallies, onGoal, pose)
  const all = sum(tallies, onGoal, pose)
  let squares = 0
  for (const tally of tallies) squares += (sum([tally], saved, pose) - mean * sum([tally], onGoal, pose)) ** 2
  const n = tallies.length
  return { mean, se: Math.sqrt((squares * n) / (n - 1)) / all }
}

/** How many standard errors two save rates lie apart, their errors taken as independent. */
export function apart(a: SaveRate, b: SaveRate): number {
  return Math.abs(a.mean - b.mean) / Math.hypot(a.se, b.se)
}

/** A scene with another body in every pose. */
export function withPosture(scene: Scene, posture: Posture): Scene {
  return { ...scene, postures: [posture], poses: scene.poses.map((pose) => ({ ...pose, posture: 0 })) }
}

/** A wall across the whole mouth, 20 cm thick, standing still. */
export function wall(like: Posture): Posture {
  const parts = new Float64Array(like.phases * PART_STRIDE)
  for (let k = 0; k < like.phases; k++)
    parts.set([0.3, 0, 1, 1, 0, 0, 0, 1, 0, 0, 0, 1, 0.1, 3, 1.2, 0], k * PART_STRIDE)
  return {
    ...like,
    count: 1,
    parts,
    region: new Uint8Array(1),
    carrier: new Uint8Array([255]),
    restitution: new Float64Array(1),
    leak: 0,
  }
}

export { compileScene }
