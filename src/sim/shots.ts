import {
  DRAW_AIM_1,
  DRAW_AIM_2,
  DRAW_AZIMUTH,
  DRAW_DEPTH,
  DRAW_ELEVATION,
  DRAW_LIMB,
  DRAW_ORIGIN_1,
  DRAW_ORIGIN_2,
  DRAW_REACTION,
  DRAW_READING,
  DRAW_SPEED,
  DRAW_TURN,
  DRAW_VIGOUR,
  GOALIE_DRAWS,
  SHOOTER_DRAWS,
} from "./draws.ts"
import { BLOCKED, NO_SHOT } from "./fate.ts"
import { fly, reachFrom } from "./flight.ts"
import { crossMouth, MOUTH_T, MOUTH_Y, MOUTH_Z } from "./iron.ts"
import { aimAt, LAUNCH_AZIMUTH, LAUNCH_TANGENT, TARGET_HIT } from "./launch.ts"
import { PATH_STRIDE } from "./path.ts"
import {
  branchRow,
  DRAW_LEG,
  DRAW_LOST,
  LEG_COUNT,
  LEG_KIND,
  LEG_PASS,
  LEG_STRIDE,
  LEGS,
  LOST,
  PLAY_DRAWS,
  PLAY_MOVES,
} from "./play/course.ts"
import { CLOCK_LENGTH, timePlay } from "./play/timing.ts"
import type { Scene } from "./pose.ts"
import { invertNormal } from "./random/normal.ts"
import { fillUniforms, GOALIE, PLAY, PUCK, REBOUND, type SeedKey, SHOOTER, uniformAt } from "./random/streams.ts"
import { sampleTruncatedNormal } from "./random/truncated-normal.ts"
import { AGAIN_LENGTH, REBOUND_DRAWS, shapeReboundDraws } from "./rebound/rebound-table.ts"
import { INDEPENDENT_DRAWS, type Sampler, USUAL_SAMPLER } from "./sampler.ts"
import { type SpreadDraws, spreadBatch, spreadDraws, turnStanding } from "./spread-draws.ts"
import * as S from "./strata.ts"
import { meetTraffic } from "./traffic/on-the-way.ts"
import { LOOK_LENGTH } from "./traffic/sight.ts"
import { DRAW_STRAYS, DRAW_TIP_ACROSS, DRAW_TIP_KEEPS, PUCK_DRAWS } from "./traffic/traffic.ts"
import type { Radians } from "./units.ts"

export * from "./draws.ts"

/** Columns of a shot's release and crossing. */
export const SHOT_STRIDE = 10
export const SHOT_X = 0
export const SHOT_Y = 1
export const SHOT_Z = 2
export const SHOT_SPEED = 3
/** Place and time where it crosses the goal plane, goalie or not. */
export const SHOT_MOUTH_Y = 4
export const SHOT_MOUTH_Z = 5
export const SHOT_MOUTH_T = 6
/** 1 when the aimed point could not be reached and was replaced by the nearest that can. */
export const SHOT_UNREACHABLE = 7
export const SHOT_AIM_Y = 8
export const SHOT_AIM_Z = 9

/** A batch of shots before any goalie: made once, scratch reused, nothing allocated per shot. */
export interface ShotBatch {
  readonly capacity: number
  replicate: number
  first: number
  count: number
  readonly stratum: Uint32Array
  readonly fate: Uint8Array
  readonly shot: Float64Array
  readonly path: Float64Array
  readonly goalie: Float64Array
  /** [capacity x PLAY_DRAWS] draws of what comes before the shot, see play/course.ts; untouched where nothing does */
  readonly play: Float64Array
  /** [capacity x CLOCK_LENGTH] when the legs before the shot start and end, see play/timing.ts */
  readonly clock: Float64Array
  readonly uniforms: Float64Array
  /** Cumulative allotment of the strata. */
  readonly cumulative: Float64Array
  readonly crossing: Float64Array
  readonly aimed: Float64Array
  /** Draws, first flights and tips of shots with someone on their way, see traffic/on-the-way.ts; untouched elsewhere. */
  readonly puck: Float64Array
  readonly firstPath: Float64Array
  readonly tipped: Float64Array
  readonly look: Float64Array
  /** [capacity x REBOUND_DRAWS] draws of what a save leaves, see rebound/; untouched where rebounds are not played */
  readonly rebound: Float64Array
  /** What is special about a second shot, see rebound/second-shot.ts; empty in a batch of first ones. */
  readonly again: Float64Array
  /** Points of a scrambled sequence; null where draws are independent */
  readonly spread: SpreadDraws | null
}

