import type { Standing } from "../../sim/box/travel.ts"
import type { Posture } from "../../sim/parts.ts"
import { stationExactly } from "../../sim/stand-exactly.ts"
import { STATION_COS, STATION_DEPTH, STATION_LENGTH, STATION_SIN, STATION_X, STATION_Y } from "../../sim/station.ts"
import type { Metres } from "../../sim/units.ts"
import { MOUTH_HALF_WIDTH } from "../../sim/world.ts"
import type { Settings } from "../settings.ts"
import { poseNumbers } from "./pose-numbers.ts"

/** A goalie in place, and the depth really taken. */
export interface StandingGoalie extends Standing {
  readonly depth: Metres
}

/** Where the goalie of some settings stands, without errors, for a puck at (x, y); phase 0 of the drop. */
export function standFor(
  settings: Settings,
  posture: Posture,
  world: Float64Array,
  x: Metres,
  y: Metres,
): StandingGoalie {
  const station = new Float64Array(STATION_LENGTH)
  stationExactly(posture, poseNumbers(settings), world[MOUTH_HALF_WIDTH]!, x, y, station)
  return {
    gx: station[STATION_X]!,
    gy: station[STATION_Y]!,
    heading: Math.atan2(station[STATION_SIN]!, station[STATION_COS]!),
    phase: 0,
    depth: station[STATION_DEPTH]!,
  }
}
