import { STATE, TIMELINE } from "../sim/compiled/layout.ts"
import { sin } from "./host.ts"
import { NUMBER } from "./tables.ts"

/** Columns of a timeline and of its pieces, the same as in sim/motion/timeline.ts. */
const PATH_COUNT = 0
const TURN_COUNT = 1
const PATH: usize = TIMELINE + 16 * NUMBER
const PATH_BYTES = 8 * NUMBER
const PIECE_X = 1
const PIECE_Y = 2
const PIECE_UX = 3
const PIECE_UY = 4
const PIECE_CURVATURE = 5
const PIECE_SPEED = 6
const PIECE_ACCELERATION = 7
const PATH_MOST = 320
const TURNS: usize = PATH + PATH_MOST * PATH_BYTES
const TURN_BYTES = 3 * NUMBER
const TURN_HEADING = 1
const TURN_PACE = 2

/** Columns of a state, the same as there. */
export const STATE_X = 0
export const STATE_Y = 1
export const STATE_VX = 2
export const STATE_VY = 3
export const STATE_HEADING = 4
export const STATE_TURN_RATE = 5

/** A number of the state under work. */
// @ts-ignore: decorator
@inline
export function stateOf(column: i32): f64 {
  return load<f64>(STATE + column * NUMBER)
}

/** Writes the state of the goalie at time t, without how long until the goalie is set; see sim/motion/timeline.ts. */
export function stateAt(t: f64): void {
  writePlace(t)
  let row = TURNS + <usize>(<i32>load<f64>(TIMELINE + TURN_COUNT * NUMBER) - 1) * TURN_BYTES
  while (row > TURNS && load<f64>(row) > t) row -= TURN_BYTES
  const since = t - load<f64>(row)
  const heading = load<f64>(row, TURN_HEADING * NUMBER) + load<f64>(row, TURN_PACE * NUMBER) * (since > 0 ? since : 0)
  store<f64>(STATE + STATE_HEADING * NUMBER, heading)
  store<f64>(STATE + STATE_TURN_RATE * NUMBER, load<f64>(row, TURN_PACE * NUMBER))
}

function writePlace(t: f64): void {
  // the last piece that has begun
  let row = PATH + <usize>(<i32>load<f64>(TIMELINE + PATH_COUNT * NUMBER) - 1) * PATH_BYTES
  while (row > PATH && load<f64>(row) > t) row -= PATH_BYTES
  const since = t - load<f64>(row)
  const lapse = since > 0 ? since : 0

  const rate = load<f64>(row, PIECE_ACCELERATION * NUMBER)
  const speed = load<f64>(row, PIECE_SPEED * NUMBER) + rate * lapse
  const way = lapse * (load<f64>(row, PIECE_SPEED * NUMBER) + 0.5 * rate * lapse)
  const ux = load<f64>(row, PIECE_UX * NUMBER)
  const uy = load<f64>(row, PIECE_UY * NUMBER)
  const curvature = load<f64>(row, PIECE_CURVATURE * NUMBER)
  if (curvature == 0) {
    writeState(
      load<f64>(row, PIECE_X * NUMBER) + way * ux,
      load<f64>(row, PIECE_Y * NUMBER) + way * uy,
      speed * ux,
      speed * uy,
    )
    return
  }
  const sine = sin(curvature * way)
  const half = sin(0.5 * curvature * way)
  const cosine = 1 - 2 * half * half
  const along = sine / curvature
  const across = (2 * half * half) / curvature
  writeState(
    load<f64>(row, PIECE_X * NUMBER) + along * ux - across * uy,
    load<f64>(row, PIECE_Y * NUMBER) + along * uy + across * ux,
    speed * (cosine * ux - sine * uy),
    speed * (cosine * uy + sine * ux),
  )
}

function writeState(x: f64, y: f64, vx: f64, vy: f64): void {
  store<f64>(STATE + STATE_X * NUMBER, x)
  store<f64>(STATE + STATE_Y * NUMBER, y)
  store<f64>(STATE + STATE_VX * NUMBER, vx)
  store<f64>(STATE + STATE_VY * NUMBER, vy)
}
