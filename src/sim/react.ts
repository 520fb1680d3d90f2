import * as boxColumns from "./box-record.ts"
import { carryPart, limbHelps, limbReaches } from "./carry.ts"
import { clearanceMoving, coversAt, gapAt, measureMoving } from "./clearance.ts"
import { latestStart } from "./limb.ts"
import type { Meeting } from "./meeting.ts"
import * as meetingColumns from "./meeting.ts"
import * as moments from "./moment.ts"
import { type Moment, nodeGap } from "./moment.ts"
import type { Posture } from "./parts.ts"
import * as partColumns from "./parts.ts"
import type { PreparedPosture } from "./prepared.ts"
import { addStretch, type Saves } from "./saves.ts"

export { limbReaches } from "./carry.ts"
export { type Moment, moment } from "./moment.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { ASKED_PHASE, ASKED_RATE, LEVEL_PACE, LEVEL_TIME } = meetingColumns
const { CLEARANCE } = boxColumns
const { LIMB_STRIDE, NO_LIMB } = partColumns
const { REACTS } = moments

/**
 * Regula falsi for the phase at which the drop opens or closes a lane: an end that stays is weighed down (Anderson and
 * Björck), every fourth step halves.
 */
const MOST_STEPS = 120
/** A clearance this small is none, m; so is a share of an interval this small. */
const NOTHING = 1e-7

/** The saving reactions that the part in hand adds: by covering the path, and by being carried to it. */
export function savesOfPart(m: Meeting, prepared: PreparedPosture, part: number, now: Moment, saves: Saves): void {
  const posture = prepared.posture
  standsOfPart(m, now)
  if (now.frozen) {
    if (!now.leaks && coversAt(m, 0))
      addStretch(saves, -Infinity, Infinity, m.level[LEVEL_TIME]!, posture.region[part]!, NO_LIMB)
  } else if (now.blockLead > REACTS) blockPart(m, posture, part, now, saves)
  else reactPart(m, posture, part, now, saves)
}

/** Whether the part, standing still, stops the puck. */
export function standsOfPart(m: Meeting, now: Moment): void {
  if (!now.stands && !now.leaks && coversAt(m, 0)) now.stands = true
}

/** A block: the phase follows the clock, whatever the reaction; only the limbs wait for it. */
function blockPart(m: Meeting, posture: Posture, part: number, now: Moment, saves: Saves): void {
  const last = posture.phases - 1
  const time = m.level[LEVEL_TIME]!
  const limb = posture.carrier[part]!
  if (!m.own && !limbHelps(m, posture, limb, now, time + now.read)) return
  const clocked = ((time + now.blockLead) / now.dropTime) * last
  const phase = clocked > 0 ? clocked : 0
  const gap = phase >= last ? gapAt(m, last) : gapOf(m, posture, now, phase)
  const region = posture.region[part]!
  if (gap <= 0) {
    if (!now.leaks) {
      addStretch(saves, -Infinity, Infinity, time, region, NO_LIMB)
      saves.certain = true
    }
    return
  }
  if (limb === NO_LIMB || !limbReaches(m, posture, limb, phase >= last ? last : phase)) return
  const row = limb * LIMB_STRIDE
  const start = latestStart(posture.limbs, row, gap, time, now.draws[now.errors + limb]!, -now.read)
  addStretch(saves, -Infinity, start, time, region, limb)
}

/**
 * Moments of the drop's start for which the part covers the path in a block: stretches between -longestLead and 0, seconds
 * from the release. The lead is spread evenly over them, so their length is their probability.
 */
export function coverOfBlock(m: Meeting, prepared: PreparedPosture, part: number, now: Moment, cover: Saves): void {
  if (!m.own) return
  const { posture } = prepared
  const last = posture.phases - 1
  const time = m.level[LEVEL_TIME]!
  const perPhase = now.dropTime / last
  const region = posture.region[part]!
  // phases the drop can be at when the puck is level, from the latest start to the earliest
  const first = time / perPhase
  const furthest = (time + now.longestLead) / perPhase
  let phase = first < last ? first : last
  let open = coversOf(m, posture, now, phase)
  let hi = 0
  while (phase < last && phase < furthest) {
    let next = Math.floor(phase + 1e-9) + 1
    if (next > furthest) next = furthest
    if (next > last) next = last
    if (coversOf(m, posture, now, next) !== open) {
      now.ends[0] = gapOf(m, posture, now, phase)
      now.ends[1] = gapOf(m, posture, now, next)
      const start = time - crossing(m, posture, now, phase, next) * perPhase
      if (open) addStretch(cover, start, hi, time, region, NO_LIMB)
      hi = start
      open = !open
    }
    phase = next
  }
  // already down, or as far down as the longest lead allows
  if (open) {
    addStretch(cover, -now.longestLead, hi, time, region, NO_LIMB)
    if (hi === 0) cover.certain = true
  }
}

