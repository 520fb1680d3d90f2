import {
  MOMENT_DROP_LEAD,
  MOMENT_DROP_TIME,
  MOMENT_ERRORS,
  MOMENT_LEAKS,
  MOMENT_READ,
  PART_LIMB,
  PART_REGION,
  POSTURE_ROOTS,
} from "../sim/compiled/layout.ts"
import { LEVEL_LEAST_GAP, LEVEL_TIME, LEVEL_U, LEVEL_V, LEVEL_Z } from "../sim/meeting-columns.ts"
import { GREATEST_V, LAG, LEAST_V, NO_LIMB, ROOT_LENGTH } from "../sim/part-columns.ts"
import { leastGapAt } from "./clearance.ts"
import { latestStart, limbMargin, limbStopsInTime } from "./limb.ts"
import { lastNode, nodeCount, nodeGap } from "./nodes.ts"
import { addStretch } from "./stretches.ts"
import { limbRow, momentOf, NUMBER, phasesInHand } from "./tables.ts"

/** The same as in sim/carry.ts. */
const MOST_STEPS: i32 = 120
const NOTHING: f64 = 1e-10
/** Limbs of a posture, and the bytes of their roots at one key phase. */
const LIMBS = 6
const ROOTS_BYTES = LIMBS * 3 * NUMBER

/** This shot's error length of the limb that carries a part. */
// @ts-ignore: decorator
@inline
export function errorOf(limb: i32): f64 {
  return momentOf(MOMENT_ERRORS + limb)
}

/** Whether the limb could be of use at all, with `most` seconds from the start of the hands. */
export function limbHelps(posture: usize, part: usize, met: usize, most: f64): bool {
  const limb = load<i32>(part, PART_LIMB)
  if (limb == NO_LIMB) return false
  const row = limbRow(posture, part)
  if (isAside(row, met)) return false
  const least = load<f64>(met, LEVEL_LEAST_GAP * NUMBER)
  if (least <= 0) return true
  return limbStopsInTime(row, least, most - load<f64>(row, LAG * NUMBER), errorOf(limb))
}

/** Whether the puck is on the wrong side of the body for the limb. */
// @ts-ignore: decorator
@inline
function isAside(row: usize, met: usize): bool {
  const v = load<f64>(met, LEVEL_V * NUMBER)
  return v < load<f64>(row, LEAST_V * NUMBER) || v > load<f64>(row, GREATEST_V * NUMBER)
}

/** Stretches in which the limb brings the part to the path, see sim/carry.ts. */
export function carryPart(posture: usize, part: usize, met: usize, saves: usize): void {
  const time = load<f64>(met, LEVEL_TIME * NUMBER)
  const end = nodeCount() - 1
  const last = lastNode()
  const lastPhase = <f64>(phasesInHand() - 1)
  const dropTime = momentOf(MOMENT_DROP_TIME)
  const late = time + momentOf(MOMENT_DROP_LEAD)
  // the most time the limb can have: at the earliest reaction, or with the body down
  const landed = time - (late - (last / lastPhase) * dropTime)
  const most = time + momentOf(MOMENT_READ)
  if (!limbHelps(posture, part, met, most > landed ? most : landed)) return

  const row = limbRow(posture, part)
  const limb = load<i32>(part, PART_LIMB)
  const error = errorOf(limb)
  const region = load<i32>(part, PART_REGION)
  const lag = load<f64>(row, LAG * NUMBER)
  // the side was looked at above; many limbs have no root to hold them
  const rooted = load<f64>(row, ROOT_LENGTH * NUMBER) < Infinity
  let open = false
  let hi: f64 = 0
  let startBefore: f64 = 0
  for (let j = 0; j <= end; j++) {
    const phase = j == end ? last : <f64>j
    const start = late - (phase / lastPhase) * dropTime
    const tau = time - start - lag
    const saved =
      tau > 0 && (!rooted || limbReaches(posture, part, met, phase)) && limbStops(part, met, row, tau, error, j)
    if (saved != open) {
      let at = start
      if (j > 0) {
        const gap = nodeGap(part, met, j - 1)
        at = turn(row, error, gap, nodeGap(part, met, j), time - lag, startBefore, start, saved)
      }
      if (open) addStretch(saves, at, hi, time, region, limb)
      hi = at
      open = saved
    }
    startBefore = start
  }
  // still earlier starts find the body down and the limb with ever more time
  if (open) addStretch(saves, -Infinity, hi, time, region, limb)
  else if (limbReaches(posture, part, met, last)) {
    const gap = nodeGap(part, met, end)
    if (momentOf(MOMENT_LEAKS) != 0 && gap <= 0) return
    const start = latestStart(row, gap, time, error, -momentOf(MOMENT_READ))
    addStretch(saves, -Infinity, start < startBefore ? start : startBefore, time, region, limb)
  }
}

