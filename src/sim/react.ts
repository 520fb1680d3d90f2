import { clearanceMoving, coversAt, gapAt, leastGapAt } from "./clearance.ts"
import { latestStart, limbMargin } from "./limb.ts"
import type { Meeting } from "./meeting.ts"
import * as meetingColumns from "./meeting.ts"
import * as partColumns from "./parts.ts"
import { LIMBS, type Posture } from "./parts.ts"
import type { PreparedPosture } from "./prepared.ts"
import { addStretch, type Saves } from "./saves.ts"
import type { Seconds } from "./units.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { LEVEL_LEAST_GAP, LEVEL_PACE, LEVEL_TIME, LEVEL_U, LEVEL_V, LEVEL_Z } = meetingColumns
const { GREATEST_V, LAG, LEAST_V, LIMB_STRIDE, NO_LIMB, ROOT_LENGTH } = partColumns

/** What decides one shot besides the reaction: fixed draws and clocks, refilled for each pose and shot. */
export interface Moment {
  /** Seconds before the release that of the reaction have already passed: bounds the earliest start of the hands. */
  read: Seconds
  dropLead: Seconds
  dropTime: Seconds
  /** Phase, 0 to 1, at which the drop stops (1, or less for a high puck). */
  lastPhase: number
  /** Share of such shots that are blocked, this shot's lead if it is, and its last phase if it is not. */
  blockShare: number
  drawnLead: Seconds
  longestLead: Seconds
  reactPhase: number
  /** The block began this long before the release; negative when the goalie reacts. */
  blockLead: Seconds
  /** A covering body lets this puck squeeze through. */
  leaks: boolean
  frozen: boolean
  /** Where this shot's limb errors start in `draws`. */
  errors: number
  draws: Float64Array
  /** Set when the standing body, without drop or limbs, stops the puck. */
  stands: boolean
  /** Nodes of the drop of the part in hand: its key phases up to the last phase, in key phases, at which it stops. */
  nodes: number
  last: number
  /** Clearance at that last phase, NaN where not measured, and at the ends of the interval in hand: scratch. */
  readonly landed: Float64Array
  readonly ends: Float64Array
}

export function moment(): Moment {
  return {
    read: 0,
    dropLead: 0,
    dropTime: 0.3,
    lastPhase: 1,
    blockShare: 0,
    drawnLead: 0,
    longestLead: 0,
    reactPhase: 1,
    blockLead: -1,
    leaks: false,
    frozen: false,
    errors: 0,
    draws: new Float64Array(0),
    stands: false,
    nodes: 0,
    last: 0,
    landed: new Float64Array(1),
    ends: new Float64Array(2),
  }
}

/**
 * Regula falsi for the phase at which the drop opens or closes a lane, and for the start at which a limb's margin changes
 * sign between two nodes: an end that stays is weighed down (Anderson and Björck), every fourth step halves.
 */
const MOST_STEPS = 120
/** A clearance or margin this small is none, m; so is a share of an interval this small. */
const NOTHING = 1e-10

