import { distanceToBody, type Meeting, meetGoalie, meeting, meetPart, setDrop } from "./meet.ts"
import { heightAt, PATH_DX, PATH_END, timeAt } from "./path.ts"
import type { Pose, Scene } from "./pose.ts"
import * as P from "./pose.ts"
import { type PreparedPosture, preparePosture } from "./prepared.ts"
import { coverOfBlock, type Moment, moment, savesOfPart, standsOfPart } from "./react.ts"
import { clearSaves, noSaves, type Saves } from "./saves.ts"
import {
  DRAW_ANGLE,
  DRAW_BLOCK,
  DRAW_BLOCK_LEAD,
  DRAW_DEPTH,
  DRAW_LEAK,
  DRAW_LIMB,
  DRAW_OFF_LINE,
  DRAW_TURN,
  GOALIE_DRAWS,
  SHOT_STRIDE,
  SHOT_X,
  SHOT_Y,
  type ShotBatch,
} from "./shots.ts"
import { STATION_LENGTH, stand } from "./station.ts"
import * as S from "./strata.ts"
import { MOUTH_HALF_WIDTH, PUCK_RADIUS } from "./world.ts"

/** Everything one thread needs to answer shots: prepared postures and scratch. Made once for a scene. */
export interface Goalkeeping {
  readonly scene: Scene
  readonly prepared: readonly PreparedPosture[]
  readonly meeting: Meeting
  readonly now: Moment
  readonly saves: Saves
  /** Moments of a block's start in which the body covers the path. */
  readonly cover: Saves
  readonly station: Float64Array
}

export function goalkeeping(scene: Scene): Goalkeeping {
  let phases = 2
  let count = 1
  for (const posture of scene.postures) {
    phases = Math.max(phases, posture.phases)
    count = Math.max(count, posture.count)
  }
  return {
    scene,
    prepared: scene.postures.map((posture) => preparePosture(posture, scene.world[PUCK_RADIUS]!)),
    meeting: meeting(phases, count, scene.world),
    now: moment(),
    saves: noSaves(),
    cover: noSaves(),
    station: new Float64Array(STATION_LENGTH),
  }
}

/** Puts the goalie of a pose where this shot finds it: depth, line, angle and turn with this shot's errors. */
export function standForShot(g: Goalkeeping, pose: Pose, batch: ShotBatch, i: number): void {
  const n = pose.numbers
  const draws = batch.goalie
  const at = i * GOALIE_DRAWS
  const shot = i * SHOT_STRIDE
  const posture = g.scene.postures[pose.posture]!
  const depth = n[P.DEPTH]! + n[P.DEPTH_ERROR]! * draws[at + DRAW_DEPTH]!
  stand(
    depth > 0 ? depth : 0,
    batch.shot[shot + SHOT_X]!,
    batch.shot[shot + SHOT_Y]!,
    posture.halfStance,
    g.scene.world[MOUTH_HALF_WIDTH]!,
    posture.foremost + n[P.STAND_OFF]!,
    n[P.OFF_LINE_ERROR]! * draws[at + DRAW_OFF_LINE]!,
    n[P.ANGLE_BIAS]! + n[P.ANGLE_ERROR]! * draws[at + DRAW_ANGLE]!,
    n[P.TURN_ERROR]! * draws[at + DRAW_TURN]!,
    g.station,
  )
}

/** Sets the clocks of this shot: read, drop, how much of it, block or not. Needs the path in the goalie's frame. */
export function setMoment(g: Goalkeeping, pose: Pose, batch: ShotBatch, i: number, path: number): void {
  const n = pose.numbers
  const now = g.now
  const at = i * GOALIE_DRAWS
  const distance = distanceToBody(g.meeting)
  const flight = timeAt(batch.path, path, distance)
  now.read = g.scene.strata.table[batch.stratum[i]! * S.STRATUM_STRIDE + S.EARLY_READ]!
  now.dropLead = n[P.DROP_LEAD]!
  now.dropTime = n[P.DROP_TIME]!
  now.leaks = batch.goalie[at + DRAW_LEAK]! < g.scene.postures[pose.posture]!.leak
  now.frozen = n[P.ANSWER] === P.ANSWER_FROZEN
  now.errors = at + DRAW_LIMB
  now.draws = batch.goalie
  now.stands = false
  now.blockShare = blockShare(n, flight)
  now.longestLead = n[P.BLOCK_LEAD]!
  now.drawnLead = n[P.BLOCK_LEAD]! * batch.goalie[at + DRAW_BLOCK_LEAD]!
  now.reactPhase = heightAt(batch.path, path, distance) <= n[P.HIGH_PUCK]! ? 1 : n[P.HIGH_DROP]!
  if (batch.goalie[at + DRAW_BLOCK]! < now.blockShare) blockNow(now)
  else reactNow(now)
}

