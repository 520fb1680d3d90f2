import {
  MET_COVERS,
  MET_STATE,
  MOMENT,
  MOMENT_BLOCK_LEAD,
  MOMENT_DROP_LEAD,
  MOMENT_DROP_TIME,
  MOMENT_FROZEN,
  MOMENT_LAST_PHASE,
  MOMENT_LEAKS,
  MOMENT_LONGEST_LEAD,
  MOMENT_READ,
  MOMENT_STANDS,
  PART_LIMB,
  PART_REGION,
} from "../sim/compiled/layout.ts"
import { LEVEL_PACE, LEVEL_TIME, MET } from "../sim/meeting-columns.ts"
import { NO_LIMB } from "../sim/part-columns.ts"
import { carryPart, errorOf, limbHelps, limbReaches } from "./carry.ts"
import { clearanceMoving, coversAt, gapAt } from "./clearance.ts"
import { latestStart } from "./limb.ts"
import { lastNode, nodeCount, nodeGap, setNodes } from "./nodes.ts"
import { addStretch, isCertain, setCertain } from "./stretches.ts"
import { limbRow, momentOf, NUMBER, phasesInHand } from "./tables.ts"

/** The same as in sim/react.ts and sim/moment.ts. */
const MOST_STEPS: i32 = 120
const NOTHING: f64 = 1e-7
export const REACTS: f64 = -1

/** The saving reactions that the part in hand adds: by covering the path, and by being carried to it. */
export function savesOfPart(posture: usize, part: usize, met: usize, saves: usize): void {
  standsOfPart(part, met)
  if (momentOf(MOMENT_FROZEN) != 0) {
    if (momentOf(MOMENT_LEAKS) == 0 && coversAt(part, met, 0)) covering(part, met, saves, -Infinity, Infinity)
  } else if (momentOf(MOMENT_BLOCK_LEAD) > REACTS) blockPart(posture, part, met, saves)
  else reactPart(posture, part, met, saves)
}

/** Whether the part, standing still, stops the puck. */
export function standsOfPart(part: usize, met: usize): void {
  if (momentOf(MOMENT_STANDS) == 0 && momentOf(MOMENT_LEAKS) == 0 && coversAt(part, met, 0))
    store<f64>(MOMENT + MOMENT_STANDS * NUMBER, 1)
}

/** Adds a stretch in which the part, carried by no limb, is in the way. */
// @ts-ignore: decorator
@inline
function covering(part: usize, met: usize, to: usize, lo: f64, hi: f64): void {
  addStretch(to, lo, hi, load<f64>(met, LEVEL_TIME * NUMBER), load<i32>(part, PART_REGION), NO_LIMB)
}

/** A block: the phase follows the clock, whatever the reaction; only the limbs wait for it. */
function blockPart(posture: usize, part: usize, met: usize, saves: usize): void {
  const last = phasesInHand() - 1
  const time = load<f64>(met, LEVEL_TIME * NUMBER)
  const limb = load<i32>(part, PART_LIMB)
  if (load<i32>(met, MET_STATE) != MET && !limbHelps(posture, part, met, time + momentOf(MOMENT_READ))) return
  const clocked = ((time + momentOf(MOMENT_BLOCK_LEAD)) / momentOf(MOMENT_DROP_TIME)) * <f64>last
  const phase = clocked > 0 ? clocked : 0
  const gap = phase >= <f64>last ? gapAt(part, met, last) : gapOf(part, met, phase)
  if (gap <= 0) {
    if (momentOf(MOMENT_LEAKS) == 0) {
      covering(part, met, saves, -Infinity, Infinity)
      setCertain(saves)
    }
    return
  }
  if (limb == NO_LIMB || !limbReaches(posture, part, met, phase >= <f64>last ? <f64>last : phase)) return
  const start = latestStart(limbRow(posture, part), gap, time, errorOf(limb), -momentOf(MOMENT_READ))
  addStretch(saves, -Infinity, start, time, load<i32>(part, PART_REGION), limb)
}