/** The saving reactions that the part in hand adds: by covering the path, and by being carried to it. */
export function savesOfPart(m: Meeting, prepared: PreparedPosture, part: number, now: Moment, saves: Saves): void {
  const posture = prepared.posture
  standsOfPart(m, now)
  if (now.frozen) {
    if (!now.leaks && coversAt(m, 0))
      addStretch(saves, -Infinity, Infinity, m.level[LEVEL_TIME]!, posture.region[part]!, NO_LIMB)
  } else if (now.blockLead >= 0) blockPart(m, posture, part, now, saves)
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
  const phase = ((time + now.blockLead) / now.dropTime) * last
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
 * Whether the limb could be of use at all, with `most` seconds from the start of the hands to the puck being level: not
 * when the puck is on its wrong side, or when even the least clearance the part can have is too wide.
 */
function limbHelps(m: Meeting, posture: Posture, limb: number, now: Moment, most: Seconds): boolean {
  if (limb === NO_LIMB) return false
  const row = limb * LIMB_STRIDE
  const limbs = posture.limbs
  const v = m.level[LEVEL_V]!
  if (v < limbs[row + LEAST_V]! || v > limbs[row + GREATEST_V]!) return false
  const least = m.level[LEVEL_LEAST_GAP]!
  return least <= 0 || limbMargin(limbs, row, least, most - limbs[row + LAG]!, now.draws[now.errors + limb]!) >= 0
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

/** Phase at node j, in key phases. */
function phaseAt(now: Moment, j: number): number {
  return j === now.nodes - 1 ? now.last : j
}

/** Clearance at node j: of the body on its way down, or come to rest at the last. */
function nodeGap(m: Meeting, posture: Posture, now: Moment, j: number): number {
  if (j < now.nodes - 1 || now.last === posture.phases - 1) return gapAt(m, j)
  if (Number.isNaN(now.landed[0]!)) now.landed[0] = clearanceMoving(m, now.last, posture.phases, 0)
  return now.landed[0]!
}

/** Whether the part covers the path at node j. */
function nodeCovers(m: Meeting, posture: Posture, now: Moment, j: number): boolean {
  if (j < now.nodes - 1 || now.last === posture.phases - 1) return coversAt(m, j)
  return m.own && nodeGap(m, posture, now, j) <= 0
}

/** Start of the hands for which the drop is at key phase `phase` when the puck is level. */
function startAt(m: Meeting, posture: Posture, now: Moment, phase: number): Seconds {
  return m.level[LEVEL_TIME]! + now.dropLead - (phase / (posture.phases - 1)) * now.dropTime
}

/** Stretches in which the part, as the drop has it, covers the path. */
function coverPart(m: Meeting, posture: Posture, part: number, now: Moment, saves: Saves): void {
  const time = m.level[LEVEL_TIME]!
  const region = posture.region[part]!
  let open = coversAt(m, 0)
  let hi = Infinity
  for (let j = 1; j < now.nodes; j++) {
    if (nodeCovers(m, posture, now, j) === open) continue
    now.ends[0] = nodeGap(m, posture, now, j - 1)
    now.ends[1] = nodeGap(m, posture, now, j)
    const start = startAt(m, posture, now, crossing(m, posture, now, j - 1, phaseAt(now, j)))
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
    const f = clearanceMoving(m, x, posture.phases, phasePerMetre)
    if (f < NOTHING && f > -NOTHING) return x
    if (f <= 0 === fb <= 0) {
      if (side === 1) fa *= f < fb === f > 0 ? 1 - f / fb : 0.5
      b = x
      fb = f
      side = 1
    } else {
      if (side === -1) fb *= f < fa === f > 0 ? 1 - f / fa : 0.5
      a = x
      fa = f
      side = -1
    }
  }
  return 0.5 * (a + b)
}

/** Stretches in which the limb brings the part to the path. Between nodes the clearance is a straight line. */
function carryPart(m: Meeting, posture: Posture, part: number, now: Moment, saves: Saves, limb: number): void {
  const time = m.level[LEVEL_TIME]!
  const end = now.nodes - 1
  // the most time the limb can have: at the earliest reaction, or with the body down
  const landed = time - startAt(m, posture, now, now.last)
  const most = time + now.read
  if (!limbHelps(m, posture, limb, now, most > landed ? most : landed)) return

  const row = limb * LIMB_STRIDE
  const limbs = posture.limbs
  const error = now.draws[now.errors + limb]!
  const region = posture.region[part]!
  const lag = limbs[row + LAG]!
  const least = m.level[LEVEL_LEAST_GAP]!
  let near = least <= 0
  let open = false
  let hi = 0
  let startBefore = 0
  for (let j = 0; j <= end; j++) {
    const phase = phaseAt(now, j)
    const start = startAt(m, posture, now, phase)
    const tau = time - start - lag
    // with so little time even the least clearance is too wide: nothing to measure
    if (!near && tau > 0) near = limbMargin(limbs, row, least, tau, error) >= 0
    let saved = false
    if (near && tau > 0 && limbReaches(m, posture, limb, phase) && !tooWide(m, now, limbs, row, j, tau, error)) {
      const gap = nodeGap(m, posture, now, j)
      saved = !(now.leaks && gap <= 0) && limbMargin(limbs, row, gap, tau, error) >= 0
    }
    if (saved !== open) {
      let at = start
      if (j > 0) {
        now.ends[0] = nodeGap(m, posture, now, j - 1)
        now.ends[1] = nodeGap(m, posture, now, j)
        at = turn(now, limbs, row, error, time - lag, startBefore, start, saved)
      }
      if (open) addStretch(saves, at, hi, time, region, limb)
      hi = at
      open = saved
    }
    startBefore = start
  }
  // still earlier starts find the body down and the limb with ever more time
  if (open) addStretch(saves, -Infinity, hi, time, region, limb)
  else if (limbReaches(m, posture, limb, now.last)) {
    const gap = nodeGap(m, posture, now, end)
    if (now.leaks && gap <= 0) return
    const start = latestStart(limbs, row, gap, time, error, -now.read)
    addStretch(saves, -Infinity, start < startBefore ? start : startBefore, time, region, limb)
  }
}

/** Whether even the least clearance the part can have at node j is too wide for the limb: nothing to measure. */
function tooWide(
  m: Meeting,
  now: Moment,
  limbs: Float64Array,
  row: number,
  j: number,
  tau: Seconds,
  error: number,
): boolean {
  if (j === now.nodes - 1) return false
  const least = leastGapAt(m, j)
  return least > 0 && limbMargin(limbs, row, least, tau, error) < 0
}

/** Start between two nodes, with the clearances there in `now.ends`, at which the limb's margin changes sign. */
function turn(
  now: Moment,
  limbs: Float64Array,
  row: number,
  error: number,
  time: Seconds,
  startBefore: Seconds,
  start: Seconds,
  opens: boolean,
): Seconds {
  const gap = now.ends[0]!
  const widens = now.ends[1]! - gap
  const tau = time - startBefore
  const longer = startBefore - start
  let a = 0
  let b = 1
  let fa = limbMargin(limbs, row, gap, tau, error)
  let fb = limbMargin(limbs, row, gap + widens, tau + longer, error)
  // within reach at one end alone: the stretch goes as far as the other
  if (fa >= 0 === fb >= 0) return opens ? startBefore : start
  let side = 0
  for (let i = 1; i < MOST_STEPS && b - a > NOTHING; i++) {
    const x = i % 4 === 0 ? 0.5 * (a + b) : a - (fa * (b - a)) / (fb - fa)
    const f = limbMargin(limbs, row, gap + x * widens, tau + x * longer, error)
    if (f < NOTHING && f > -NOTHING) return startBefore - x * longer
    if (f >= 0 === fb >= 0) {
      if (side === 1) fa *= f < fb === f > 0 ? 1 - f / fb : 0.5
      b = x
      fb = f
      side = 1
    } else {
      if (side === -1) fb *= f < fa === f > 0 ? 1 - f / fa : 0.5
      a = x
      fa = f
      side = -1
    }
  }
  return startBefore - 0.5 * (a + b) * longer
}

/** Whether the limb's side and its root let it reach the path where it is level with the part, at key phase `phase`. */
export function limbReaches(m: Meeting, posture: Posture, limb: number, phase: number): boolean {
  const row = limb * LIMB_STRIDE
  const limbs = posture.limbs
  const v = m.level[LEVEL_V]!
  if (v < limbs[row + LEAST_V]! || v > limbs[row + GREATEST_V]!) return false
  const length = limbs[row + ROOT_LENGTH]!
  if (length === Infinity) return true
  let k = phase | 0
  if (k > posture.phases - 2) k = posture.phases - 2
  const share = phase - k
  const at = (k * LIMBS.length + limb) * 3
  const next = at + LIMBS.length * 3
  const roots = posture.roots
  const u = m.level[LEVEL_U]! - roots[at]! - share * (roots[next]! - roots[at]!)
  const dv = v - roots[at + 1]! - share * (roots[next + 1]! - roots[at + 1]!)
  const z = m.level[LEVEL_Z]! - roots[at + 2]! - share * (roots[next + 2]! - roots[at + 2]!)
  return u * u + dv * dv + z * z <= length * length
}
