import { leastGapAt } from "./clearance.ts"
import * as limbColumns from "./limb.ts"
import { latestStart, limbStopsInTime, tryLimb } from "./limb.ts"
import type { Meeting } from "./meeting.ts"
import * as meetingColumns from "./meeting.ts"
import { type Moment, nodeGap } from "./moment.ts"
import * as partColumns from "./parts.ts"
import { LIMBS, type Posture } from "./parts.ts"
import { addStretch, type Saves } from "./saves.ts"
import type { Metres, Seconds } from "./units.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { LEVEL_LEAST_GAP, LEVEL_TIME, LEVEL_U, LEVEL_V, LEVEL_Z } = meetingColumns
const { GREATEST_V, LAG, LEAST_V, LIMB_STRIDE, NO_LIMB, ROOT_LENGTH } = partColumns
const { TRIAL_ERROR, TRIAL_GAP, TRIAL_MARGIN, TRIAL_TAU } = limbColumns

/**
 * Regula falsi for the start at which a limb's margin changes sign between two nodes: an end that stays is weighed down
 * (Anderson and Björck), every fourth step halves.
 */
const MOST_STEPS = 120
/** A margin this small is none, m; so is a share of an interval this small. */
const NOTHING = 1e-10

/**
 * Whether the limb could be of use at all, with `most` seconds from the start of the hands to the puck being level: not
 * when the puck is on its wrong side, or when even the least clearance the part can have is too wide.
 */
export function limbHelps(m: Meeting, posture: Posture, limb: number, now: Moment, most: Seconds): boolean {
  if (limb === NO_LIMB) return false
  const row = limb * LIMB_STRIDE
  const limbs = posture.limbs
  const v = m.level[LEVEL_V]!
  if (v < limbs[row + LEAST_V]! || v > limbs[row + GREATEST_V]!) return false
  const least = m.level[LEVEL_LEAST_GAP]!
  if (least <= 0) return true
  const trial = now.trial
  trial[TRIAL_GAP] = least
  trial[TRIAL_TAU] = most - limbs[row + LAG]!
  trial[TRIAL_ERROR] = now.draws[now.errors + limb]!
  return limbStopsInTime(limbs, row, trial)
}

/**
 * Stretches in which the limb brings the part to the path. Between nodes the clearance is a straight line. The hands of
 * a drop that is at phase p when the puck is level start at  time + lead - p / (phases - 1) * drop time.
 */
export function carryPart(m: Meeting, posture: Posture, part: number, now: Moment, saves: Saves, limb: number): void {
  const time = m.level[LEVEL_TIME]!
  const end = now.nodes - 1
  const lastPhase = posture.phases - 1
  const late = time + now.dropLead
  // the most time the limb can have: at the earliest reaction, or with the body down
  const landed = time - (late - (now.last / lastPhase) * now.dropTime)
  const most = time + now.read
  if (!limbHelps(m, posture, limb, now, most > landed ? most : landed)) return

  const row = limb * LIMB_STRIDE
  const limbs = posture.limbs
  const error = now.draws[now.errors + limb]!
  const region = posture.region[part]!
  const lag = limbs[row + LAG]!
  const trial = now.trial
  trial[TRIAL_ERROR] = error
  // the side was looked at above; many limbs have no root to hold them
  const rooted = limbs[row + ROOT_LENGTH]! < Infinity
  let open = false
  let hi = 0
  let startBefore = 0
  for (let j = 0; j <= end; j++) {
    const phase = j === end ? now.last : j
    const start = late - (phase / lastPhase) * now.dropTime
    trial[TRIAL_TAU] = time - start - lag
    const saved =
      time - start - lag > 0 &&
      (!rooted || limbReaches(m, posture, limb, phase)) &&
      limbStops(m, posture, now, limbs, row, j)
    if (saved !== open) {
      let at = start
      if (j > 0) {
        nodeGap(m, posture, now, j - 1, now.ends, 0)
        nodeGap(m, posture, now, j, now.ends, 1)
        at = turn(now, limbs, row, time - lag, startBefore, start, saved)
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
    nodeGap(m, posture, now, end, now.ends, 0)
    const gap = now.ends[0]!
    if (now.leaks && gap <= 0) return
    const start = latestStart(limbs, row, gap, time, error, -now.read)
    addStretch(saves, -Infinity, start < startBefore ? start : startBefore, time, region, limb)
  }
}

/** Whether the limb, with the time and the error in `trial`, stops the puck at node j; a covering body that leaks does not. */
function limbStops(m: Meeting, posture: Posture, now: Moment, limbs: Float64Array, row: number, j: number): boolean {
  const trial = now.trial
  // where even the least clearance the part can have is too wide there is nothing to measure
  if (j < now.nodes - 1) {
    leastGapAt(m, j, trial)
    if (trial[TRIAL_GAP]! > 0 && !limbStopsInTime(limbs, row, trial)) return false
  }
  nodeGap(m, posture, now, j, trial, TRIAL_GAP)
  if (now.leaks && trial[TRIAL_GAP]! <= 0) return false
  return limbStopsInTime(limbs, row, trial)
}

/** Start between two nodes, with the clearances there in `now.ends`, at which the limb's margin changes sign. */
function turn(
  now: Moment,
  limbs: Float64Array,
  row: number,
  time: Seconds,
  startBefore: Seconds,
  start: Seconds,
  opens: boolean,
): Seconds {
  const trial = now.trial
  const gap = now.ends[0]!
  const widens = now.ends[1]! - gap
  const tau = time - startBefore
  const longer = startBefore - start
  let a = 0
  let b = 1
  let fa = marginAt(limbs, row, trial, gap, tau)
  let fb = marginAt(limbs, row, trial, gap + widens, tau + longer)
  // within reach at one end alone: the stretch goes as far as the other
  if (fa >= 0 === fb >= 0) return opens ? startBefore : start
  let side = 0
  for (let i = 1; i < MOST_STEPS && b - a > NOTHING; i++) {
    const x = i % 4 === 0 ? 0.5 * (a + b) : a - (fa * (b - a)) / (fb - fa)
    const f = marginAt(limbs, row, trial, gap + x * widens, tau + x * longer)
    if (f < NOTHING && f > -NOTHING) return startBefore - x * longer
    if (f >= 0 === fb >= 0) {
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
  return startBefore - 0.5 * (a + b) * longer
}

/** Margin of the limb for a clearance and a time, with the error in `trial`. */
function marginAt(limbs: Float64Array, row: number, trial: Float64Array, gap: Metres, tau: Seconds): Metres {
  trial[TRIAL_GAP] = gap
  trial[TRIAL_TAU] = tau
  tryLimb(limbs, row, trial)
  return trial[TRIAL_MARGIN]!
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