/** Clearance of the part in hand on its way down at any phase, counted in key phases. */
function gapOf(m: Meeting, posture: Posture, now: Moment, phase: number): number {
  const k = phase | 0
  if (k === phase) return gapAt(m, k)
  return clearanceMoving(m, phase, posture.phases, (m.level[LEVEL_PACE]! * (posture.phases - 1)) / now.dropTime)
}

/** Whether the part in hand covers the path on its way down, at any phase counted in key phases. */
function coversOf(m: Meeting, posture: Posture, now: Moment, phase: number): boolean {
  const k = phase | 0
  return k === phase ? gapAt(m, k) <= 0 : gapOf(m, posture, now, phase) <= 0
}

/** A reaction: the drop starts `dropLead` before the hands, so the phase when the puck is level tells the start. */
function reactPart(m: Meeting, posture: Posture, part: number, now: Moment, saves: Saves): void {
  // the drop stops at a key phase, or between two: that node is the last
  const last = now.lastPhase * (posture.phases - 1)
  now.last = last
  now.nodes = last > 1 ? Math.ceil(last - 1e-9) + 1 : 2
  now.landed[0] = Number.NaN
  if (m.own && !now.leaks) coverPart(m, posture, part, now, saves)
  if (!saves.certain) carryPart(m, posture, part, now, saves, posture.carrier[part]!)
}

/** Whether the part covers the path where the drop has stopped between two key phases. */
function landsCovering(m: Meeting, posture: Posture, now: Moment): boolean {
  nodeGap(m, posture, now, now.nodes - 1, m.least, 0)
  return m.least[0]! <= 0
}

/** Stretches in which the part, as the drop has it, covers the path. */
function coverPart(m: Meeting, posture: Posture, part: number, now: Moment, saves: Saves): void {
  const time = m.level[LEVEL_TIME]!
  const region = posture.region[part]!
  // the last node is a key phase, or the place between two at which the drop stops
  const end = now.nodes - 1
  const keys = now.last === posture.phases - 1 ? end : end - 1
  coversAt(m, keys)
  const { covers, row } = m
  let open = covers[row] === 1
  let hi = Infinity
  for (let j = 1; j <= end; j++) {
    if ((j <= keys ? covers[row + j] === 1 : landsCovering(m, posture, now)) === open) continue
    nodeGap(m, posture, now, j - 1, now.ends, 0)
    nodeGap(m, posture, now, j, now.ends, 1)
    const phase = crossing(m, posture, now, j - 1, j === now.nodes - 1 ? now.last : j)
    const start = time + now.dropLead - (phase / (posture.phases - 1)) * now.dropTime
    if (open) addStretch(saves, start, hi, time, region, NO_LIMB)
    hi = start
    open = !open
  }
  if (open) {
    addStretch(saves, -Infinity, hi, time, region, NO_LIMB)
    if (hi === Infinity) saves.certain = true
  }
}

/** Phase between `from` and `to` at which the clearance, given at both in `now.ends`, is zero. */
function crossing(m: Meeting, posture: Posture, now: Moment, from: number, to: number): number {
  const phasePerMetre = (m.level[LEVEL_PACE]! * (posture.phases - 1)) / now.dropTime
  let a = from
  let b = to
  let fa = now.ends[0]!
  let fb = now.ends[1]!
  let side = 0
  for (let i = 1; i < MOST_STEPS && b - a > NOTHING; i++) {
    const x = i % 4 === 0 ? 0.5 * (a + b) : a - (fa * (b - a)) / (fb - fa)
    m.asked[ASKED_PHASE] = x
    m.asked[ASKED_RATE] = phasePerMetre
    measureMoving(m, posture.phases)
    const f = m.box[CLEARANCE]!
    if (f < NOTHING && f > -NOTHING) return x
    if (f <= 0 === fb <= 0) {
      if (side === 1) fa *= f !== fb && f < fb === f > 0 ? 1 - f / fb : 0.5
      b = x
      fb = f
      side = 1
    } else {
      if (side === -1) fb *= f !== fa && f < fa === f > 0 ? 1 - f / fa : 0.5
      a = x
      fa = f
      side = -1
    }
  }
  return 0.5 * (a + b)
}