/** Scratch for batches of up to `capacity` shots of one scene; `again` for second shots. */
export function shotBatch(scene: Scene, capacity: number, again = false, sampler: Sampler = USUAL_SAMPLER): ShotBatch {
  const cumulative = new Float64Array(scene.strata.count)
  let sum = 0
  for (let s = 0; s < scene.strata.count; s++) {
    sum += scene.strata.allotment[s]!
    cumulative[s] = sum
  }
  const onTheWay = scene.traffic.length === 0 ? 0 : capacity
  return {
    capacity,
    replicate: 0,
    first: 0,
    count: 0,
    stratum: new Uint32Array(capacity),
    fate: new Uint8Array(capacity),
    shot: new Float64Array(capacity * SHOT_STRIDE),
    path: new Float64Array(capacity * PATH_STRIDE),
    goalie: new Float64Array(capacity * GOALIE_DRAWS),
    play: new Float64Array(capacity * PLAY_DRAWS),
    clock: new Float64Array(capacity * CLOCK_LENGTH),
    uniforms: new Float64Array(capacity * GOALIE_DRAWS),
    cumulative,
    crossing: new Float64Array(8),
    aimed: new Float64Array(4),
    puck: new Float64Array(onTheWay * PUCK_DRAWS),
    firstPath: new Float64Array(onTheWay * PATH_STRIDE),
    tipped: new Float64Array(onTheWay),
    look: new Float64Array(LOOK_LENGTH),
    rebound: new Float64Array(scene.rebound.length === 0 ? 0 : capacity * REBOUND_DRAWS),
    again: new Float64Array(again ? AGAIN_LENGTH : 0),
    spread: sampler === INDEPENDENT_DRAWS ? null : spreadDraws(scene, capacity),
  }
}

/** Slot of the PLAY stream that shifts the systematic choice of strata, one number a batch. */
const DRAW_SHIFT = 0

/**
 * Makes shots `first` to `first + count - 1` of a replicate: stratum, release, flight and what becomes of them without a
 * goalie. Strata are chosen in proportion to their allotment: systematically from one shifted start a batch where draws
 * are independent, by where the shots land where they are points of a sequence.
 */
export function makeShots(
  scene: Scene,
  key: SeedKey,
  replicate: number,
  first: number,
  count: number,
  batch: ShotBatch,
): void {
  batch.replicate = replicate
  batch.first = first
  batch.count = count
  const { spread } = batch
  const moves = scene.play[PLAY_MOVES] !== 0
  if (spread === null) {
    chooseStrata(scene, key, replicate, first, count, batch)
    fillUniforms(key, replicate, SHOOTER, first, count, SHOOTER_DRAWS, batch.uniforms)
    fillUniforms(key, replicate, GOALIE, first, count, GOALIE_DRAWS, batch.goalie)
    if (moves) fillUniforms(key, replicate, PLAY, first, count, PLAY_DRAWS, batch.play)
  } else spreadBatch(spread, key, batch, moves)
  for (let i = 0; i < count; i++) releaseShot(scene, batch, i)
  if (scene.traffic.length > 0) {
    fillUniforms(key, replicate, PUCK, first, count, PUCK_DRAWS, batch.puck)
    for (let i = 0; i < count; i++) passTraffic(scene, batch, i)
  }
  for (let i = 0; i < count; i++) shapeGoalieDraws(batch.goalie, i * GOALIE_DRAWS)
  if (spread !== null) turnStanding(spread, count, batch.goalie)
  if (scene.rebound.length > 0) {
    fillUniforms(key, replicate, REBOUND, first, count, REBOUND_DRAWS, batch.rebound)
    for (let i = 0; i < count; i++) shapeReboundDraws(batch.rebound, i * REBOUND_DRAWS)
  }
  if (moves) for (let i = 0; i < count; i++) playBefore(scene, batch, i)
}

