import {
  type CompiledKernel,
  collectCompiled,
  coverCompiled,
  fitsCompiled,
  timeMetCompiled,
} from "./compiled/kernel.ts"
import * as fates from "./fate.ts"
import { crossingDistance, distanceOver } from "./goal-line.ts"
import { meetPart } from "./meet.ts"
import { distanceToBody, meetGoalie, moveFrame, placeAtLine, setDrop } from "./meet-goalie.ts"
import { type Meeting, meeting } from "./meeting.ts"
import { LEVEL_TIME, MET, MET_BY_REACH } from "./meeting-columns.ts"

import { REACTS } from "./moment.ts"
import { DOWN_FOR, OPEN_LEVEL, OPEN_MODE } from "./motion/opening.ts"
import { stateAt } from "./motion/timeline.ts"
import { type OpenBodies, openBodies, openBody } from "./open-body.ts"
import { heightAt, PATH_X, PATH_Y, timeAt } from "./path.ts"

import { branchRow, PLAY_MOVES } from "./play/course.ts"
import { isUnset, type Moves, moves, type Played, planMoves, stationOfState } from "./play/moves.ts"
import { CLOCK_LENGTH } from "./play/timing.ts"
import type { Pose, Scene } from "./pose.ts"
import * as P from "./pose.ts"
import { type PreparedPosture, preparePosture } from "./prepared.ts"
import { coverOfBlock, type Moment, moment, savesOfPart, standsOfPart } from "./react.ts"
import * as R from "./rebound/rebound-table.ts"
import { clearSaves, noSaves, type Saves } from "./saves.ts"
import type { ShotBatch } from "./shots.ts"
import * as shotColumns from "./shots.ts"
import { standWithErrors } from "./stand-for-shot.ts"
import * as stationColumns from "./station.ts"
import { STATION_LENGTH } from "./station.ts"
import * as S from "./strata.ts"
import { standAside } from "./traffic/on-the-way.ts"
import * as lookColumns from "./traffic/sight.ts"
import { layLine, type SightFrom, sightFrom } from "./traffic/sight.ts"
import { setTipped } from "./traffic/tipped.ts"
import { DRAW_FIRST_REACTION, PUCK_DRAWS } from "./traffic/traffic.ts"
import type { Seconds } from "./units.ts"
import { MOUTH_HALF_WIDTH, PUCK_RADIUS } from "./world.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { DRAW_BLOCK, DRAW_BLOCK_LEAD, DRAW_LEAK, DRAW_LIMB, GOALIE_DRAWS, SHOT_STRIDE, SHOT_X, SHOT_Y } = shotColumns
const { IRON_IN } = fates
const { EYE_X, EYE_Y, EYE_Z, LOOK_LENGTH, NEEDED } = lookColumns
const { STATION_COS, STATION_SIN, STATION_X, STATION_Y } = stationColumns

/** Steps that find when the puck comes level with a moving goalie: each is some ten times nearer than the one before. */
const LEVEL_STEPS = 3

/** Everything one thread needs to answer shots: prepared postures and scratch. Made once for a scene. */
export interface Goalkeeping {
  readonly scene: Scene
  /** Null where this thread has none, or it cannot hold the postures. */
  readonly compiled: CompiledKernel | null
  readonly prepared: readonly PreparedPosture[]
  readonly meeting: Meeting
  readonly now: Moment
  readonly saves: Saves
  /** Moments of a block's start in which the body covers the path. */
  readonly cover: Saves
  readonly station: Float64Array
  /** The same postures as movement opens them, and with the limbs of a goalie who is not set. */
  readonly open: OpenBodies
  /** The goalie's way to the shot or to the rebound; the shot it is planned for, where something goes before it. */
  readonly moves: Moves
  readonly played: Played
  /** The goalie's look for a puck behind others, see traffic/sight.ts */
  readonly look: Float64Array
}

