import {
  ACROSS,
  ACROSS_BY_DISTANCE,
  MOVEMENT_LENGTH,
  ROUTE,
  ROUTE_ONE_PATH,
  SHUFFLE_REACH,
  TURN_DELAY,
  TURN_RATE,
} from "../../../src/sim/motion/across.ts"
import { ACCELERATION, BRAKING, MODE_STRIDE, MODES, SET, START, TOP_SPEED } from "../../../src/sim/motion/mode.ts"
import { STATE_LENGTH, stateAt } from "../../../src/sim/motion/timeline.ts"
import { STATION_COS, STATION_LENGTH, STATION_SIN, STATION_X, STATION_Y } from "../../../src/sim/station.ts"

/** A goalie whose every mode starts after 0.1 s, gains 7 m/s2 up to 3 m/s, brakes at 5 m/s2 and is set 0.12 s later. */
export function plainMovement(): Float64Array {
  const movement = new Float64Array(MOVEMENT_LENGTH)
  for (let mode = 0; mode < MODES.length; mode++) {
    const row = mode * MODE_STRIDE
    movement[row + START] = 0.1
    movement[row + ACCELERATION] = 7
    movement[row + TOP_SPEED] = 3
    movement[row + BRAKING] = 5
    movement[row + SET] = 0.12
  }
  movement[TURN_DELAY] = 0.1
  movement[TURN_RATE] = 6
  movement[SHUFFLE_REACH] = 0.6
  movement[ROUTE] = ROUTE_ONE_PATH
  movement[ACROSS] = ACROSS_BY_DISTANCE
  return movement
}

/** A station that faces straight out from a place. */
export function stationOf(x: number, y: number, heading: number): Float64Array {
  const station = new Float64Array(STATION_LENGTH)
  station[STATION_X] = x
  station[STATION_Y] = y
  station[STATION_COS] = Math.cos(heading)
  station[STATION_SIN] = Math.sin(heading)
  return station
}

/** State at one instant, in an array of its own. */
export function stateOf(table: Float64Array, t: number): Float64Array {
  const state = new Float64Array(STATE_LENGTH)
  stateAt(table, t, state)
  return state
}
