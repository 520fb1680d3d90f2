import { collectSaves, type Goalkeeping, preparedNow, reactNow, standForShot, unsetNow } from "./answer.ts"
import { decideConditional, type Outcome } from "./conditional.ts"
import { isOnGoal } from "./fate.ts"
import { PATH_STRIDE } from "./path.ts"
import { PLAY_MOVES } from "./play/course.ts"
import { arrivalMargin } from "./play/moves.ts"
import * as P from "./pose.ts"
import { REGION_COUNT, spanOfSaves } from "./saves.ts"
import type { ShotBatch } from "./shots.ts"
import { quantise } from "./statistics/exact-sum.ts"

/** Columns of what one shot did to one pose, for tables of single shots; NaN where there is nothing to say. */
export const RECORD_LENGTH = 11
/** How often the shot counts for the pose, as the run adds it up. */
export const RECORD_WEIGHT = 0
/** Probability of a save of a shot on goal as the run adds it up; 0 where nobody stands in the net. */
export const RECORD_SAVED = 1
/** 1 where the body frozen as it stands at the release stops it. */
export const RECORD_STOOD = 2
/** Share of blocks by anticipation, the rest being reactions. */
export const RECORD_BLOCKED = 3
/** Region with most of the save, index into REGIONS. */
export const RECORD_SAVED_BY = 4
/**
 * Of a goalie who reacts: in how many separate stretches the hands may start and still save, when the first begins and
 * when the last ends, s after the release. -Infinity: however early; Infinity: however late.
 */
export const RECORD_STRETCHES = 5
export const RECORD_FIRST_START = 6
export const RECORD_LAST_START = 7
/** In plays with something before the shot: 1 where the goalie was set at the release, and for how long, s. */
export const RECORD_SET = 8
export const RECORD_MARGIN = 9
/** 1 where it has to be stopped: it would be a goal with nobody there. */
export const RECORD_ON_GOAL = 10

/** Answers shot i of the batch with pose p once more and writes what it did to `record` [RECORD_LENGTH]. */
export function recordShot(
  g: Goalkeeping,
  batch: ShotBatch,
  i: number,
  p: number,
  outcome: Outcome,
  record: Float64Array,
): void {
  const { strata, poses, play } = g.scene
  const stratum = batch.stratum[i]!
  const pose = poses[p]!
  record.fill(Number.NaN)
  record[RECORD_WEIGHT] = quantise(strata.share[p * strata.count + stratum]! / strata.allotment[stratum]!)
  record[RECORD_ON_GOAL] = isOnGoal(batch.fate[i]!) ? 1 : 0
  if (record[RECORD_ON_GOAL] === 0) return

  // the goalie's part
  record[RECORD_SAVED] = 0
  if (pose.numbers[P.ANSWER] === P.ANSWER_ABSENT) return
  standForShot(g, pose, batch, i)
  if (play[PLAY_MOVES] === 1) {
    record[RECORD_SET] = unsetNow(g) ? 0 : 1
    record[RECORD_MARGIN] = arrivalMargin(g.moves)
  }
  decideConditional(g, pose, batch, i, i * PATH_STRIDE, outcome)
  record[RECORD_SAVED] = outcome.saved
  record[RECORD_STOOD] = outcome.stood
  record[RECORD_BLOCKED] = outcome.blocked
  const by = mostOf(outcome.byRegion)
  if (by >= 0) record[RECORD_SAVED_BY] = by

  // when the hands may start; nothing of a goalie who is certain to block
  if (outcome.blocked === 1) return
  if (outcome.blocked > 0) {
    // what is in hand are the saves behind a block
    reactNow(g.now)
    collectSaves(g, preparedNow(g, pose), batch.path, i * PATH_STRIDE)
  }
  record[RECORD_STRETCHES] = spanOfSaves(g.saves, -g.now.read, record, RECORD_FIRST_START)
}

/** The region with most of the save; -1 without a save. */
function mostOf(byRegion: Float64Array): number {
  let most = -1
  for (let region = 0; region < REGION_COUNT; region++)
    if (byRegion[region]! > (most < 0 ? 0 : byRegion[most]!)) most = region
  return most
}