/** `compiled` does the inner part of every answer where it is given: the same numbers, sooner. */
export function goalkeeping(scene: Scene, compiled: CompiledKernel | null = null): Goalkeeping {
  let phases = 2
  let count = 1
  for (const posture of scene.postures) {
    phases = Math.max(phases, posture.phases)
    count = Math.max(count, posture.count)
  }
  const puckRadius = scene.world[PUCK_RADIUS]!
  return {
    scene,
    compiled: compiled !== null && fitsCompiled(phases, count) ? compiled : null,
    prepared: scene.postures.map((posture) => preparePosture(posture, puckRadius)),
    open: openBodies(scene, puckRadius),
    moves: moves(),
    played: playedShot(scene),
    look: new Float64Array(LOOK_LENGTH),
    meeting: meeting(phases, count, scene.world),
    now: moment(),
    saves: noSaves(),
    cover: noSaves(),
    station: new Float64Array(STATION_LENGTH),
  }
}

function playedShot({ play, world }: Scene): Played {
  const none = new Float64Array(0)
  const mouthHalfWidth = world[MOUTH_HALF_WIDTH]!
  return {
    play,
    mouthHalfWidth,
    branch: 0,
    x: 0,
    y: 0,
    clock: none,
    clockAt: 0,
    draws: none,
    drawsAt: 0,
  }
}

/** Puts the goalie of a pose where this shot finds it: depth, line, angle and turn with this shot's errors. */
export function standForShot(g: Goalkeeping, pose: Pose, batch: ShotBatch, i: number): void {
  const { world, play, postures } = g.scene
  const posture = postures[pose.posture]!
  const n = pose.numbers
  const at = i * GOALIE_DRAWS
  const x = batch.shot[i * SHOT_STRIDE + SHOT_X]!
  const y = batch.shot[i * SHOT_STRIDE + SHOT_Y]!
  standWithErrors(posture, n, world[MOUTH_HALF_WIDTH]!, n[P.DEPTH]!, batch.goalie, at, x, y, g.station)
  g.now.begins = g.scene.traffic.length === 0 ? 0 : batch.tipped[i]!
  g.moves.travels = play[PLAY_MOVES] === 1
  if (!g.moves.travels) return
  // go through the play, and be where the release finds the goalie
  const shot = g.played
  shot.branch = branchRow(g.scene.strata.table[batch.stratum[i]! * S.STRATUM_STRIDE + S.BRANCH]!)
  shot.x = x
  shot.y = y
  shot.clock = batch.clock
  shot.clockAt = i * CLOCK_LENGTH
  shot.draws = batch.goalie
  shot.drawsAt = at
  planMoves(pose, posture, shot, g.moves)
  stationOfState(g.moves.state, g.station)
}

/** Whether the goalie is moving or not set when this shot leaves the stick; false in a straight shot. */
export function unsetNow(g: Goalkeeping): boolean {
  return g.moves.travels && isUnset(g.moves)
}

/** The posture that meets this shot: as movement has opened it, with slower limbs when the goalie is not set. */
export function preparedNow(g: Goalkeeping, pose: Pose): PreparedPosture {
  if (!g.moves.travels) return g.prepared[pose.posture]!
  const { opening } = g.moves
  const unset = unsetNow(g)
  const lies = opening[DOWN_FOR]! >= pose.numbers[P.DROP_TIME]!
  if (!unset && !lies) return g.prepared[pose.posture]!
  return openBody(g.open, pose.posture, opening[OPEN_MODE]!, opening[OPEN_LEVEL]!, lies, unset)
}

/**
 * Sets the clocks of this shot: sight, read, drop, how much of it, block or not. Needs the path in the goalie's frame.
 * `sightOf` finds when a puck comes into sight.
 */
