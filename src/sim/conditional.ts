import {
  blockNow,
  collectCover,
  collectSaves,
  faceShot,
  type Goalkeeping,
  preparedNow,
  reactNow,
  standForShot,
  unsetNow,
} from "./answer.ts"
import { decideCompiled } from "./compiled/kernel.ts"
import * as fates from "./fate.ts"
import { isOnGoal } from "./fate.ts"
import type { Moment } from "./moment.ts"
import { STATE_X, STATE_Y } from "./motion/timeline.ts"
import type { Decide, Outcome } from "./outcome.ts"
import { PATH_STRIDE } from "./path.ts"
import { PLAY_MOVES } from "./play/course.ts"
import { arrivalMargin } from "./play/moves.ts"
import * as P from "./pose.ts"
import { addRebound, followSave, type Rebounds } from "./rebound/follow.ts"
import { coveredShare, placeInOpen, probabilityOf, REGION_COUNT } from "./saves.ts"
import type { ShotBatch } from "./shots.ts"
import * as shotColumns from "./shots.ts"
import * as stationColumns from "./station.ts"
import { quantise } from "./statistics/exact-sum.ts"
import * as S from "./strata.ts"
import * as T from "./tally.ts"
import * as worldColumns from "./world.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { BLOCKED, IRON_IN, IRON_OUT, NO_SHOT, ON_GOAL, SHORT } = fates
const { SHOT_MOUTH_Y, SHOT_MOUTH_Z, SHOT_STRIDE, SHOT_UNREACHABLE } = shotColumns
const { STATION_CUT, STATION_DEPTH, STATION_X, STATION_Y } = stationColumns
const { MOUTH_HALF_WIDTH, MOUTH_HEIGHT } = worldColumns

export { type Decide, emptyOutcome, type Outcome } from "./outcome.ts"

/**
 * The conditional estimator of one shot: placement errors, leak and the lead of a block take their drawn values; whether
 * the goalie blocks or reacts is weighed, and the reaction integrated out over the stretches that save.
 */
export const decideConditional: Decide = (g, pose, batch, i, path, outcome) => {
  faceShot(g, pose, batch, i, path)
  const { compiled, now } = g
  if (compiled !== null) decideCompiled(g, compiled, preparedNow(g, pose), pose.numbers, batch.path, path, outcome)
  else weigh(g, pose, batch, path, outcome)
  outcome.stood = now.stands ? 1 : 0
  outcome.blocked = now.committed ? 0 : now.blockShare
}

/** The probability of a save with block and reaction weighed; the shot is faced. */
function weigh(g: Goalkeeping, pose: P.Pose, batch: ShotBatch, path: number, outcome: Outcome): void {
  const { now } = g
  outcome.byRegion.fill(0)
  outcome.saved = 0
  if (now.blockShare < 1) {
    reactNow(now)
    outcome.saved += savedWith(g, pose, batch, path, 1 - now.blockShare, outcome)
  }
  outcome.savedByBlock = now.blockShare > 0 ? savedByBlock(g, pose, batch, path, now.blockShare, outcome) : 0
  outcome.saved += outcome.savedByBlock
}

/**
 * Weight times the probability of a save by a block: the share of its leads for which the body covers the path, and
 * for the rest the limbs, asked at one lead drawn from it.
 */
function savedByBlock(
  g: Goalkeeping,
  pose: P.Pose,
  batch: ShotBatch,
  path: number,
  weight: number,
  outcome: Outcome,
): number {
  const { now, cover } = g
  const length = now.longestLead
  if (now.leaks || !(length > 0)) {
    blockNow(now)
    return savedWith(g, pose, batch, path, weight, outcome)
  }
  collectCover(g, preparedNow(g, pose), batch.path, path)
  const covered = coveredShare(cover, length, weight, outcome.byRegion)
  if (covered >= 1 - 1e-12) return weight * covered
  blockNow(now)
  now.blockLead = -placeInOpen(cover, length, 1 - now.drawnLead / length)
  return weight * covered + savedWith(g, pose, batch, path, weight * (1 - covered), outcome)
}

/** Weight times the probability of a save the way the moment is set. */
function savedWith(
  g: Goalkeeping,
  pose: P.Pose,
  batch: ShotBatch,
  path: number,
  weight: number,
  outcome: Outcome,
): number {
  collectSaves(g, preparedNow(g, pose), batch.path, path)
  const median = pose.numbers[P.REACTION_MEDIAN]!
  const spread = pose.numbers[P.REACTION_SPREAD]!
  return weight * probabilityOf(g.saves, median, spread, g.now.read, weight, outcome.byRegion, 0)
}

/** Answers every shot of a batch with some poses of the scene and adds what happened to `tally`. */
export function answerBatch(
  g: Goalkeeping,
  batch: ShotBatch,
  poses: readonly number[],
  decide: Decide,
  tally: T.Tally,
  outcome: Outcome,
  rebounds: Rebounds | null = null,
): void {
  const { strata } = g.scene
  for (let i = 0; i < batch.count; i++) {
    const stratum = batch.stratum[i]!
    const spot = strata.table[stratum * S.STRATUM_STRIDE + S.SPOT]!
    const allotment = strata.allotment[stratum]!
    for (let k = 0; k < poses.length; k++) {
      const p = poses[k]!
      const weight = strata.share[p * strata.count + stratum]! / allotment
      if (weight > 0)
        addShot(g, batch, i, p, (p * tally.spots + spot) * T.TALLY_STRIDE, weight, decide, tally, outcome, rebounds)
    }
  }
}

