import { isOutsideNet } from "./goal-line.ts"
import type { Meeting } from "./meeting.ts"
import * as meetingColumns from "./meeting.ts"
import * as timelineColumns from "./motion/timeline.ts"
import * as partColumns from "./parts.ts"
import * as pathColumns from "./path.ts"
import type { PreparedPosture } from "./prepared.ts"
import * as preparedColumns from "./prepared.ts"
import * as boxColumns from "./rounded-box.ts"
import type { Metres } from "./units.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const {
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
  UNASKED,
} = meetingColumns
const { CENTRE, HALF_SIZE, ROUNDING } = partColumns
const { BOUND_GREATEST_V, BOUND_LEAST_V, BOUND_REACH, BOUND_U, BOUND_V, BOUND_Z } = preparedColumns
const { heightAt, PATH_DX, PATH_DY, PATH_X, PATH_Y, paceAt, pieceAt, timeAt } = pathColumns
const { STATE_HEADING, STATE_TURN_RATE, STATE_VX, STATE_VY, STATE_X, STATE_Y, stateAt } = timelineColumns
const { BOX_H, BOX_LEAST, BOX_MOST, BOX_ROUNDING, START_C } = boxColumns

/** Steps that find when an unevenly moving part is level with the puck: each is some ten times nearer than the one before. */
const WAY_STEPS = 3

/**
 * Takes up one part: returns false when the path stays clear of the space the part (carried by its limb) can ever fill;
 * otherwise sets `level` and what the clearances below need.
 */
export function meetPart(
  m: Meeting,
  prepared: PreparedPosture,
  part: number,
  path: Float64Array,
  offset: number,
): boolean {
  let state = m.state[part]!
  if (state === UNASKED) {
    state = refuse(m, prepared, part, path, offset)
    m.state[part] = state
    if (state !== REFUSED) levelWith(m, prepared, part, path, offset)
  }
  if (state === REFUSED) return false

  // into the hand
  const { posture } = prepared
  m.level = m.levels[part]!
  m.box = m.boxes[part]!
  m.box[START_C] = Number.NaN
  m.prepared = prepared
  m.part = part
  m.row = part * posture.phases
  m.own = state === MET
  return true
}

/** Quick refusal, from where the path enters and leaves the part's slab of u: the part's state. */
function refuse(m: Meeting, prepared: PreparedPosture, part: number, path: Float64Array, offset: number): number {
  const f = m.frame
  const inverse = f[FRAME_INVERSE]!
  const level = m.levels[part]!
  level[LEVEL_LEAST_GAP] = 0
  if (inverse === 0) return MET
  const bounds = prepared.bounds[part]!
  const near = (bounds[BOUND_U]! - f[FRAME_U]!) * inverse
  const far = (bounds[BOUND_U + 1]! - f[FRAME_U]!) * inverse

  // to the side
  const v1 = f[FRAME_V]! + f[FRAME_DV]! * near
  const v2 = f[FRAME_V]! + f[FRAME_DV]! * far
  const rightmost = v1 < v2 ? v1 : v2
  const leftmost = v1 < v2 ? v2 : v1
  const left = rightmost - bounds[BOUND_V + 1]!
  const right = bounds[BOUND_V]! - leftmost
  const beside = left > right ? left : right
  // on the wrong side of the body the limb cannot help: only what the part itself covers counts
  const slack = BOW + f[FRAME_SLACK]!
  const wrong = leftmost < bounds[BOUND_LEAST_V]! || rightmost > bounds[BOUND_GREATEST_V]!
  const grown = wrong ? slack : bounds[BOUND_REACH]! + slack
  if (beside > grown) return REFUSED

  // above or below
  const z1 = heightAt(path, offset, near > 0 ? near : 0)
  const z2 = heightAt(path, offset, far > 0 ? far : 0)
  const over = (z1 < z2 ? z1 : z2) - bounds[BOUND_Z + 1]!
  const under = bounds[BOUND_Z]! - (z1 < z2 ? z2 : z1)
  const apart = over > under ? over : under
  if (apart > grown) return REFUSED
  if (beside <= slack && apart <= slack) return MET
  const away = beside <= 0 ? apart : apart <= 0 ? beside : Math.sqrt(beside * beside + apart * apart)
  level[LEVEL_LEAST_GAP] = away - slack
  return MET_BY_REACH
}