/** Whether the limb stops the puck at node j; a covering body that leaks does not. */
function limbStops(part: usize, met: usize, row: usize, tau: f64, error: f64, j: i32): bool {
  // where even the least clearance the part can have is too wide there is nothing to measure
  if (j < nodeCount() - 1) {
    const least = leastGapAt(part, met, j)
    if (least > 0 && !limbStopsInTime(row, least, tau, error)) return false
  }
  const gap = nodeGap(part, met, j)
  if (gap <= 0 && momentOf(MOMENT_LEAKS) != 0) return false
  return limbStopsInTime(row, gap, tau, error)
}

/** Start between two nodes, with the clearances there, at which the limb's margin changes sign; see sim/carry.ts. */
function turn(
  row: usize,
  error: f64,
  gap: f64,
  gapAfter: f64,
  time: f64,
  startBefore: f64,
  start: f64,
  opens: bool,
): f64 {
  const widens = gapAfter - gap
  const tau = time - startBefore
  const longer = startBefore - start
  let a: f64 = 0
  let b: f64 = 1
  let fa = limbMargin(row, gap, tau, error)
  let fb = limbMargin(row, gap + widens, tau + longer, error)
  // within reach at one end alone: the stretch goes as far as the other
  if (fa >= 0 == fb >= 0) return opens ? startBefore : start
  let side = 0
  for (let i = 1; i < MOST_STEPS && b - a > NOTHING; i++) {
    const x = i % 4 == 0 ? 0.5 * (a + b) : a - (fa * (b - a)) / (fb - fa)
    const f = limbMargin(row, gap + x * widens, tau + x * longer, error)
    if (f < NOTHING && f > -NOTHING) return startBefore - x * longer
    if (f >= 0 == fb >= 0) {
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
  return startBefore - 0.5 * (a + b) * longer
}

/** Whether the limb's side and its root let it reach the path where it is level with the part, at a phase. */
export function limbReaches(posture: usize, part: usize, met: usize, phase: f64): bool {
  const row = limbRow(posture, part)
  if (isAside(row, met)) return false
  const length = load<f64>(row, ROOT_LENGTH * NUMBER)
  if (length == Infinity) return true
  let k = <i32>phase
  if (k > phasesInHand() - 2) k = phasesInHand() - 2
  const share = phase - <f64>k
  const here = posture + POSTURE_ROOTS + k * ROOTS_BYTES + load<i32>(part, PART_LIMB) * (3 * NUMBER)
  const next = here + ROOTS_BYTES
  const u = load<f64>(met, LEVEL_U * NUMBER) - load<f64>(here) - share * (load<f64>(next) - load<f64>(here))
  const v =
    load<f64>(met, LEVEL_V * NUMBER) -
    load<f64>(here, NUMBER) -
    share * (load<f64>(next, NUMBER) - load<f64>(here, NUMBER))
  const z =
    load<f64>(met, LEVEL_Z * NUMBER) -
    load<f64>(here, 2 * NUMBER) -
    share * (load<f64>(next, 2 * NUMBER) - load<f64>(here, 2 * NUMBER))
  return u * u + v * v + z * z <= length * length
}
