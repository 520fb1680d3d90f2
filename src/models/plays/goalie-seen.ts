import { DOWN_FOR, OPEN_LEVEL, OPEN_MODE, OPENING_LEVELS, openingAt } from "../../sim/motion/opening.ts"
import { stateAt } from "../../sim/motion/timeline.ts"
import { lyingPosture, openPosture } from "../../sim/open-body.ts"
import type { OpenBody, Posture } from "../../sim/parts.ts"
import { branchRow, PLAY_DRAWS, PLAY_MOVES } from "../../sim/play/course.ts"
import { moves, planMoves, stationOfState } from "../../sim/play/moves.ts"
import { CLOCK_LENGTH, timePlay } from "../../sim/play/timing.ts"
import { DROP_TIME, type Pose } from "../../sim/pose.ts"
import { RECOVERS } from "../../sim/rebound/rebound-table.ts"
import { GOALIE_DRAWS } from "../../sim/shots.ts"
import { STATION_LENGTH } from "../../sim/station.ts"
import type { Metres, Seconds } from "../../sim/units.ts"
import { exactStation, type SeenGoalie } from "../positioning/openness.ts"

/** The goalie of one pose as one shooter sees it. */
export interface Seen {
  readonly posture: Posture
  readonly station: Float64Array
}

/**
 * Where and how a shooter at (x, y) sees the goalie `lookAhead` before the release: in place and set, or as far on the way
 * and as opened by it as a play and a push of usual speed leave them. Nothing of a single shot is in it. `opened` are the
 * bodies that movement opens, see sim/pose.ts.
 */
export function goalieSeen(
  goalie: SeenGoalie,
  pose: Pose,
  opened: readonly OpenBody[],
  world: Float64Array,
  play: Float64Array,
  branch: number,
  x: Metres,
  y: Metres,
  lookAhead: Seconds,
): Seen {
  const { posture } = goalie
  if (play[PLAY_MOVES] === 0) return { posture, station: exactStation(goalie, x, y) }
  const m = moves()
  const clock = new Float64Array(CLOCK_LENGTH)
  const row = branchRow(branch)
  timePlay(world, play, row, x, y, new Float64Array(PLAY_DRAWS), 0, clock, 0)
  const shot = {
    play,
    mouthHalfWidth: goalie.mouthHalfWidth,
    branch: row,
    x,
    y,
    clock,
    clockAt: 0,
    draws: new Float64Array(GOALIE_DRAWS),
    drawsAt: 0,
  }
  planMoves(pose, posture, shot, m)
  stateAt(m.timeline, -lookAhead, m.state)
  const station = new Float64Array(STATION_LENGTH)
  stationOfState(m.state, station)
  openingAt(m.timeline, pose.movement, pose.control[RECOVERS]!, -lookAhead, m.opening)
  return { posture: bodySeen(posture, pose, opened, m.opening), station }
}

/** The posture as an opening leaves it. */
function bodySeen(posture: Posture, pose: Pose, opened: readonly OpenBody[], opening: Float64Array): Posture {
  const open = opened[opening[OPEN_MODE]!]
  const level = opening[OPEN_LEVEL]!
  const body = level > 0 && open !== undefined ? openPosture(posture, open, level / OPENING_LEVELS) : posture
  return opening[DOWN_FOR]! >= pose.numbers[DROP_TIME]! ? lyingPosture(body) : body
}
