import { openGrid } from "../../sim/box/open-grid.ts"
import { placeBody } from "../../sim/box/placed.ts"
import type { MouthGrid } from "../../sim/mouth-grid.ts"
import type { Posture } from "../../sim/parts.ts"
import * as P from "../../sim/pose.ts"
import { stationExactly } from "../../sim/stand-exactly.ts"
import { STATION_COS, STATION_LENGTH, STATION_SIN, STATION_X, STATION_Y } from "../../sim/station.ts"
import type { Metres, Probability } from "../../sim/units.ts"

/** How far a ray has to pass the body for the place behind it to look fully open, m: the edge of what is seen. */
const EDGE: Metres = 0.04

/** The goalie of one pose and what a shooter may see of it. */
export interface SeenGoalie {
  readonly posture: Posture
  readonly numbers: Float64Array
  readonly mouthHalfWidth: Metres
  /** How much of what the shooter expects is the butterfly, the rest being the outline seen. */
  readonly butterflyBelief: Probability
  /** Where the goalie is when looked at; absent: in place for the puck. */
  readonly station?: Float64Array
}

/**
 * What a shooter expects behind a goalie: for each cell of the mouth the chance that it is open, from the outline a
 * moment before the release and what the goalie will do, the butterfly, weighed by the shooter's belief. Looked at from (x, y, z), the
 * puck or the shooter's eyes, with the puck at (puckX, puckY); never with this shot's own reaction or errors.
 */
export function opennessSeen(
  goalie: SeenGoalie,
  puckX: Metres,
  puckY: Metres,
  x: Metres,
  y: Metres,
  z: Metres,
  grid: MouthGrid,
): Float64Array {
  const seen = new Float64Array(grid.columns * grid.rows)
  const n = goalie.numbers
  if (n[P.ANSWER] === P.ANSWER_ABSENT) return seen.fill(1)
  const station = goalie.station ?? exactStation(goalie, puckX, puckY)
  const heading = Math.atan2(station[STATION_SIN]!, station[STATION_COS]!)
  const columns = middles(grid.y)
  const rows = middles(grid.z)
  const down = n[P.ANSWER] === P.ANSWER_FROZEN ? 0 : goalie.butterflyBelief
  for (const [phase, weight] of [
    [0, 1 - down],
    [1, down],
  ] as const) {
    if (weight === 0) continue
    const body = placeBody(goalie.posture, phase, station[STATION_X]!, station[STATION_Y]!, heading)
    const light = { px: x, py: y, pz: z, discRadius: 0, discHalf: 0 }
    const clear = openGrid(light, body.parts, body.count, columns, rows, [0, EDGE])
    for (let i = 0; i < seen.length; i++) seen[i] = seen[i]! + weight * openShare(clear[i]!)
  }
  return seen
}

/** In place for the puck, without errors. */
export function exactStation(goalie: SeenGoalie, puckX: Metres, puckY: Metres): Float64Array {
  const station = new Float64Array(STATION_LENGTH)
  stationExactly(goalie.posture, goalie.numbers, goalie.mouthHalfWidth, puckX, puckY, station)
  return station
}

/** 0 behind the body, 1 where the ray passes it by the edge or more. */
function openShare(clearance: Metres): Probability {
  return clearance <= 0 ? 0 : clearance >= EDGE ? 1 : clearance / EDGE
}

function middles(edges: Float64Array): Float64Array {
  return edges.subarray(1).map((edge, i) => 0.5 * (edge + edges[i]!))
}