export function setMoment(
  g: Goalkeeping,
  pose: Pose,
  batch: ShotBatch,
  i: number,
  path: number,
  sightOf: SightFrom = sightFrom,
): void {
  const n = pose.numbers
  const now = g.now
  const at = i * GOALIE_DRAWS
  const distance = distanceToBody(g.meeting)
  const flight = timeAt(batch.path, path, distance)
  const { traffic } = g.scene
  now.flight = flight
  const { again } = batch
  now.sight =
    traffic.length === 0 || again.length > 0 ? 0 : sightOf(traffic, lookFor(g, n, batch, i), batch.path, path, distance)
  now.committed = false
  now.read = g.scene.strata.table[batch.stratum[i]! * S.STRATUM_STRIDE + S.EARLY_READ]!
  if (again.length > 0) now.read = again[R.AGAIN_READ]!
  now.dropLead = n[P.DROP_LEAD]!
  if (now.sight > 0) {
    now.read = -now.sight
    now.dropLead *= n[P.LEAD_KEPT]!
  }
  if (unsetNow(g)) now.read -= n[P.UNSET_PENALTY]!
  now.dropTime = n[P.DROP_TIME]!
  now.leaks = batch.goalie[at + DRAW_LEAK]! < g.scene.postures[pose.posture]!.leak
  now.frozen = n[P.ANSWER] === P.ANSWER_FROZEN
  now.errors = at + DRAW_LIMB
  now.draws = batch.goalie
  now.stands = false
  now.blockShare = blockShare(n, flight - now.sight)
  now.longestLead = longestLead(g, n)
  now.drawnLead = now.longestLead * batch.goalie[at + DRAW_BLOCK_LEAD]!
  now.reactPhase = heightAt(batch.path, path, distance) <= n[P.HIGH_PUCK]! ? 1 : n[P.HIGH_DROP]!
  if (now.begins > 0) tipMoment(g, n, batch, i, path, sightOf)
  if (again.length > 0 && again[R.AGAIN_DOWN] === 1) stayDown(now, now.dropTime)
  else if (g.moves.travels && g.moves.opening[DOWN_FOR]! >= 0) stayDown(now, now.begins + g.moves.opening[DOWN_FOR]!)
  if (batch.goalie[at + DRAW_BLOCK]! < now.blockShare) blockNow(now)
  else reactNow(now)
}

/** A block begins no earlier than its longest lead, and no earlier than what it answers has been read. */
function longestLead({ moves }: Goalkeeping, n: Float64Array): Seconds {
  const longest = n[P.BLOCK_LEAD]!
  if (!moves.travels || -moves.readAt >= longest) return longest
  return moves.readAt < 0 ? -moves.readAt : 0
}

/** The clocks of a tipped shot: those of its first flight run on. The goalie looks for both flights from one place. */
function tipMoment(
  g: Goalkeeping,
  n: Float64Array,
  batch: ShotBatch,
  i: number,
  path: number,
  sightOf: SightFrom,
): void {
  const { now } = g
  const tipped = now.begins
  const x = batch.path[path + PATH_X]! - batch.firstPath[path + PATH_X]!
  const y = batch.path[path + PATH_Y]! - batch.firstPath[path + PATH_Y]!
  const until = Math.sqrt(x * x + y * y)
  const sight = sightOf(g.scene.traffic, g.look, batch.firstPath, path, until)
  const blocks = batch.goalie[i * GOALIE_DRAWS + DRAW_BLOCK]! < blockShare(n, tipped + now.flight - sight)
  const early = g.scene.strata.table[batch.stratum[i]! * S.STRATUM_STRIDE + S.EARLY_READ]!
  const penalty = unsetNow(g) ? n[P.UNSET_PENALTY]! : 0
  const read = (sight > 0 ? -sight : early) - penalty
  // what was read of the release tells nothing of the tip
  now.read = -now.sight - penalty
  setTipped(now, n, tipped, sight, read, batch.puck[i * PUCK_DRAWS + DRAW_FIRST_REACTION]!, blocks)
}

/** Where the goalie looks from, and along which line shot i came. */
function lookFor(g: Goalkeeping, n: Float64Array, batch: ShotBatch, i: number): Float64Array {
  const { look, station } = g
  const c = station[STATION_COS]!
  const s = station[STATION_SIN]!
  look[EYE_X] = station[STATION_X]! + c * n[P.EYE_U]! - s * n[P.EYE_V]!
  look[EYE_Y] = station[STATION_Y]! + s * n[P.EYE_U]! + c * n[P.EYE_V]!
  look[EYE_Z] = n[P.EYE_Z]!
  look[NEEDED] = n[P.LOOK_NEEDED]!
  layLine(look, batch.shot[i * SHOT_STRIDE + SHOT_X]!, batch.shot[i * SHOT_STRIDE + SHOT_Y]!)
  standAside(g.scene.traffic, batch.puck, i * PUCK_DRAWS, look)
  return look
}

