import { AXIS_0, CENTRE, HALF_SIZE, PART_STRIDE, ROUNDING } from "./parts.ts"
import { heightAt, PATH_DX, PATH_DY, PATH_END, PATH_X, PATH_Y, pieceAt } from "./path.ts"
import type { PreparedPosture } from "./prepared.ts"
import {
  BOX_H,
  BOX_LEAST,
  BOX_MOST,
  BOX_RECORD,
  BOX_ROUNDING,
  CLEARANCE,
  CLOSEST_AT,
  DISC_HALF,
  DISC_RADIUS,
  PATH_ROW,
  solveRow,
} from "./rounded-box.ts"
import { STATION_COS, STATION_SIN, STATION_X, STATION_Y } from "./station.ts"
import { PUCK_HALF_THICKNESS, PUCK_RADIUS } from "./world.ts"

/**
 * Where a puck's path runs relative to one goalie and each part of the body.
 *
 * The path is put into the goalie's frame, then, for each key phase of the drop, into the axes of the part as it is
 * at that phase. Near a part the path is straight; the part moves while the puck passes, so its own motion (fall and
 * turn, by central differences over the phases) is taken off the path's direction: the clearance is that of the
 * relative path. Phase is counted at the moment the puck is level with the part.
 *
 * Nothing is worked out before it is asked for, and nothing twice for one path and goalie: refusals, paths in a part's
 * axes, clearances at key phases and which of them cover are kept by part until the next goalie is met.
 */
export interface Meeting {
  /** What is known of each part [count]: UNASKED, REFUSED, or how it was met. */
  readonly state: Uint8Array
  /** Columns of each part [count x LEVEL_LENGTH], and of the part in hand: see LEVEL_… */
  readonly levels: Float64Array
  readonly level: Float64Array
  /** [count x phases x PATH_ROW] path in the part's axes, and one row more for a phase in between. */
  readonly local: Float64Array
  /** [count x phases] 1 where `local` is filled. */
  readonly filled: Uint8Array
  /** [count x phases] clearance of the part on its way down, NaN where not measured. */
  readonly gaps: Float64Array
  /** [count x phases] whether the part covers the path at a key phase, for the first `known` [count] of them. */
  readonly covers: Uint8Array
  readonly known: Uint8Array
  /** The part in hand: index, its first row in the tables above, and whether the path comes near what it fills itself. */
  part: number
  row: number
  own: boolean
  prepared: PreparedPosture | null
  readonly box: Float64Array
  /** Path in the goalie's frame, see FRAME_… */
  readonly frame: Float64Array
}

/** States of a part. */
const UNASKED = 0
const REFUSED = 1
/** The path comes near the part itself, or only near what its limb can reach. */
const MET = 2
const MET_BY_REACH = 3

/** Release u v, direction u v, distance where the path ends for the goalie, 1 / direction u (0 across), phases per s. */
const FRAME_U = 0
const FRAME_V = 1
const FRAME_DU = 2
const FRAME_DV = 3
const FRAME_END = 4
const FRAME_INVERSE = 5
const FRAME_RATE = 6
/** One over the squared length of the direction: 1 but for a goalie who moves. */
const FRAME_NORM = 7
/** Turn rate of the goalie, rad/s, where the puck is level with the skates, and how far the turn may shift a part's path. */
const FRAME_TURN = 8
const FRAME_LEVEL = 9
const FRAME_SLACK = 10
const FRAME_LENGTH = 11

/** The path at the moment it is level with the part in hand: time since release, pace, and place (u, v, z). */
export const LEVEL_TIME = 0
export const LEVEL_PACE = 1
export const LEVEL_U = 2
export const LEVEL_V = 3
export const LEVEL_Z = 4
const LEVEL_SLOPE = 5
const LEVEL_DISTANCE = 6
/** No clearance of the part is less than this while it drops, m; 0 where that is not known. */
export const LEVEL_LEAST_GAP = 7
/** Direction of the path as this part meets it: the frame's, but for a goalie who turns. */
const LEVEL_DU = 8
const LEVEL_DV = 9
const LEVEL_LENGTH = 10