/** Those on its way stop shot i, tip it or let it pass. */
function passTraffic(scene: Scene, batch: ShotBatch, i: number): void {
  const { shot, crossing } = batch
  const at = i * SHOT_STRIDE
  const draws = i * PUCK_DRAWS
  for (let k = DRAW_TIP_ACROSS; k <= DRAW_TIP_KEEPS; k++) batch.puck[draws + k] = invertNormal(batch.puck[draws + k]!)
  for (let k = 0; k < 2; k++) batch.puck[draws + DRAW_STRAYS + k] = invertNormal(batch.puck[draws + DRAW_STRAYS + k]!)
  const { world, traffic } = scene
  batch.fate[i] = meetTraffic(
    world,
    traffic,
    batch,
    i,
    shot[at + SHOT_X]!,
    shot[at + SHOT_Y]!,
    batch.fate[i]!,
    crossing,
  )
  if (batch.tipped[i] === 0) return
  shot[at + SHOT_MOUTH_Y] = crossing[MOUTH_Y]!
  shot[at + SHOT_MOUTH_Z] = crossing[MOUTH_Z]!
  shot[at + SHOT_MOUTH_T] = batch.tipped[i]! + crossing[MOUTH_T]!
}

/** What comes before shot i: its draws shaped, its clock set, and whether it ends without a shot. */
function playBefore(scene: Scene, batch: ShotBatch, i: number): void {
  const draws = i * PLAY_DRAWS
  for (let k = DRAW_LEG; k < DRAW_LOST; k++) batch.play[draws + k] = invertNormal(batch.play[draws + k]!)
  const branch = branchRow(scene.strata.table[batch.stratum[i]! * S.STRATUM_STRIDE + S.BRANCH]!)
  const x = batch.shot[i * SHOT_STRIDE + SHOT_X]!
  const y = batch.shot[i * SHOT_STRIDE + SHOT_Y]!
  const arrives = timePlay(scene.world, scene.play, branch, x, y, batch.play, draws, batch.clock, i * CLOCK_LENGTH)
  const lost = batch.play[draws + DRAW_LOST]! < scene.play[branch + LOST]!
  if (!arrives || lost) batch.fate[i] = hasPass(scene.play, branch) ? NO_SHOT : BLOCKED
}

/** Whether a branch has a pass that can be lost; without one it is the shot that someone is in the way of. */
function hasPass(play: Float64Array, branch: number): boolean {
  for (let k = 0; k < play[branch + LEG_COUNT]!; k++)
    if (play[branch + LEGS + k * LEG_STRIDE + LEG_KIND] === LEG_PASS) return true
  return false
}

/**
 * Systematic choice from a start shifted at random: stratum s gets its share of the batch to within one shot, and
 * exactly in the mean.
 */
function chooseStrata(
  scene: Scene,
  key: SeedKey,
  replicate: number,
  first: number,
  count: number,
  batch: ShotBatch,
): void {
  const shift = uniformAt(key, replicate, PLAY, first, DRAW_SHIFT)
  const total = batch.cumulative[scene.strata.count - 1]!
  let s = 0
  for (let i = 0; i < count; i++) {
    const target = ((i + shift) / count) * total
    while (s < scene.strata.count - 1 && batch.cumulative[s]! <= target) s++
    batch.stratum[i] = s
  }
}

/** One shot leaves the stick, flies and crosses, or not. */
function releaseShot(scene: Scene, batch: ShotBatch, i: number): void {
  const row = batch.stratum[i]! * S.STRATUM_STRIDE
  const table = scene.strata.table
  const world = scene.world
  const shot = i * SHOT_STRIDE
  const u = i * SHOOTER_DRAWS
  const out = batch.shot
  const uniforms = batch.uniforms

  // where from, where to, how fast
  placeOrigin(table, row, uniforms[u + DRAW_ORIGIN_1]!, uniforms[u + DRAW_ORIGIN_2]!, out, shot)
  placeAim(table, row, uniforms[u + DRAW_AIM_1]!, uniforms[u + DRAW_AIM_2]!, out, shot)
  const x = out[shot + SHOT_X]!
  const y = out[shot + SHOT_Y]!
  const z = table[row + S.RELEASE_HEIGHT]!
  let speed = sampleTruncatedNormal(uniforms[u + DRAW_SPEED]!, table[row + S.SPEED_MEAN]!, table[row + S.SPEED_SD]!)
  if (speed < table[row + S.SPEED_LEAST]!) speed = table[row + S.SPEED_LEAST]!

  // a perfect launch, then the shooter's error
  const steepest = table[row + S.STEEPEST_AIM]!
  const aimY = out[shot + SHOT_AIM_Y]!
  const aimZ = out[shot + SHOT_AIM_Z]!
  const answer = aimAt(world, x, y, z, aimY, aimZ, speed, steepest, batch.path, i * PATH_STRIDE, batch.aimed, 0)
  const azimuth =
    batch.aimed[LAUNCH_AZIMUTH]! + table[row + S.ERROR_AZIMUTH]! * invertNormal(uniforms[u + DRAW_AZIMUTH]!)
  const elevation =
    Math.atan(batch.aimed[LAUNCH_TANGENT]!) +
    table[row + S.ERROR_ELEVATION]! * invertNormal(uniforms[u + DRAW_ELEVATION]!)
  out[shot + SHOT_Z] = z
  out[shot + SHOT_SPEED] = speed
  // who pushes it along the ice on purpose aims at the ice, and gets there
  out[shot + SHOT_UNREACHABLE] = answer === TARGET_HIT || steepest === 0 ? 0 : 1
  flyShot(world, batch, i, azimuth, elevation > 0 || z > 0 ? elevation : 0)
}

