import type { Metres, Radians } from "./units.ts"

/** Columns of a station: place between the skates, unit vector the goalie faces along, depth really taken. */
export const STATION_X = 0
export const STATION_Y = 1
export const STATION_COS = 2
export const STATION_SIN = 3
export const STATION_DEPTH = 4
/** 1 when the depth was cut because the puck was too near. */
export const STATION_CUT = 5
export const STATION_LENGTH = 6

/**
 * Where a goalie of a given depth stands for a puck at (px, py), errors included.
 *
 * On the line from the centre of the goal line to the puck, `depth` out, unless the outer skate would then be outside
 * the post and behind the goal line: from there depth runs along the post side, as far round as the outer skate
 * allows. With bearing b of the puck and half stance h:
 *
 *   inside the post    d sin t + h cos b <= half mouth    or    in front of the line    d cos t - h sin b >= 0
 *
 * and t is the greatest angle up to b for which one of the two holds. The goalie faces the puck. `nearest` is the least
 * distance from the skates to the puck: a greater depth is cut to it (STATION_DEPTH tells).
 * `offLine` moves along the goalie's own line of shoulders, `angleError` about the centre of the goal line, `turn`
 * turns on the spot; all positive toward the goalie's left. A puck on or behind the goal line finds the goalie on the post
 * of its side, whatever the depth, see {@link standOnPost}; `postTurn` is how far the goalie turns there.
 */
export function stand(
  depth: Metres,
  px: Metres,
  py: Metres,
  halfStance: Metres,
  mouthHalfWidth: Metres,
  nearest: Metres,
  offLine: Metres,
  angleError: number,
  turn: number,
  postTurn: Radians,
  station: Float64Array,
): void {
  if (px <= 0) {
    standOnPost(py, halfStance, mouthHalfWidth, turn, postTurn, station)
    return
  }
  // the puck's bearing from the centre of the goal line, as a cosine and the size of a sine
  const distance = Math.sqrt(px * px + py * py)
  const cosBearing = px / distance
  const side = py < 0 ? -1 : 1
  const sinBearing = (side * py) / distance

  // no nearer to the puck than the body allows
  let d = depth
  if (d > distance - nearest) d = distance - nearest > 0 ? distance - nearest : 0

  // how far round the post allows
  let sinTurn = sinBearing
  let cosTurn = cosBearing
  const insidePost = mouthHalfWidth - halfStance * cosBearing
  if (d * sinBearing > insidePost && d * cosBearing < halfStance * sinBearing) {
    const fromPost = insidePost > 0 ? insidePost / d : 0
    const cosFromLine = (halfStance * sinBearing) / d
    const fromLine = cosFromLine < 1 ? Math.sqrt(1 - cosFromLine * cosFromLine) : 0
    sinTurn = fromPost > fromLine ? fromPost : fromLine
    if (sinTurn > sinBearing) sinTurn = sinBearing
    cosTurn = Math.sqrt(1 - sinTurn * sinTurn)
  }
  sinTurn *= side

  // errors: about the centre of the goal line, then along the shoulders
  const swing = d * angleError + offLine
  let x = d * cosTurn - swing * sinTurn
  if (x < 0) x = 0 // the skates stay in front of the goal line
  const y = d * sinTurn + swing * cosTurn
  const fx = px - x
  const fy = py - y
  const away = Math.sqrt(fx * fx + fy * fy)
  // facing the puck from where the goalie believes to be on line, turned by the error (small: second order kept)
  const c = 1 - 0.5 * turn * turn
  const length = Math.sqrt(c * c + turn * turn)
  station[STATION_X] = x
  station[STATION_Y] = y
  station[STATION_COS] = (fx * c - fy * turn) / (away * length)
  station[STATION_SIN] = (fy * c + fx * turn) / (away * length)
  station[STATION_DEPTH] = d
  station[STATION_CUT] = d < depth ? 1 : 0
}

/**
 * On the post: the outer skate on the goal line at the inside of the post on the puck's side, hips and shoulders turned
 * from straight ahead toward the puck as far as `postTurn`, which is short of a puck behind the line. With h the heading:
 *
 *   (half stance sin h, half mouth - half stance cos h)
 *
 * the place where the sharpest angles put the goalie too. The post is felt, so that only the turn is in error.
 */
export function standOnPost(
  py: Metres,
  halfStance: Metres,
  mouthHalfWidth: Metres,
  turn: Radians,
  postTurn: Radians,
  station: Float64Array,
): void {
  const side = py < 0 ? -1 : 1
  const x = halfStance * Math.sin(postTurn)
  const y = mouthHalfWidth - halfStance * Math.cos(postTurn)
  const heading = side * postTurn + turn
  station[STATION_X] = x
  station[STATION_Y] = side * y
  station[STATION_COS] = Math.cos(heading)
  station[STATION_SIN] = Math.sin(heading)
  station[STATION_DEPTH] = Math.sqrt(x * x + y * y)
  station[STATION_CUT] = 0
}
