import { latestStart, limbMargin } from "./limb.ts"
import {
  clearanceMoving,
  clearanceStill,
  LEVEL_PACE,
  LEVEL_TIME,
  LEVEL_U,
  LEVEL_V,
  LEVEL_Z,
  type Meeting,
} from "./meet.ts"
import { GREATEST_V, LAG, LEAST_V, LIMB_STRIDE, LIMBS, NO_LIMB, type Posture, ROOT_LENGTH } from "./parts.ts"
import type { PreparedPosture } from "./prepared.ts"
import { addStretch, type Saves } from "./saves.ts"
import type { Seconds } from "./units.ts"

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
  /** Clearances at the nodes of the drop, scratch. */
  readonly gaps: Float64Array
  readonly nodes: Float64Array
}

export function moment(phases: number): Moment {
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
    gaps: new Float64Array(phases + 2),
    nodes: new Float64Array(phases + 2),
  }
}

/** Steps of regula falsi (Illinois) for the phase at which the drop opens or closes a lane. */
const ROOT_STEPS = 4
/** Halvings for the start at which a limb's margin changes sign between two nodes. */
const HALVINGS = 20

/** The saving reactions that the part in hand adds: by covering the path, and by being carried to it. */
export function savesOfPart(m: Meeting, prepared: PreparedPosture, part: number, now: Moment, saves: Saves): void {
  const posture = prepared.posture
  const still = clearanceStill(m, 0)
  if (still <= 0 && !now.leaks) now.stands = true
  if (now.frozen) {
    if (still <= 0 && !now.leaks)
      addStretch(saves, -Infinity, Infinity, m.level[LEVEL_TIME]!, posture.region[part]!, NO_LIMB)
  } else if (now.blockLead >= 0) blockPart(m, posture, part, now, saves)
  else reactPart(m, prepared, part, now, saves, still)
}

/** Whether the part, standing still, stops the puck. */
export function standsOfPart(m: Meeting, now: Moment): void {
  if (!now.leaks && clearanceStill(m, 0) <= 0) now.stands = true
}

/** A block: the phase follows the clock, whatever the reaction; only the limbs wait for it. */
function blockPart(m: Meeting, posture: Posture, part: number, now: Moment, saves: Saves): void {
  const last = posture.phases - 1
  const time = m.level[LEVEL_TIME]!
  const phase = ((time + now.blockLead) / now.dropTime) * last
  const gap =
    phase >= last
      ? clearanceStill(m, last)
      : clearanceMoving(m, phase, posture.phases, (m.level[LEVEL_PACE]! * last) / now.dropTime)
  const region = posture.region[part]!
  if (gap <= 0) {
    if (!now.leaks) {
      addStretch(saves, -Infinity, Infinity, time, region, NO_LIMB)
      saves.certain = true
    }
    return
  }
  const limb = posture.carrier[part]!
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
  const { posture } = prepared
  const last = posture.phases - 1
  const time = m.level[LEVEL_TIME]!
  const perPhase = now.dropTime / last
  const phasePerMetre = m.level[LEVEL_PACE]! / perPhase
  const region = posture.region[part]!
  // phases the drop can be at when the puck is level, from the latest start to the earliest
  const first = time / perPhase
  const furthest = (time + now.longestLead) / perPhase
  let phase = first < last ? first : last
  let gap = first < last ? clearanceMoving(m, phase, posture.phases, phasePerMetre) : clearanceStill(m, last)
  let hi = 0
  while (phase < last && phase < furthest) {
    let next = Math.floor(phase + 1e-9) + 1
    if (next > furthest) next = furthest
    if (next > last) next = last
    now.nodes[0] = phase
    now.nodes[1] = next
    now.gaps[0] = gap
    now.gaps[1] = next === last ? clearanceStill(m, last) : clearanceMoving(m, next, posture.phases, phasePerMetre)
    const crosses = now.gaps[0] <= 0 !== now.gaps[1]! <= 0
    if (crosses) {
      const start = time - crossing(m, posture, now, 0) * perPhase
      if (gap <= 0) addStretch(cover, start, hi, time, region, NO_LIMB)
      hi = start
    }
    phase = next
    gap = now.gaps[1]!
  }
  // already down, or as far down as the longest lead allows
  if (gap <= 0) {
    addStretch(cover, -now.longestLead, hi, time, region, NO_LIMB)
    if (hi === 0) cover.certain = true
  }
}

/** A reaction: the drop starts `dropLead` before the hands, so the phase when the puck is level tells the start. */
function reactPart(
  m: Meeting,
  prepared: PreparedPosture,
  part: number,
  now: Moment,
  saves: Saves,
  still: number,
): void {
  const posture = prepared.posture
  const nodes = fillNodes(m, prepared, part, now, still)
  if (!now.leaks) coverPart(m, posture, part, now, saves, nodes)
  const limb = posture.carrier[part]!
  if (limb !== NO_LIMB && !saves.certain) carryPart(m, posture, part, now, saves, nodes, limb)
}

/**
 * Clearances at the key phases of the drop up to its last; returns how many. A clearance changes by no more than the
 * part moves: phases at which it can neither reach the path nor leave it are given the bound instead of a measurement.
 */