/** A path and a straight line differ by less than this over the reach of a part, m: slack of the quick refusal. */
const BOW = 0.06
/** No part is farther from the spot between the skates than this, m: bounds what a turn can shift. */
const FURTHEST_PART = 0.7
/** What a part's own motion may add to the boxes of neighbouring key phases, m. */
const SWAY = 0.005
/** A path flatter than this to the goalie's shoulders is not refused: cosine of its angle to straight ahead. */
const ACROSS = 0.2

/** Scratch for postures of up to `phases` key phases and `count` parts, with the puck's disc set from the world. */
export function meeting(phases: number, count: number, world: Float64Array): Meeting {
  const box = new Float64Array(BOX_RECORD)
  box[DISC_RADIUS] = world[PUCK_RADIUS]!
  box[DISC_HALF] = world[PUCK_HALF_THICKNESS]!
  return {
    state: new Uint8Array(count),
    levels: new Float64Array(count * LEVEL_LENGTH),
    level: new Float64Array(LEVEL_LENGTH),
    local: new Float64Array((count * phases + 1) * PATH_ROW),
    filled: new Uint8Array(count * phases),
    gaps: new Float64Array(count * phases),
    covers: new Uint8Array(count * phases),
    known: new Uint8Array(count),
    part: 0,
    row: 0,
    own: true,
    prepared: null,
    box,
    frame: new Float64Array(FRAME_LENGTH),
  }
}

/** Puts the path at `offset` into the frame of the goalie at `station`; `end` is the distance where it crosses the line. */
export function meetGoalie(m: Meeting, path: Float64Array, offset: number, station: Float64Array, end: number): void {
  const c = station[STATION_COS]!
  const s = station[STATION_SIN]!
  const x = path[offset + PATH_X]! - station[STATION_X]!
  const y = path[offset + PATH_Y]! - station[STATION_Y]!
  const dx = path[offset + PATH_DX]!
  const dy = path[offset + PATH_DY]!
  const du = c * dx + s * dy
  m.frame[FRAME_U] = c * x + s * y
  m.frame[FRAME_V] = c * y - s * x
  m.frame[FRAME_DU] = du
  m.frame[FRAME_DV] = c * dy - s * dx
  m.frame[FRAME_END] = end < path[offset + PATH_END]! ? end : path[offset + PATH_END]!
  m.frame[FRAME_INVERSE] = du < -ACROSS || du > ACROSS ? 1 / du : 0
  m.frame[FRAME_NORM] = 1
  m.frame[FRAME_TURN] = 0
  m.frame[FRAME_SLACK] = 0
  const state = m.state
  for (let part = 0; part < state.length; part++) state[part] = UNASKED
}

/**
 * Lets the frame move with a goalie who is at `station` when the puck has flown the distance `level` and goes on at
 * (vx, vy), rink frame, turning at `turnRate`: the path becomes the relative one. `pace` is the puck's there, s/m. The turn
 * is taken part by part. Call it after meetGoalie.
 */
export function moveFrame(
  m: Meeting,
  station: Float64Array,
  vx: number,
  vy: number,
  turnRate: number,
  level: number,
  pace: number,
): void {
  const f = m.frame
  const forward = (station[STATION_COS]! * vx + station[STATION_SIN]! * vy) * pace
  const aside = (station[STATION_COS]! * vy - station[STATION_SIN]! * vx) * pace
  f[FRAME_U]! += forward * level
  f[FRAME_V]! += aside * level
  const du = f[FRAME_DU]! - forward
  const dv = f[FRAME_DV]! - aside
  f[FRAME_DU] = du
  f[FRAME_DV] = dv
  f[FRAME_INVERSE] = du < -ACROSS || du > ACROSS ? 1 / du : 0
  f[FRAME_NORM] = 1 / (du * du + dv * dv)
  f[FRAME_TURN] = turnRate
  f[FRAME_LEVEL] = level
  f[FRAME_SLACK] = (turnRate < 0 ? -turnRate : turnRate) * pace * FURTHEST_PART * FURTHEST_PART
}

/** Sets how fast the drop runs through its key phases; until the next goalie is met it must not change. */
export function setDrop(m: Meeting, phases: number, dropTime: number): void {
  m.frame[FRAME_RATE] = (phases - 1) / dropTime
}

