import {
  FRAME,
  HAND,
  HAND_START,
  MET_FILLED,
  MET_KNOWN,
  MET_LEAST,
  MET_MEASURED,
  MET_MOST,
  MET_STATE,
  MET_TURN,
  MOMENT_BEGINS,
  MOMENT_UNEVEN,
  PART_BOUNDS,
  PART_MIDDLE,
  TURN,
} from "../sim/compiled/layout.ts"
import {
  BOW,
  FRAME_COS,
  FRAME_DU,
  FRAME_DV,
  FRAME_END,
  FRAME_INVERSE,
  FRAME_LINE,
  FRAME_MOUTH,
  FRAME_NORM,
  FRAME_SIN,
  FRAME_SLACK,
  FRAME_U,
  FRAME_V,
  FRAME_X,
  FRAME_Y,
  FURTHEST_PART,
  LEVEL_DISTANCE,
  LEVEL_DU,
  LEVEL_DV,
  LEVEL_END,
  LEVEL_LEAST_GAP,
  LEVEL_PACE,
  LEVEL_SLOPE,
  LEVEL_TIME,
  LEVEL_U,
  LEVEL_V,
  LEVEL_Z,
  MET,
  MET_BY_REACH,
  REFUSED,
} from "../sim/meeting-columns.ts"
import { cos, sin } from "./host.ts"
import { STATE_HEADING, STATE_TURN_RATE, STATE_VX, STATE_VY, STATE_X, STATE_Y, stateAt, stateOf } from "./motion.ts"
import {
  headOf,
  heightAt,
  heightOn,
  PATH_DX,
  PATH_DY,
  PATH_X,
  PATH_Y,
  paceOn,
  pieceAt,
  slopeOn,
  timeOn,
} from "./path.ts"
import { momentOf, NUMBER } from "./tables.ts"

/** Columns of the bounds, the same as in sim/prepared.ts. */
const BOUND_U = PART_BOUNDS
const BOUND_V = PART_BOUNDS + 2 * NUMBER
const BOUND_Z = PART_BOUNDS + 4 * NUMBER
const BOUND_REACH = PART_BOUNDS + 6 * NUMBER
const BOUND_LEAST_V = PART_BOUNDS + 7 * NUMBER
const BOUND_GREATEST_V = PART_BOUNDS + 8 * NUMBER

/** The same as in sim/meet.ts. */
const WAY_STEPS: i32 = 3

/** A number of the path in the goalie's frame. */
// @ts-ignore: decorator
@inline
function frameOf(column: i32): f64 {
  return load<f64>(FRAME + column * NUMBER)
}

/** Takes up one part, see sim/meet.ts: its state; REFUSED where the path stays clear of all it can ever fill. */
export function meetPart(part: usize, met: usize): i32 {
  const turn = load<f64>(TURN)
  let state = load<i32>(met, MET_STATE)
  if (load<f64>(met, MET_TURN) != turn) {
    store<f64>(met, turn, MET_TURN)
    state = refuse(part, met)
    store<i32>(met, state, MET_STATE)
    if (state != REFUSED) levelWith(part, met)
  }
  store<f64>(HAND + HAND_START, NaN)
  return state
}

/** Quick refusal, from where the path enters and leaves the part's slab of u: the part's state. */
function refuse(part: usize, met: usize): i32 {
  const inverse = frameOf(FRAME_INVERSE)
  store<f64>(met, 0, LEVEL_LEAST_GAP * NUMBER)
  if (inverse == 0) return MET
  const near = (load<f64>(part, BOUND_U) - frameOf(FRAME_U)) * inverse
  const far = (load<f64>(part, BOUND_U + NUMBER) - frameOf(FRAME_U)) * inverse

  // to the side
  const v1 = frameOf(FRAME_V) + frameOf(FRAME_DV) * near
  const v2 = frameOf(FRAME_V) + frameOf(FRAME_DV) * far
  const rightmost = v1 < v2 ? v1 : v2
  const leftmost = v1 < v2 ? v2 : v1
  const left = rightmost - load<f64>(part, BOUND_V + NUMBER)
  const right = load<f64>(part, BOUND_V) - leftmost
  const beside = left > right ? left : right
  // on the wrong side of the body the limb cannot help: only what the part itself covers counts
  const slack = BOW + frameOf(FRAME_SLACK)
  const wrong = leftmost < load<f64>(part, BOUND_LEAST_V) || rightmost > load<f64>(part, BOUND_GREATEST_V)
  const grown = wrong ? slack : load<f64>(part, BOUND_REACH) + slack
  if (beside > grown) return REFUSED

  // above or below
  const z1 = heightAt(near > 0 ? near : 0)
  const z2 = heightAt(far > 0 ? far : 0)
  const over = (z1 < z2 ? z1 : z2) - load<f64>(part, BOUND_Z + NUMBER)
  const under = load<f64>(part, BOUND_Z) - (z1 < z2 ? z2 : z1)
  const apart = over > under ? over : under
  if (apart > grown) return REFUSED
  if (beside <= slack && apart <= slack) return MET
  const away = beside <= 0 ? apart : apart <= 0 ? beside : sqrt(beside * beside + apart * apart)
  store<f64>(met, away - slack, LEVEL_LEAST_GAP * NUMBER)
  return MET_BY_REACH
}