/** One shot against one pose. */
function addShot(
  g: Goalkeeping,
  batch: ShotBatch,
  i: number,
  p: number,
  row: number,
  weight: number,
  decide: Decide,
  tally: T.Tally,
  outcome: Outcome,
  rebounds: Rebounds | null,
): void {
  const sums = tally.sums
  const shot = i * SHOT_STRIDE
  const fate = batch.fate[i]!
  const w = quantise(weight)
  sums[row + T.SHOTS_COUNTED]! += w
  if (batch.shot[shot + SHOT_UNREACHABLE] === 1) sums[row + T.UNREACHABLE]! += w
  if (!isOnGoal(fate)) {
    sums[row + columnOf(fate)]! += w
    return
  }
  sums[row + T.ON_GOAL_SUM]! += w
  if (fate === IRON_IN) sums[row + T.IRON_IN_SUM]! += w
  else sums[row + T.CLEAR_ON_GOAL]! += w

  // the goalie's part
  const pose = g.scene.poses[p]!
  let saved = 0
  if (pose.numbers[P.ANSWER] !== P.ANSWER_ABSENT) {
    standForShot(g, pose, batch, i)
    decide(g, pose, batch, i, i * PATH_STRIDE, outcome)
    saved = quantise(weight * outcome.saved)
    sums[row + T.SAVED]! += saved
    sums[row + T.STOOD]! += quantise(weight * outcome.stood)
    sums[row + T.BLOCKS]! += quantise(weight * outcome.blocked)
    if (g.scene.play[PLAY_MOVES] === 1) addMoves(g, row, weight, sums)
    if (g.scene.traffic.length > 0) addSight(g.now, row, weight, sums)
    sums[row + T.DEPTH_SUM]! += quantise(weight * g.station[STATION_DEPTH]!)
    if (g.station[STATION_CUT] === 1) sums[row + T.DEPTH_CUT]! += w
    if (fate === ON_GOAL) sums[row + T.CLEAR_SAVED]! += saved
    for (let region = 0; region < REGION_COUNT; region++)
      sums[row + T.BY_REGION + region]! += quantise(weight * outcome.byRegion[region]!)
    if (rebounds !== null && saved > 0) {
      followSave(g, rebounds, pose, batch, i, decide, outcome)
      addRebound(rebounds, row, saved, sums)
    }
  }
  const goal = w - saved
  if (goal > 0) placeGoal(g, batch, shot, pose, p, row, goal, tally)
}

/** Column that counts a shot that is not on goal. */
function columnOf(fate: number): number {
  switch (fate) {
    case IRON_OUT:
      return T.IRON_OUT_SUM
    case SHORT:
      return T.SHORT_SUM
    case NO_SHOT:
      return T.NO_SHOT_SUM
    case BLOCKED:
      return T.BLOCKED_SUM
    default:
      return T.MISSED
  }
}

/** What the way to the shot was like: set in time, by how much, and how far the goalie came. */
function addMoves(g: Goalkeeping, row: number, weight: number, sums: Float64Array): void {
  const { before, state } = g.moves
  if (unsetNow(g)) sums[row + T.NOT_SET]! += quantise(weight)
  sums[row + T.MARGIN_SUM]! += quantise(weight * arrivalMargin(g.moves))
  const dx = state[STATE_X]! - before[STATION_X]!
  const dy = state[STATE_Y]! - before[STATION_Y]!
  sums[row + T.TRAVEL_SUM]! += quantise(weight * Math.sqrt(dx * dx + dy * dy))
}

/** What the goalie saw of the shot: tipped or not, how much of the flight was hidden, and how long it was in sight. */
function addSight({ begins, sight, flight }: Moment, row: number, weight: number, sums: Float64Array): void {
  if (begins > 0) sums[row + T.TIPPED_SUM]! += quantise(weight)
  sums[row + T.HIDDEN_SUM]! += quantise(flight > 0 ? (weight * sight) / flight : 0)
  sums[row + T.SEEN_SUM]! += quantise(weight * (flight - sight))
}

/** Where the goal went in: zone, seen from the goalie's catching hand, and cell of the fine map. */
function placeGoal(
  g: Goalkeeping,
  batch: ShotBatch,
  shot: number,
  pose: P.Pose,
  p: number,
  row: number,
  goal: number,
  tally: T.Tally,
): void {
  const half = g.scene.world[MOUTH_HALF_WIDTH]!
  const height = g.scene.world[MOUTH_HEIGHT]!
  const y = batch.shot[shot + SHOT_MOUTH_Y]!
  const z = batch.shot[shot + SHOT_MOUTH_Z]!
  const n = pose.numbers
  const middle = n[P.ZONE_MIDDLE]!
  const side = y <= middle && y >= -middle ? 1 : y * n[P.GLOVE_SIDE]! > 0 ? 0 : 2
  tally.sums[row + T.BY_ZONE + (z < n[P.ZONE_LOW]! ? 0 : 3) + side]! += goal
  let column = ((y / half + 1) * 0.5 * T.MAP_COLUMNS) | 0
  let line = ((z / height) * T.MAP_ROWS) | 0
  column = column < 0 ? 0 : column >= T.MAP_COLUMNS ? T.MAP_COLUMNS - 1 : column
  line = line < 0 ? 0 : line >= T.MAP_ROWS ? T.MAP_ROWS - 1 : line
  tally.maps[p * T.MAP_CELLS + line * T.MAP_COLUMNS + column]! += goal
}