/** Distance along the path where it is nearest, in plan, to the spot between the skates (never before the release). */
export function distanceToBody(m: Meeting): number {
  const f = m.frame
  const distance = -(f[FRAME_U]! * f[FRAME_DU]! + f[FRAME_V]! * f[FRAME_DV]!) * f[FRAME_NORM]!
  return distance > 0 ? distance : 0
}

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
  box[BOX_MOST] = m.frame[FRAME_END]! - distance
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
  if (f[FRAME_TURN] !== 0) turnLevel(f, levels, at)

  m.known[part] = 0
  const row = part * posture.phases
  for (let phase = row; phase < row + posture.phases; phase++) {
    m.filled[phase] = 0
    m.gaps[phase] = Number.NaN
  }
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

/** Where in `local` the path in the axes of the part in hand at key phase `phase` is; fills it when it is not there. */
function localRow(m: Meeting, phase: number): number {
  const at = (m.row + phase) * PATH_ROW
  if (m.filled[m.row + phase] === 0) fillLocal(m, phase, at)
  return at
}

function fillLocal(m: Meeting, phase: number, row: number): void {
  m.filled[m.row + phase] = 1
  const { level, local } = m
  const { posture } = m.prepared!
  const parts = posture.parts
  const at = (phase * posture.count + m.part) * PART_STRIDE
  const ru = level[LEVEL_U]! - parts[at + CENTRE]!
  const rv = level[LEVEL_V]! - parts[at + CENTRE + 1]!
  const rz = level[LEVEL_Z]! - parts[at + CENTRE + 2]!
  const du = level[LEVEL_DU]!
  const dv = level[LEVEL_DV]!
  const slope = level[LEVEL_SLOPE]!
  for (let i = 0, axis = at + AXIS_0; i < 3; i++, axis += 3) {
    const au = parts[axis]!
    const av = parts[axis + 1]!
    const az = parts[axis + 2]!
    local[row + i] = ru * au + rv * av + rz * az
    local[row + 3 + i] = du * au + dv * av + slope * az
    local[row + 6 + i] = az
  }
}

/** Clearance, m, of the path from the part in hand standing still at key phase `phase`. */
export function clearanceStill(m: Meeting, phase: number): number {
  solveRow(m.box, m.local, localRow(m, phase))
  return m.box[CLEARANCE]!
}

/**
 * Clearance, m, of the path from the part in hand, moving through drop phase `phase` (0 to `phases` - 1, in key
 * phases, fractions between them) at `phasePerMetre` key phases for each metre the puck flies.
 */
export function clearanceMoving(m: Meeting, phase: number, phases: number, phasePerMetre: number): number {
  let k = phase | 0
  if (k > phases - 2) k = phases - 2
  const share = phase - k
  if (share < 1e-9 && k > 0)
    mixRows(m, localRow(m, k), localRow(m, k + 1), localRow(m, k - 1), share, 0.5 * phasePerMetre)
  else {
    const row = localRow(m, k)
    mixRows(m, row, localRow(m, k + 1), row, share, phasePerMetre)
  }
  solveRow(m.box, m.local, m.local.length - PATH_ROW)
  return m.box[CLEARANCE]!
}

/**
 * Fills the last row of `local`: `share` of the way from one key phase to the next, the path's direction less the part's
 * own motion. That is taken over both neighbours at a key phase, over the interval inside one.
 */
function mixRows(m: Meeting, row: number, next: number, before: number, share: number, motion: number): void {
  const { local } = m
  const out = local.length - PATH_ROW
  for (let i = 0; i < 3; i++) {
    const q = local[row + i]!
    const w = local[row + 3 + i]!
    const up = local[row + 6 + i]!
    local[out + i] = q + share * (local[next + i]! - q)
    local[out + 3 + i] = w + share * (local[next + 3 + i]! - w) + motion * (local[next + i]! - local[before + i]!)
    local[out + 6 + i] = up + share * (local[next + 6 + i]! - up)
  }
}

/**
 * Clearance of the path from the part in hand on its way down, at key phase `k`: standing at the first and the last,
 * moving between them.
 */