/** The goalie blocks this shot, with its drawn lead and the whole drop. */
export function blockNow(now: Moment): void {
  now.blockLead = now.drawnLead
  now.lastPhase = 1
}

/** The goalie reacts to this shot. */
export function reactNow(now: Moment): void {
  now.blockLead = -1
  now.lastPhase = now.reactPhase
}

/** Share of shots with this flight time to the body that are blocked by anticipation: 1 when short, 0 when long. */
export function blockShare(numbers: Float64Array, flight: number): number {
  if (numbers[P.ANSWER] === P.ANSWER_BLOCK) return 1
  if (numbers[P.ANSWER] !== P.ANSWER_BY_DISTANCE) return 0
  const always = numbers[P.BLOCK_ALWAYS]!
  const never = numbers[P.BLOCK_NEVER]!
  if (flight >= never) return 0
  if (flight <= always) return 1
  return (never - flight) / (never - always)
}

/** Puts shot i before the goalie of a pose, who already stands for it: path in the goalie's frame, clocks set. */
export function faceShot(g: Goalkeeping, pose: Pose, batch: ShotBatch, i: number, path: number): void {
  meetGoalie(g.meeting, batch.path, path, g.station, crossingDistance(batch, i, path))
  setMoment(g, pose, batch, i, path)
}

/** Finds all saving reactions of shot i for a pose, with block or reaction as drawn; they are in `g.saves`, `g.now.stands` tells of the standing body. */
export function answerShot(g: Goalkeeping, pose: Pose, batch: ShotBatch, i: number, path: number): void {
  faceShot(g, pose, batch, i, path)
  collectSaves(g, g.prepared[pose.posture]!, batch.path, path)
}

/** Asks the parts from front to back; the path is already in the goalie's frame and the moment set. */
export function collectSaves(g: Goalkeeping, prepared: PreparedPosture, path: Float64Array, offset: number): void {
  clearSaves(g.saves)
  setDrop(g.meeting, prepared.posture.phases, g.now.dropTime)
  for (let i = 0; i < prepared.posture.count; i++) {
    const part = prepared.order[i]!
    // behind a part that stops the puck for certain only the standing body is still of interest
    if (g.saves.certain && g.now.stands) return
    if (!meetPart(g.meeting, prepared, part, path, offset)) continue
    if (g.saves.certain) standsOfPart(g.meeting, g.now)
    else savesOfPart(g.meeting, prepared, part, g.now, g.saves)
  }
}

/** Collects, for a block, the moments of its start in which some part covers the path: into `g.cover`. */
export function collectCover(g: Goalkeeping, prepared: PreparedPosture, path: Float64Array, offset: number): void {
  clearSaves(g.cover)
  setDrop(g.meeting, prepared.posture.phases, g.now.dropTime)
  for (let i = 0; i < prepared.posture.count; i++) {
    if (g.cover.certain && g.now.stands) return
    if (!meetPart(g.meeting, prepared, prepared.order[i]!, path, offset)) continue
    standsOfPart(g.meeting, g.now)
    if (!g.cover.certain) coverOfBlock(g.meeting, prepared, prepared.order[i]!, g.now, g.cover)
  }
}

/** Distance along the path where the puck's centre reaches the plane of the goal line. */
export function crossingDistance(batch: ShotBatch, i: number, path: number): number {
  const dx = batch.path[path + PATH_DX]!
  return dx < 0 ? -batch.shot[i * SHOT_STRIDE + SHOT_X]! / dx : batch.path[path + PATH_END]!
}