/** The path where it is level with the part's middle; nothing known of its clearances yet. */
function levelWith(m: Meeting, prepared: PreparedPosture, part: number, path: Float64Array, offset: number): void {
  const f = m.frame
  const du = f[FRAME_DU]!
  const dv = f[FRAME_DV]!
  const { posture } = prepared
  const row = part * posture.phases
  const middle = prepared.rows[row + (posture.phases >> 1)]!
  let distance = ((middle[CENTRE]! - f[FRAME_U]!) * du + (middle[CENTRE + 1]! - f[FRAME_V]!) * dv) * f[FRAME_NORM]!
  if (distance < 0) distance = 0
  const end = endFor(f, middle[CENTRE]!, middle[CENTRE + 1]!)
  if (distance > end) distance = end

  const level = m.levels[part]!
  if (m.way === null) {
    level[LEVEL_U] = f[FRAME_U]! + du * distance
    level[LEVEL_V] = f[FRAME_V]! + dv * distance
    level[LEVEL_DU] = du
    level[LEVEL_DV] = dv
  } else distance = levelOnTheWay(m, m.way, path, offset, middle[CENTRE]!, middle[CENTRE + 1]!, distance, end, level)
  const i = pieceAt(path, offset, distance)
  const q = distance - path[i]!
  level[LEVEL_TIME] = path[i + 5]! + q * (path[i + 6]! + q * (path[i + 7]! + q * path[i + 8]!))
  level[LEVEL_PACE] = path[i + 6]! + q * (2 * path[i + 7]! + q * 3 * path[i + 8]!)
  level[LEVEL_Z] = path[i + 1]! + q * (path[i + 2]! + q * (path[i + 3]! + q * path[i + 4]!))
  level[LEVEL_SLOPE] = path[i + 2]! + q * (2 * path[i + 3]! + q * 3 * path[i + 4]!)
  level[LEVEL_DISTANCE] = distance
  level[LEVEL_END] = end

  // sizes do not change through the drop
  const box = m.boxes[part]!
  const sizes = prepared.rows[row]!
  box[BOX_LEAST] = -distance
  box[BOX_MOST] = end - distance
  box[BOX_ROUNDING] = sizes[ROUNDING]!
  box[BOX_H] = sizes[HALF_SIZE]!
  box[BOX_H + 1] = sizes[HALF_SIZE + 1]!
  box[BOX_H + 2] = sizes[HALF_SIZE + 2]!

  m.known[part] = 0
  for (let phase = row; phase < row + posture.phases; phase++) {
    m.filled[phase] = 0
    m.gaps[phase] = Number.NaN
  }
}

/** Distance up to which a part with its middle at (u, v) can stop the puck: not through a post or the side of the net. */
function endFor(f: Float64Array, u: Metres, v: Metres): Metres {
  const end = f[FRAME_END]!
  const line = f[FRAME_LINE]!
  if (f[FRAME_X]! > FURTHEST_PART || line >= end) return end
  const x = f[FRAME_X]! + f[FRAME_COS]! * u - f[FRAME_SIN]! * v
  const y = f[FRAME_Y]! + f[FRAME_SIN]! * u + f[FRAME_COS]! * v
  return isOutsideNet(x, y, f[FRAME_MOUTH]!) ? line : end
}

/**
 * Where the path is level with a part, its middle at (u, v), of a goalie whose motion is uneven: found anew with the goalie
 * as at that moment, a step of Newton at a time. Writes the path as the part sees it there,
 *
 *   (u, v) = R(-heading) (puck - goalie)        d/dD (u, v) = R(-heading) (direction - pace velocity) + pace w (v, -u)
 *
 * and returns the distance.
 */
function levelOnTheWay(
  m: Meeting,
  way: Float64Array,
  path: Float64Array,
  offset: number,
  u: Metres,
  v: Metres,
  first: Metres,
  end: Metres,
  level: Float64Array,
): Metres {
  const { moment } = m
  let distance = first
  for (let step = 0; ; step++) {
    const pace = paceAt(path, offset, distance)
    stateAt(way, m.begins + timeAt(path, offset, distance), moment)
    const c = Math.cos(moment[STATE_HEADING]!)
    const s = Math.sin(moment[STATE_HEADING]!)
    const x = path[offset + PATH_X]! + distance * path[offset + PATH_DX]! - moment[STATE_X]!
    const y = path[offset + PATH_Y]! + distance * path[offset + PATH_DY]! - moment[STATE_Y]!
    const dx = path[offset + PATH_DX]! - pace * moment[STATE_VX]!
    const dy = path[offset + PATH_DY]! - pace * moment[STATE_VY]!
    const turn = pace * moment[STATE_TURN_RATE]!
    const levelU = c * x + s * y
    const levelV = c * y - s * x
    const du = c * dx + s * dy + turn * levelV
    const dv = c * dy - s * dx - turn * levelU
    if (step === WAY_STEPS) {
      level[LEVEL_U] = levelU
      level[LEVEL_V] = levelV
      level[LEVEL_DU] = du
      level[LEVEL_DV] = dv
      return distance
    }
    distance += ((u - levelU) * du + (v - levelV) * dv) / (du * du + dv * dv)
    if (distance < 0) distance = 0
    if (distance > end) distance = end
  }
}