/** The path where it is level with the part's middle; nothing known of its clearances yet. */
function levelWith(part: usize, met: usize): void {
  const du = frameOf(FRAME_DU)
  const dv = frameOf(FRAME_DV)
  const u = load<f64>(part, PART_MIDDLE)
  const v = load<f64>(part, PART_MIDDLE + NUMBER)
  let distance = ((u - frameOf(FRAME_U)) * du + (v - frameOf(FRAME_V)) * dv) * frameOf(FRAME_NORM)
  if (distance < 0) distance = 0
  const end = endFor(u, v)
  if (distance > end) distance = end

  if (momentOf(MOMENT_UNEVEN) == 0) {
    store<f64>(met, frameOf(FRAME_U) + du * distance, LEVEL_U * NUMBER)
    store<f64>(met, frameOf(FRAME_V) + dv * distance, LEVEL_V * NUMBER)
    store<f64>(met, du, LEVEL_DU * NUMBER)
    store<f64>(met, dv, LEVEL_DV * NUMBER)
  } else distance = levelOnTheWay(met, u, v, distance, end)
  const piece = pieceAt(distance)
  const q = distance - load<f64>(piece)
  store<f64>(met, timeOn(piece, q), LEVEL_TIME * NUMBER)
  store<f64>(met, paceOn(piece, q), LEVEL_PACE * NUMBER)
  store<f64>(met, heightOn(piece, q), LEVEL_Z * NUMBER)
  store<f64>(met, slopeOn(piece, q), LEVEL_SLOPE * NUMBER)
  store<f64>(met, distance, LEVEL_DISTANCE * NUMBER)
  store<f64>(met, end, LEVEL_END * NUMBER)
  store<f64>(met, -distance, MET_LEAST)
  store<f64>(met, end - distance, MET_MOST)
  store<i32>(met, 0, MET_KNOWN)
  v128.store(met, i64x2.splat(0), MET_FILLED)
  v128.store(met, i64x2.splat(0), MET_MEASURED)
}

/** Distance up to which a part with its middle at (u, v) can stop the puck: not through a post or the side of the net. */
function endFor(u: f64, v: f64): f64 {
  const end = frameOf(FRAME_END)
  const line = frameOf(FRAME_LINE)
  if (frameOf(FRAME_X) > FURTHEST_PART || line >= end) return end
  const x = frameOf(FRAME_X) + frameOf(FRAME_COS) * u - frameOf(FRAME_SIN) * v
  const y = frameOf(FRAME_Y) + frameOf(FRAME_SIN) * u + frameOf(FRAME_COS) * v
  const mouth = frameOf(FRAME_MOUTH)
  return x < 0 && (y > mouth || y < -mouth) ? line : end
}

/** Where the path is level with a part of a goalie whose motion is uneven, see sim/meet.ts; returns the distance. */
function levelOnTheWay(met: usize, u: f64, v: f64, first: f64, end: f64): f64 {
  let distance = first
  let step = 0
  while (true) {
    const piece = pieceAt(distance)
    const q = distance - load<f64>(piece)
    const pace = paceOn(piece, q)
    stateAt(momentOf(MOMENT_BEGINS) + timeOn(piece, q))
    const c = cos(stateOf(STATE_HEADING))
    const s = sin(stateOf(STATE_HEADING))
    const x = headOf(PATH_X) + distance * headOf(PATH_DX) - stateOf(STATE_X)
    const y = headOf(PATH_Y) + distance * headOf(PATH_DY) - stateOf(STATE_Y)
    const dx = headOf(PATH_DX) - pace * stateOf(STATE_VX)
    const dy = headOf(PATH_DY) - pace * stateOf(STATE_VY)
    const turn = pace * stateOf(STATE_TURN_RATE)
    const levelU = c * x + s * y
    const levelV = c * y - s * x
    const du = c * dx + s * dy + turn * levelV
    const dv = c * dy - s * dx - turn * levelU
    if (step++ == WAY_STEPS) {
      store<f64>(met, levelU, LEVEL_U * NUMBER)
      store<f64>(met, levelV, LEVEL_V * NUMBER)
      store<f64>(met, du, LEVEL_DU * NUMBER)
      store<f64>(met, dv, LEVEL_DV * NUMBER)
      return distance
    }
    distance += ((u - levelU) * du + (v - levelV) * dv) / (du * du + dv * dv)
    if (distance < 0) distance = 0
    if (distance > end) distance = end
  }
}
