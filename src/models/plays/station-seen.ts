import { stateAt } from "../../sim/motion/timeline.ts"
import { FROM_X, FROM_Y, moves, PLAY_KIND, PLAY_STRAIGHT, planMoves, stationOfState, timePlay } from "../../sim/play.ts"
import { STATION_LENGTH } from "../../sim/station.ts"
import type { Metres, Seconds } from "../../sim/units.ts"
import { exactStation, type SeenGoalie } from "../positioning/openness.ts"

/**
 * Where a shooter at (x, y) sees the goalie `lookAhead` before the release: in place, or as far across as a pass and a
 * push of usual speed leave them. Nothing of a single shot is in it.
 */
export function stationSeen(
  goalie: SeenGoalie,
  movement: Float64Array,
  world: Float64Array,
  play: Float64Array,
  x: Metres,
  y: Metres,
  lookAhead: Seconds,
): Float64Array {
  const target = exactStation(goalie, x, y)
  if (play[PLAY_KIND] === PLAY_STRAIGHT) return target
  const m = moves()
  timePlay(world, play, x, y, 0, 0, m)
  planMoves(movement, exactStation(goalie, play[FROM_X]!, play[FROM_Y]!), target, 0, 0, m)
  stateAt(m.timeline, -lookAhead, m.state)
  const seen = new Float64Array(STATION_LENGTH)
  stationOfState(m.state, seen)
  return seen
}