function fillNodes(m: Meeting, prepared: PreparedPosture, part: number, now: Moment, still: number): number {
  const { posture, moves } = prepared
  const last = now.lastPhase * (posture.phases - 1)
  const phasePerMetre = (m.level[LEVEL_PACE]! * (posture.phases - 1)) / now.dropTime
  const reach = prepared.reach[part]!
  const row = part * posture.phases
  now.nodes[0] = 0
  now.gaps[0] = still
  let known = still
  let slack = 0
  let n = 1
  for (let k = 1; k < last - 1e-9; k++, n++) {
    // what the part's motion during the passing of the puck may add is one more phase of it
    slack += moves[row + k - 1]!
    const most = slack + moves[row + k]!
    now.nodes[n] = k
    if (known > 0 ? known - most > reach : known + most < 0) now.gaps[n] = known > 0 ? known - slack : known + slack
    else {
      known = clearanceMoving(m, k, posture.phases, phasePerMetre)
      now.gaps[n] = known
      slack = 0
    }
  }
  now.nodes[n] = last
  now.gaps[n] = clearanceMoving(m, last, posture.phases, 0)
  return n + 1
}

/** Start of the hands for which the drop is at key phase `phase` when the puck is level. */
function startAt(m: Meeting, posture: Posture, now: Moment, phase: number): Seconds {
  return m.level[LEVEL_TIME]! + now.dropLead - (phase / (posture.phases - 1)) * now.dropTime
}

/** Stretches in which the part, as the drop has it, covers the path. */
function coverPart(m: Meeting, posture: Posture, part: number, now: Moment, saves: Saves, nodes: number): void {
  const gaps = now.gaps
  const time = m.level[LEVEL_TIME]!
  const region = posture.region[part]!
  let open = gaps[0]! <= 0
  let hi = Infinity
  for (let j = 0; j + 1 < nodes; j++) {
    if (gaps[j]! <= 0 === gaps[j + 1]! <= 0) continue
    const start = startAt(m, posture, now, crossing(m, posture, now, j))
    if (open) addStretch(saves, start, hi, time, region, NO_LIMB)
    hi = start
    open = !open
  }
  if (open) {
    addStretch(saves, -Infinity, hi, time, region, NO_LIMB)
    if (hi === Infinity) saves.certain = true
  }
}

/** Phase between nodes j and j + 1 at which the clearance is zero. */
function crossing(m: Meeting, posture: Posture, now: Moment, j: number): number {
  const phasePerMetre = (m.level[LEVEL_PACE]! * (posture.phases - 1)) / now.dropTime
  let a = now.nodes[j]!
  let b = now.nodes[j + 1]!
  let fa = now.gaps[j]!
  let fb = now.gaps[j + 1]!
  let side = 0
  for (let i = 0; i < ROOT_STEPS; i++) {
    const x = a - (fa * (b - a)) / (fb - fa)
    const f = clearanceMoving(m, x, posture.phases, phasePerMetre)
    if (f < 1e-5 && f > -1e-5) return x
    if (f <= 0 === fb <= 0) {
      b = x
      fb = f
      if (side === 1) fa *= 0.5
      side = 1
    } else {
      a = x
      fa = f
      if (side === -1) fb *= 0.5
      side = -1
    }
  }
  return a - (fa * (b - a)) / (fb - fa)
}

/** Stretches in which the limb brings the part to the path. Between nodes the clearance is a straight line. */
function carryPart(
  m: Meeting,
  posture: Posture,
  part: number,
  now: Moment,
  saves: Saves,
  nodes: number,
  limb: number,
): void {
  const row = limb * LIMB_STRIDE
  const limbs = posture.limbs
  const time = m.level[LEVEL_TIME]!
  const error = now.draws[now.errors + limb]!
  const region = posture.region[part]!
  const lag = limbs[row + LAG]!
  let open = false
  let hi = 0
  let before = -1
  let startBefore = startAt(m, posture, now, 0)
  for (let j = 0; j < nodes; j++) {
    const start = startAt(m, posture, now, now.nodes[j]!)
    const reachable = limbReaches(m, posture, limb, now.nodes[j]!)
    const squeezes = now.leaks && now.gaps[j]! <= 0
    const margin = reachable && !squeezes ? limbMargin(limbs, row, now.gaps[j]!, time - start - lag, error) : -1
    if (margin >= 0 !== open) {
      const at =
        j === 0 ? start : turn(now, limbs, row, error, time - lag, j, startBefore, start, margin >= 0, before, margin)
      if (open) addStretch(saves, at, hi, time, region, limb)
      hi = at
      open = !open
    }
    before = margin
    startBefore = start
  }
  // still earlier starts find the body down and the limb with ever more time
  if (open) addStretch(saves, -Infinity, hi, time, region, limb)
  else if (!(now.leaks && now.gaps[nodes - 1]! <= 0) && limbReaches(m, posture, limb, now.nodes[nodes - 1]!)) {
    const start = latestStart(limbs, row, now.gaps[nodes - 1]!, time, error, -now.read)
    addStretch(saves, -Infinity, start < startBefore ? start : startBefore, time, region, limb)
  }
}

/** Start between nodes j - 1 and j at which the limb's margin changes sign. */
function turn(
  now: Moment,
  limbs: Float64Array,
  row: number,
  error: number,
  time: Seconds,
  j: number,
  startBefore: Seconds,
  start: Seconds,
  opens: boolean,
  before: number,
  margin: number,
): Seconds {
  // a side that is out of reach has no margin to interpolate: the node within reach bounds the stretch
  if (before === -1 && margin === -1) return start
  const gapBefore = now.gaps[j - 1]!
  const gap = now.gaps[j]!
  let late = 0
  let early = 1
  for (let i = 0; i < HALVINGS; i++) {
    const middle = 0.5 * (late + early)
    const at = startBefore + middle * (start - startBefore)
    const saves = limbMargin(limbs, row, gapBefore + middle * (gap - gapBefore), time - at, error) >= 0
    if (saves === opens) early = middle
    else late = middle
  }
  return startBefore + 0.5 * (late + early) * (start - startBefore)
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