/** The goalie went down `since` ago, after a save or with the push of a slide: only the hands react. */
function stayDown(now: Moment, since: Seconds): void {
  now.committed = true
  now.blockShare = 1
  now.longestLead = 0
  now.drawnLead = since
}

/** The goalie blocks this shot, with its drawn lead and the whole drop. */
export function blockNow(now: Moment): void {
  now.blockLead = now.drawnLead
  now.lastPhase = 1
}

/** The goalie reacts to this shot. */
export function reactNow(now: Moment): void {
  now.blockLead = REACTS
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
  faceFrame(g, batch, i, path)
  setMoment(g, pose, batch, i, path)
}

/**
 * Puts the path into the goalie's frame. A goalie who still moves is taken as at the moment the puck comes level, going
 * on from there as planned while it passes.
 */
export function faceFrame(g: Goalkeeping, batch: ShotBatch, i: number, path: number): void {
  const end = savedUntil(g, batch, i, path)
  meetGoalie(g.meeting, batch.path, path, g.station, end)
  if (!g.moves.travels) return
  // the goalie moves on until the puck comes level, and where that is moves with the goalie
  for (let step = 0; step < LEVEL_STEPS; step++) {
    const level = distanceToBody(g.meeting)
    stateAt(g.moves.timeline, g.now.begins + timeAt(batch.path, path, level), g.moves.from)
    stationOfState(g.moves.from, g.station)
    meetGoalie(g.meeting, batch.path, path, g.station, end)
    moveFrame(g.meeting, g.moves.timeline, g.moves.from, batch.path, path, level, g.now.begins)
  }
  placeAtLine(g.meeting, g.moves.timeline, batch.path, path, g.now.begins)
}

/** Finds all saving reactions of shot i for a pose, with block or reaction as drawn; they are in `g.saves`, `g.now.stands` tells of the standing body. */
export function answerShot(g: Goalkeeping, pose: Pose, batch: ShotBatch, i: number, path: number): void {
  faceShot(g, pose, batch, i, path)
  collectSaves(g, preparedNow(g, pose), batch.path, path)
}

/** Asks the parts from front to back; the path is already in the goalie's frame and the moment set. */
export function collectSaves(g: Goalkeeping, prepared: PreparedPosture, path: Float64Array, offset: number): void {
  if (g.compiled !== null) {
    collectCompiled(g, g.compiled, prepared, path, offset)
    return
  }
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
  if (g.compiled !== null) {
    coverCompiled(g, g.compiled, prepared, path, offset)
    return
  }
  clearSaves(g.cover)
  setDrop(g.meeting, prepared.posture.phases, g.now.dropTime)
  for (let i = 0; i < prepared.posture.count; i++) {
    if (g.cover.certain && g.now.stands) return
    if (!meetPart(g.meeting, prepared, prepared.order[i]!, path, offset)) continue
    standsOfPart(g.meeting, g.now)
    if (!g.cover.certain) coverOfBlock(g.meeting, prepared, prepared.order[i]!, g.now, g.cover)
  }
}

/** When the puck in hand is level with a part, s on the path's clock; NaN where the part was refused or not asked. */
export function timeMet(g: Goalkeeping, part: number): Seconds {
  if (g.compiled !== null) return timeMetCompiled(g.compiled, part)
  const state = g.meeting.state[part]!
  return state === MET || state === MET_BY_REACH ? g.meeting.levels[part]![LEVEL_TIME]! : Number.NaN
}

/**
 * Distance along the path up to which a save counts: until the whole puck is over the goal line. A puck that goes in off
 * the iron leaves its path there, so that what lies behind the plane of the line is not on its way.
 */
export function savedUntil(g: Goalkeeping, batch: ShotBatch, i: number, path: number): number {
  if (batch.fate[i] === IRON_IN) return crossingDistance(batch.path, path)
  return distanceOver(g.scene.world, batch.path, path)
}