/** Moments of the drop's start for which the part covers the path in a block, see sim/react.ts. */
export function coverOfBlock(part: usize, met: usize, cover: usize): void {
  if (load<i32>(met, MET_STATE) != MET) return
  const last = <f64>(phasesInHand() - 1)
  const time = load<f64>(met, LEVEL_TIME * NUMBER)
  const perPhase = momentOf(MOMENT_DROP_TIME) / last
  const longestLead = momentOf(MOMENT_LONGEST_LEAD)
  // phases the drop can be at when the puck is level, from the latest start to the earliest
  const first = time / perPhase
  const furthest = (time + longestLead) / perPhase
  let phase = first < last ? first : last
  let open = gapOf(part, met, phase) <= 0
  let hi: f64 = 0
  while (phase < last && phase < furthest) {
    let next = floor(phase + 1e-9) + 1
    if (next > furthest) next = furthest
    if (next > last) next = last
    if (gapOf(part, met, next) <= 0 != open) {
      const gap = gapOf(part, met, phase)
      const gapAfter = gapOf(part, met, next)
      const start = time - crossing(part, met, phase, next, gap, gapAfter) * perPhase
      if (open) covering(part, met, cover, start, hi)
      hi = start
      open = !open
    }
    phase = next
  }
  // already down, or as far down as the longest lead allows
  if (open) {
    covering(part, met, cover, -longestLead, hi)
    if (hi == 0) setCertain(cover)
  }
}

/** Key phases that pass while the puck flies a metre. */
// @ts-ignore: decorator
@inline
function phasePerMetre(met: usize): f64 {
  return (load<f64>(met, LEVEL_PACE * NUMBER) * <f64>(phasesInHand() - 1)) / momentOf(MOMENT_DROP_TIME)
}

/** Clearance of the part in hand on its way down at any phase, counted in key phases. */
function gapOf(part: usize, met: usize, phase: f64): f64 {
  const k = <i32>phase
  if (<f64>k == phase) return gapAt(part, met, k)
  return clearanceMoving(part, met, phase, phasePerMetre(met))
}

/** A reaction: the drop starts before the hands, so the phase when the puck is level tells the start. */
function reactPart(posture: usize, part: usize, met: usize, saves: usize): void {
  setNodes(momentOf(MOMENT_LAST_PHASE))
  if (load<i32>(met, MET_STATE) == MET && momentOf(MOMENT_LEAKS) == 0) coverPart(part, met, saves)
  if (!isCertain(saves)) carryPart(posture, part, met, saves)
}

/** Stretches in which the part, as the drop has it, covers the path. */
function coverPart(part: usize, met: usize, saves: usize): void {
  const lastPhase = <f64>(phasesInHand() - 1)
  // the last node is a key phase, or the place between two at which the drop stops
  const end = nodeCount() - 1
  const last = lastNode()
  const keys = last == lastPhase ? end : end - 1
  coversAt(part, met, keys)
  let open = load<u8>(met, MET_COVERS) == 1
  let hi = Infinity
  for (let j = 1; j <= end; j++) {
    const covers = j <= keys ? load<u8>(met + j, MET_COVERS) == 1 : nodeGap(part, met, end) <= 0
    if (covers == open) continue
    const gap = nodeGap(part, met, j - 1)
    const phase = crossing(part, met, <f64>(j - 1), j == end ? last : <f64>j, gap, nodeGap(part, met, j))
    const time = load<f64>(met, LEVEL_TIME * NUMBER)
    const start = time + momentOf(MOMENT_DROP_LEAD) - (phase / lastPhase) * momentOf(MOMENT_DROP_TIME)
    if (open) covering(part, met, saves, start, hi)
    hi = start
    open = !open
  }
  if (open) {
    covering(part, met, saves, -Infinity, hi)
    if (hi == Infinity) setCertain(saves)
  }
}

/** Phase between `from` and `to` at which the clearance, given at both, is zero; see sim/react.ts. */
function crossing(part: usize, met: usize, from: f64, to: f64, gap: f64, gapAfter: f64): f64 {
  const rate = phasePerMetre(met)
  let a = from
  let b = to
  let fa = gap
  let fb = gapAfter
  let side = 0
  for (let i = 1; i < MOST_STEPS && b - a > NOTHING; i++) {
    const x = i % 4 == 0 ? 0.5 * (a + b) : a - (fa * (b - a)) / (fb - fa)
    const f = clearanceMoving(part, met, x, rate)
    if (f < NOTHING && f > -NOTHING) return x
    if (f <= 0 == fb <= 0) {
      if (side == 1) fa *= f != fb && f < fb == f > 0 ? 1 - f / fb : 0.5
      b = x
      fb = f
      side = 1
    } else {
      if (side == -1) fb *= f != fa && f < fa == f > 0 ? 1 - f / fa : 0.5
      a = x
      fa = f
      side = -1
    }
  }
  return 0.5 * (a + b)
}
