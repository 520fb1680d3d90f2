import type { Meeting } from "./meeting.ts"
import * as meetingColumns from "./meeting.ts"
import * as partColumns from "./parts.ts"
import * as boxColumns from "./rounded-box.ts"
import { solveRow } from "./rounded-box.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const {
  FRAME_INVERSE,
  FRAME_RATE,
  LEVEL_DU,
  LEVEL_DV,
  LEVEL_PACE,
  LEVEL_SLOPE,
  LEVEL_U,
  LEVEL_V,
  LEVEL_Z,
  SWAY,
  ASKED_PHASE,
  ASKED_RATE,
} = meetingColumns
const { AXIS_0, AXIS_1, AXIS_2, CENTRE } = partColumns
const { CLEARANCE } = boxColumns

/** The path in the axes of the part in hand at key phase `phase`; worked out when it is not there. */
function localRow(m: Meeting, phase: number): Float64Array {
  const at = m.row + phase
  const row = m.local[at]!
  if (m.filled[at] === 0) {
    m.filled[at] = 1
    fillLocal(m.level, m.prepared!.rows[at]!, row)
  }
  return row
}

function fillLocal(level: Float64Array, part: Float64Array, row: Float64Array): void {
  const ru = level[LEVEL_U]! - part[CENTRE]!
  const rv = level[LEVEL_V]! - part[CENTRE + 1]!
  const rz = level[LEVEL_Z]! - part[CENTRE + 2]!
  const du = level[LEVEL_DU]!
  const dv = level[LEVEL_DV]!
  const slope = level[LEVEL_SLOPE]!
  const au = part[AXIS_0]!
  const av = part[AXIS_0 + 1]!
  const az = part[AXIS_0 + 2]!
  row[0] = ru * au + rv * av + rz * az
  row[3] = du * au + dv * av + slope * az
  row[6] = az
  const bu = part[AXIS_1]!
  const bv = part[AXIS_1 + 1]!
  const bz = part[AXIS_1 + 2]!
  row[1] = ru * bu + rv * bv + rz * bz
  row[4] = du * bu + dv * bv + slope * bz
  row[7] = bz
  const cu = part[AXIS_2]!
  const cv = part[AXIS_2 + 1]!
  const cz = part[AXIS_2 + 2]!
  row[2] = ru * cu + rv * cv + rz * cz
  row[5] = du * cu + dv * cv + slope * cz
  row[8] = cz
}

/** Clearance, m, of the path from the part in hand standing still at key phase `phase`. */
export function clearanceStill(m: Meeting, phase: number): number {
  solveRow(m.box, localRow(m, phase))
  return m.box[CLEARANCE]!
}

/**
 * Clearance, m, of the path from the part in hand, moving through drop phase `phase` (0 to `phases` - 1, in key
 * phases, fractions between them) at `phasePerMetre` key phases for each metre the puck flies.
 */
export function clearanceMoving(m: Meeting, phase: number, phases: number, phasePerMetre: number): number {
  m.asked[ASKED_PHASE] = phase
  m.asked[ASKED_RATE] = phasePerMetre
  measureMoving(m, phases)
  return m.box[CLEARANCE]!
}

/**
 * The same for the phase and rate in `asked`, into CLEARANCE of `box`. The path's direction is less the part's own
 * motion: that is taken over both neighbours at a key phase, over the interval inside one.
 */
export function measureMoving(m: Meeting, phases: number): void {
  const phase = m.asked[ASKED_PHASE]!
  let k = phase | 0
  if (k > phases - 2) k = phases - 2
  const share = phase - k
  const atKey = share < 1e-9 && k > 0
  const motion = (atKey ? 0.5 : 1) * m.asked[ASKED_RATE]!
  const row = localRow(m, k)
  const next = localRow(m, k + 1)
  const before = atKey ? localRow(m, k - 1) : row
  const out = m.between
  for (let i = 0; i < 3; i++) {
    const q = row[i]!
    const w = row[3 + i]!
    const up = row[6 + i]!
    out[i] = q + share * (next[i]! - q)
    out[3 + i] = w + share * (next[3 + i]! - w) + motion * (next[i]! - before[i]!)
    out[6 + i] = up + share * (next[6 + i]! - up)
  }
  solveRow(m.box, out)
}

/**
 * Clearance of the path from the part in hand on its way down, at key phase `k`: standing at the first and the last,
 * moving between them.
 */
export function gapAt(m: Meeting, k: number): number {
  needGap(m, k)
  return m.gaps[m.row + k]!
}

/** Sees to it that `gaps` holds that clearance. */
export function needGap(m: Meeting, k: number): void {
  if (Number.isNaN(m.gaps[m.row + k]!)) measureGap(m, k)
}

function measureGap(m: Meeting, k: number): void {
  const row = localRow(m, k)
  if (k === 0 || k === m.prepared!.posture.phases - 1) solveRow(m.box, row)
  else {
    const next = localRow(m, k + 1)
    const before = localRow(m, k - 1)
    const motion = 0.5 * m.level[LEVEL_PACE]! * m.frame[FRAME_RATE]!
    const out = m.between
    for (let i = 0; i < 3; i++) {
      out[i] = row[i]!
      out[3 + i] = row[3 + i]! + motion * (next[i]! - before[i]!)
      out[6 + i] = row[6 + i]!
    }
    solveRow(m.box, out)
  }
  m.gaps[m.row + k] = m.box[CLEARANCE]!
}

/**
 * Writes to `out[0]` a clearance that the part in hand, on its way down, does not fall under at key phase `k`: how far the
 * straight path passes from the box about the part. 0 or less where it comes near that box.
 */
export function leastGapAt(m: Meeting, k: number, out: Float64Array): void {
  const { frame, level } = m
  out[0] = 0
  if (frame[FRAME_INVERSE] === 0 || m.way !== null) return
  const inverse = frame[FRAME_INVERSE]!
  const box = m.prepared!.boxes[m.row + k]!
  const near = (box[0]! - level[LEVEL_U]!) * inverse
  const far = (box[1]! - level[LEVEL_U]!) * inverse
  const v1 = level[LEVEL_V]! + level[LEVEL_DV]! * near
  const v2 = level[LEVEL_V]! + level[LEVEL_DV]! * far
  const left = (v1 < v2 ? v1 : v2) - box[3]!
  const right = box[2]! - (v1 < v2 ? v2 : v1)
  const beside = left > right ? left : right
  const z1 = level[LEVEL_Z]! + level[LEVEL_SLOPE]! * near
  const z2 = level[LEVEL_Z]! + level[LEVEL_SLOPE]! * far
  const over = (z1 < z2 ? z1 : z2) - box[5]!
  const under = box[4]! - (z1 < z2 ? z2 : z1)
  const apart = over > under ? over : under
  const away = beside <= 0 ? apart : apart <= 0 ? beside : Math.sqrt(beside * beside + apart * apart)
  out[0] = away - SWAY
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
  if (k === 0) {
    leastGapAt(m, 0, m.least)
    covers[row + k++] = m.least[0]! <= 0 && gapAt(m, 0) <= 0 ? 1 : 0
  }
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
    leastGapAt(m, k, m.least)
    if (m.least[0]! > 0) covers[row + k] = 0
    else {
      needGap(m, k)
      measured = m.gaps[row + k]!
      slack = 0
      covers[row + k] = measured <= 0 ? 1 : 0
    }
  }
  m.known[m.part] = k
}