/** Flies shot i from the place and at the speed in its row, and tells what becomes of it without a goalie. */
export function flyShot(world: Float64Array, batch: ShotBatch, i: number, azimuth: Radians, elevation: Radians): void {
  const { shot, path, crossing } = batch
  const at = i * SHOT_STRIDE
  const offset = i * PATH_STRIDE
  const x = shot[at + SHOT_X]!
  const y = shot[at + SHOT_Y]!
  fly(world, x, y, shot[at + SHOT_Z]!, azimuth, elevation, shot[at + SHOT_SPEED]!, reachFrom(x, y), path, offset)
  batch.fate[i] = crossMouth(world, path, offset, crossing)
  shot[at + SHOT_MOUTH_Y] = crossing[MOUTH_Y]!
  shot[at + SHOT_MOUTH_Z] = crossing[MOUTH_Z]!
  shot[at + SHOT_MOUTH_T] = crossing[MOUTH_T]!
}

/** Uniform over a triangle (a point when its corners agree) or over a wedge about the centre of the goal line. */
function placeOrigin(table: Float64Array, row: number, u1: number, u2: number, out: Float64Array, shot: number): void {
  const o = row + S.ORIGIN
  if (table[row + S.ORIGIN_KIND] === S.WEDGE) {
    const near = table[o]!
    const far = table[o + 1]!
    const r = Math.sqrt(near * near + u1 * (far * far - near * near))
    const angle = table[o + 2]! + u2 * (table[o + 3]! - table[o + 2]!)
    out[shot + SHOT_X] = r * Math.cos(angle)
    out[shot + SHOT_Y] = r * Math.sin(angle)
    return
  }
  const root = Math.sqrt(u1)
  const a = 1 - root
  const b = root * (1 - u2)
  const c = root * u2
  out[shot + SHOT_X] = a * table[o]! + b * table[o + 2]! + c * table[o + 4]!
  out[shot + SHOT_Y] = a * table[o + 1]! + b * table[o + 3]! + c * table[o + 5]!
}

/** Uniform over a rectangle of the goal plane, or normal about a point of it. */
function placeAim(table: Float64Array, row: number, u1: number, u2: number, out: Float64Array, shot: number): void {
  const a = row + S.AIM
  if (table[row + S.AIM_KIND] === S.AIM_NORMAL) {
    out[shot + SHOT_AIM_Y] = table[a]! + table[a + 1]! * invertNormal(u1)
    const z = table[a + 2]! + table[a + 3]! * invertNormal(u2)
    out[shot + SHOT_AIM_Z] = z > 0 ? z : 0
    return
  }
  out[shot + SHOT_AIM_Y] = table[a]! + u1 * (table[a + 1]! - table[a]!)
  out[shot + SHOT_AIM_Z] = table[a + 2]! + u2 * (table[a + 3]! - table[a + 2]!)
}

/** Uniforms become what the goalie's draws mean: normals, uniforms, Rayleigh lengths. */
export function shapeGoalieDraws(draws: Float64Array, at: number): void {
  for (let i = DRAW_DEPTH; i <= DRAW_TURN; i++) draws[at + i] = invertNormal(draws[at + i]!)
  for (let i = DRAW_READING; i <= DRAW_VIGOUR; i++) draws[at + i] = invertNormal(draws[at + i]!)
  for (let i = DRAW_LIMB; i < DRAW_REACTION; i++) draws[at + i] = Math.sqrt(-2 * Math.log(draws[at + i]!))
}