export function gapAt(m: Meeting, k: number): number {
  const i = m.row + k
  if (Number.isNaN(m.gaps[i]!)) measureGap(m, k)
  return m.gaps[i]!
}

function measureGap(m: Meeting, k: number): void {
  const { local } = m
  const row = localRow(m, k)
  if (k === 0 || k === m.prepared!.posture.phases - 1) solveRow(m.box, local, row)
  else {
    const next = localRow(m, k + 1)
    const before = localRow(m, k - 1)
    const motion = 0.5 * m.level[LEVEL_PACE]! * m.frame[FRAME_RATE]!
    const out = local.length - PATH_ROW
    for (let i = 0; i < 3; i++) {
      local[out + i] = local[row + i]!
      local[out + 3 + i] = local[row + 3 + i]! + motion * (local[next + i]! - local[before + i]!)
      local[out + 6 + i] = local[row + 6 + i]!
    }
    solveRow(m.box, local, out)
  }
  m.gaps[m.row + k] = m.box[CLEARANCE]!
}

/**
 * A clearance that the part in hand, on its way down, does not fall under at key phase `k`: how far the straight path
 * passes from the box about the part. 0 or less where it comes near that box.
 */
export function leastGapAt(m: Meeting, k: number): number {
  const { frame, level } = m
  if (frame[FRAME_INVERSE] === 0 || frame[FRAME_TURN] !== 0) return 0
  const inverse = frame[FRAME_INVERSE]!
  const { boxes } = m.prepared!
  const b = (m.row + k) * 6
  const near = (boxes[b]! - level[LEVEL_U]!) * inverse
  const far = (boxes[b + 1]! - level[LEVEL_U]!) * inverse
  const v1 = level[LEVEL_V]! + level[LEVEL_DV]! * near
  const v2 = level[LEVEL_V]! + level[LEVEL_DV]! * far
  const left = (v1 < v2 ? v1 : v2) - boxes[b + 3]!
  const right = boxes[b + 2]! - (v1 < v2 ? v2 : v1)
  const beside = left > right ? left : right
  const z1 = level[LEVEL_Z]! + level[LEVEL_SLOPE]! * near
  const z2 = level[LEVEL_Z]! + level[LEVEL_SLOPE]! * far
  const over = (z1 < z2 ? z1 : z2) - boxes[b + 5]!
  const under = boxes[b + 4]! - (z1 < z2 ? z2 : z1)
  const apart = over > under ? over : under
  if (beside <= 0) return apart - SWAY
  return (apart <= 0 ? beside : Math.sqrt(beside * beside + apart * apart)) - SWAY
}

/** Whether the part in hand covers the path at key phase `k`, on its way down. */
export function coversAt(m: Meeting, k: number): boolean {
  if (!m.own) return false
  if (k >= m.known[m.part]!) tellCovers(m, k)
  return m.covers[m.row + k] === 1
}

/**
 * Fills `covers` up to key phase `to`. A clearance changes by no more than the part moves: phases at which it can
 * neither reach the path nor leave it are not measured.
 */
function tellCovers(m: Meeting, to: number): void {
  const { covers, row } = m
  const { moves, posture } = m.prepared!
  let k = m.known[m.part]!
  if (k === 0) covers[row + k++] = leastGapAt(m, 0) <= 0 && gapAt(m, 0) <= 0 ? 1 : 0
  // the last one measured, if it was the one before
  let measured = m.gaps[row + k - 1]!
  let slack = 0
  for (; k <= to; k++) {
    // what the part's motion during the passing of the puck may add is one more phase of it
    slack += moves[row + k - 1]!
    const most = slack + moves[row + k]!
    covers[row + k] = measured <= 0 ? 1 : 0
    // at the last phase the part stops: moving there says nothing of it
    if ((measured > most || measured < -most) && k < posture.phases - 1) continue
    if (leastGapAt(m, k) > 0) covers[row + k] = 0
    else {
      measured = gapAt(m, k)
      slack = 0
      covers[row + k] = measured <= 0 ? 1 : 0
    }
  }
  m.known[m.part] = k
}
