import {
  COVER,
  MOMENT,
  MOMENT_BLOCK_LEAD,
  MOMENT_BLOCK_SHARE,
  MOMENT_DRAWN_LEAD,
  MOMENT_LAST_PHASE,
  MOMENT_LEAKS,
  MOMENT_LONGEST_LEAD,
  MOMENT_REACT_PHASE,
  OUTCOME,
  OUTCOME_BY_BLOCK,
  OUTCOME_NUMBERS,
  OUTCOME_SAVED,
  SAVES,
} from "../sim/compiled/layout.ts"
import { collectCover, collectSaves } from "./collect.ts"
import { coveredShare, placeInOpen, probabilityOf } from "./probability.ts"
import { REACTS } from "./react.ts"
import { momentOf, NUMBER } from "./tables.ts"

/** What the compiled kernel does of sim/conditional.ts. */

// @ts-ignore: decorator
@inline
function setMoment(column: i32, value: f64): void {
  store<f64>(MOMENT + column * NUMBER, value)
}

/** Answers the shot in hand: OUTCOME holds what the goalie saves by blocking or reacting, as often as each is done. */
export function decide(posture: usize): void {
  memory.fill(OUTCOME, 0, OUTCOME_NUMBERS * NUMBER)
  const share = momentOf(MOMENT_BLOCK_SHARE)
  let saved: f64 = 0
  if (share < 1) {
    setMoment(MOMENT_BLOCK_LEAD, REACTS)
    setMoment(MOMENT_LAST_PHASE, momentOf(MOMENT_REACT_PHASE))
    saved += savedWith(posture, 1 - share)
  }
  const byBlock = share > 0 ? savedByBlock(posture, share) : 0
  store<f64>(OUTCOME + OUTCOME_BY_BLOCK, byBlock)
  store<f64>(OUTCOME + OUTCOME_SAVED, saved + byBlock)
}

/** Weight times the probability of a save by a block, see sim/conditional.ts. */
function savedByBlock(posture: usize, weight: f64): f64 {
  const length = momentOf(MOMENT_LONGEST_LEAD)
  const drawn = momentOf(MOMENT_DRAWN_LEAD)
  if (momentOf(MOMENT_LEAKS) != 0 || !(length > 0)) {
    blockWith(drawn)
    return savedWith(posture, weight)
  }
  collectCover(posture)
  const covered = coveredShare(COVER, length, weight)
  if (covered >= 1 - 1e-12) return weight * covered
  blockWith(-placeInOpen(COVER, length, 1 - drawn / length))
  return weight * covered + savedWith(posture, weight * (1 - covered))
}

/** Lets the drop start by itself, this long before the release. */
function blockWith(lead: f64): void {
  setMoment(MOMENT_BLOCK_LEAD, lead)
  setMoment(MOMENT_LAST_PHASE, 1)
}

/** Weight times the probability of a save the way the moment is set. */
function savedWith(posture: usize, weight: f64): f64 {
  collectSaves(posture)
  return weight * probabilityOf(SAVES, weight)
}
