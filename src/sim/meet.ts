import { isOutsideNet } from "./goal-line.ts"
import type { Meeting } from "./meeting.ts"
import * as meetingColumns from "./meeting.ts"
import * as partColumns from "./parts.ts"
import { heightAt, pieceAt } from "./path.ts"
import type { PreparedPosture } from "./prepared.ts"
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
  FRAME_LEVEL,
  FRAME_LINE,
  FRAME_MOUTH,
  FRAME_NORM,
  FRAME_SIN,
  FRAME_SLACK,
  FRAME_TURN,
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
  LEVEL_LENGTH,
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
const { CENTRE, HALF_SIZE, PART_STRIDE, ROUNDING } = partColumns
const { BOX_H, BOX_LEAST, BOX_MOST, BOX_ROUNDING, CLOSEST_AT } = boxColumns

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
  const { level, levels, box } = m
  const at = part * LEVEL_LENGTH
  for (let i = 0; i < LEVEL_LENGTH; i++) level[i] = levels[at + i]!
  m.prepared = prepared
  m.part = part
  m.row = part * posture.phases
  m.own = state === MET
  const distance = level[LEVEL_DISTANCE]!
  const row = part * PART_STRIDE
  const parts = posture.parts
  box[BOX_LEAST] = -distance
  box[BOX_MOST] = level[LEVEL_END]! - distance
  box[BOX_ROUNDING] = parts[row + ROUNDING]!
  box[BOX_H] = parts[row + HALF_SIZE]!
  box[BOX_H + 1] = parts[row + HALF_SIZE + 1]!
  box[BOX_H + 2] = parts[row + HALF_SIZE + 2]!
  box[CLOSEST_AT] = 0
  return true
}

/** Quick refusal, from where the path enters and leaves the part's slab of u: the part's state. */
function refuse(m: Meeting, prepared: PreparedPosture, part: number, path: Float64Array, offset: number): number {
  const f = m.frame
  const inverse = f[FRAME_INVERSE]!
  const least = part * LEVEL_LENGTH + LEVEL_LEAST_GAP
  m.levels[least] = 0
  if (inverse === 0) return MET
  const { bounds, sides } = prepared
  const b = part * 6
  const near = (bounds[b]! - f[FRAME_U]!) * inverse
  const far = (bounds[b + 1]! - f[FRAME_U]!) * inverse

  // to the side
  const v1 = f[FRAME_V]! + f[FRAME_DV]! * near
  const v2 = f[FRAME_V]! + f[FRAME_DV]! * far
  const rightmost = v1 < v2 ? v1 : v2
  const leftmost = v1 < v2 ? v2 : v1
  const left = rightmost - bounds[b + 3]!
  const right = bounds[b + 2]! - leftmost
  const beside = left > right ? left : right
  // on the wrong side of the body the limb cannot help: only what the part itself covers counts
  const slack = BOW + f[FRAME_SLACK]!
  const wrong = leftmost < sides[2 * part]! || rightmost > sides[2 * part + 1]!
  const grown = wrong ? slack : prepared.reach[part]! + slack
  if (beside > grown) return REFUSED

  // above or below
  const z1 = heightAt(path, offset, near > 0 ? near : 0)
  const z2 = heightAt(path, offset, far > 0 ? far : 0)
  const over = (z1 < z2 ? z1 : z2) - bounds[b + 5]!
  const under = bounds[b + 4]! - (z1 < z2 ? z2 : z1)
  const apart = over > under ? over : under
  if (apart > grown) return REFUSED
  if (beside <= slack && apart <= slack) return MET
  const away = beside <= 0 ? apart : apart <= 0 ? beside : Math.sqrt(beside * beside + apart * apart)
  m.levels[least] = away - slack
  return MET_BY_REACH
}

/** The path where it is level with the part's middle; nothing known of its clearances yet. */
function levelWith(m: Meeting, prepared: PreparedPosture, part: number, path: Float64Array, offset: number): void {
  const f = m.frame
  const du = f[FRAME_DU]!
  const dv = f[FRAME_DV]!
  const { posture } = prepared
  const parts = posture.parts
  const middle = ((posture.phases >> 1) * posture.count + part) * PART_STRIDE + CENTRE
  let distance = ((parts[middle]! - f[FRAME_U]!) * du + (parts[middle + 1]! - f[FRAME_V]!) * dv) * f[FRAME_NORM]!
  if (distance < 0) distance = 0
  const end = endFor(f, parts[middle]!, parts[middle + 1]!)
  if (distance > end) distance = end

  const i = pieceAt(path, offset, distance)
  const q = distance - path[i]!
  const levels = m.levels
  const at = part * LEVEL_LENGTH
  levels[at + LEVEL_TIME] = path[i + 5]! + q * (path[i + 6]! + q * (path[i + 7]! + q * path[i + 8]!))
  levels[at + LEVEL_PACE] = path[i + 6]! + q * (2 * path[i + 7]! + q * 3 * path[i + 8]!)
  levels[at + LEVEL_U] = f[FRAME_U]! + du * distance
  levels[at + LEVEL_V] = f[FRAME_V]! + dv * distance
  levels[at + LEVEL_DU] = du
  levels[at + LEVEL_DV] = dv
  levels[at + LEVEL_Z] = path[i + 1]! + q * (path[i + 2]! + q * (path[i + 3]! + q * path[i + 4]!))
  levels[at + LEVEL_SLOPE] = path[i + 2]! + q * (2 * path[i + 3]! + q * 3 * path[i + 4]!)
  levels[at + LEVEL_DISTANCE] = distance
  levels[at + LEVEL_END] = end
  if (f[FRAME_TURN] !== 0) turnLevel(f, levels, at)

  m.known[part] = 0
  const row = part * posture.phases
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
 * Turns the path of one part with the goalie: since the puck was level with the skates the frame has turned by w tau, and
 * it turns on while the puck passes,  d/dD (u, v) = R(-w tau) (du, dv) + pace w (v, -u).
 */
function turnLevel(f: Float64Array, levels: Float64Array, at: number): void {
  const rate = f[FRAME_TURN]! * levels[at + LEVEL_PACE]!
  const angle = rate * (levels[at + LEVEL_DISTANCE]! - f[FRAME_LEVEL]!)
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  const u = c * levels[at + LEVEL_U]! + s * levels[at + LEVEL_V]!
  const v = c * levels[at + LEVEL_V]! - s * levels[at + LEVEL_U]!
  const du = c * levels[at + LEVEL_DU]! + s * levels[at + LEVEL_DV]!
  const dv = c * levels[at + LEVEL_DV]! - s * levels[at + LEVEL_DU]!
  levels[at + LEVEL_U] = u
  levels[at + LEVEL_V] = v
  levels[at + LEVEL_DU] = du + rate * v
  levels[at + LEVEL_DV] = dv - rate * u
}
