import { stateAt } from "../../sim/motion/timeline.ts"
import { branchRow, PLAY_DRAWS, PLAY_MOVES } from "../../sim/play/course.ts"
import { moves, planMoves, stationOfState } from "../../sim/play/moves.ts"
import { CLOCK_LENGTH, timePlay } from "../../sim/play/timing.ts"
import type { Pose } from "../../sim/pose.ts"
import { GOALIE_DRAWS } from "../../sim/shots.ts"
import { STATION_LENGTH } from "../../sim/station.ts"
import type { Metres, Seconds } from "../../sim/units.ts"
import { exactStation, type SeenGoalie } from "../positioning/openness.ts"

/**
 * Where a shooter at (x, y) sees the goalie `lookAhead` before the release: in place, or as far on the way as a play and
 * a push of usual speed leave them. Nothing of a single shot is in it.
 */
export function stationSeen(
  goalie: SeenGoalie,
  pose: Pose,
  world: Float64Array,
  play: Float64Array,
  branch: number,
  x: Metres,
  y: Metres,
  lookAhead: Seconds,
): Float64Array {
  if (play[PLAY_MOVES] === 0) return exactStation(goalie, x, y)
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
  planMoves(pose, goalie.posture, shot, m)
  stateAt(m.timeline, -lookAhead, m.state)
  const seen = new Float64Array(STATION_LENGTH)
  stationOfState(m.state, seen)
  return seen
}
