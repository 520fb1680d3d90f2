import type { Goalkeeping } from "./answer.ts"
import { type PlacedBody, placeBody } from "./box/placed.ts"
import { DOWN_FOR, OPEN_LEVEL, OPEN_MODE, OPENING_LENGTH, openingAt } from "./motion/opening.ts"
import { STATE_HEADING, STATE_LENGTH, STATE_UNSET_FOR, STATE_X, STATE_Y, stateAt } from "./motion/timeline.ts"
import { openBody } from "./open-body.ts"
import { DROP_TIME, type Pose } from "./pose.ts"
import { RECOVERS } from "./rebound/rebound-table.ts"
import type { Seconds } from "./units.ts"

/**
 * The goalie's body at time t of the way last planned, where it has come to and as the movement leaves it: opened, or on
 * its way down in a slide, or set.
 */
export function bodyInMotion(g: Goalkeeping, pose: Pose, t: Seconds): PlacedBody {
  const { timeline } = g.moves
  const state = new Float64Array(STATE_LENGTH)
  stateAt(timeline, t, state)
  const opening = new Float64Array(OPENING_LENGTH)
  openingAt(timeline, pose.movement, pose.control[RECOVERS]!, t, opening)
  const down = opening[DOWN_FOR]!
  const lies = down >= pose.numbers[DROP_TIME]!
  const unset = state[STATE_UNSET_FOR]! > 0
  const { posture } = openBody(g.open, pose.posture, opening[OPEN_MODE]!, opening[OPEN_LEVEL]!, lies, unset)
  const phase = down > 0 ? Math.min(1, down / pose.numbers[DROP_TIME]!) : 0
  return placeBody(posture, phase, state[STATE_X]!, state[STATE_Y]!, state[STATE_HEADING]!)
}
