import {
  FRAME,
  MET_COVERS,
  MET_FILLED,
  MET_GAPS,
  MET_KNOWN,
  MET_MEASURED,
  MET_STATE,
  MOMENT_UNEVEN,
  PART_MOVES,
} from "../sim/compiled/layout.ts"
import {
  FRAME_INVERSE,
  FRAME_RATE,
  LEVEL_DU,
  LEVEL_DV,
  LEVEL_PACE,
  LEVEL_SLOPE,
  LEVEL_U,
  LEVEL_V,
  LEVEL_Z,
  MET,
  SWAY,
} from "../sim/meeting-columns.ts"
import { solveRow } from "./rounded-box.ts"
import { boxOf, localOf, momentOf, NUMBER, phasesInHand, rowOf } from "./tables.ts"

/** Bytes of two numbers side by side. */
const PAIR = 2 * NUMBER

/** The path in the axes of the part at a key phase; worked out when it is not there. */
// @ts-ignore: decorator
@inline
function localRow(part: usize, met: usize, phase: i32): usize {
  if (load<u8>(met + phase, MET_FILLED) == 0) fillLocal(part, met, phase)
  return localOf(met, phase)
}

/** Two axes at once, then place and direction along the third at once. */
function fillLocal(part: usize, met: usize, phase: i32): void {
  store<u8>(met + phase, 1, MET_FILLED)
  const row = rowOf(part, phase)
  const out = localOf(met, phase)
  const ru = load<f64>(met, LEVEL_U * NUMBER) - load<f64>(row, 9 * NUMBER)
  const rv = load<f64>(met, LEVEL_V * NUMBER) - load<f64>(row, 10 * NUMBER)
  const rz = load<f64>(met, LEVEL_Z * NUMBER) - load<f64>(row, 11 * NUMBER)
  const du = load<f64>(met, LEVEL_DU * NUMBER)
  const dv = load<f64>(met, LEVEL_DV * NUMBER)
  const slope = load<f64>(met, LEVEL_SLOPE * NUMBER)
  const u = v128.load(row)
  const v = v128.load(row, PAIR)
  const z = v128.load(row, 2 * PAIR)
  v128.store(out, along(f64x2.splat(ru), f64x2.splat(rv), f64x2.splat(rz), u, v, z))
  v128.store(out, along(f64x2.splat(du), f64x2.splat(dv), f64x2.splat(slope), u, v, z), PAIR)
  const third = along(
    f64x2(ru, du),
    f64x2(rv, dv),
    f64x2(rz, slope),
    v128.load64_splat(row, 6 * NUMBER),
    v128.load64_splat(row, 7 * NUMBER),
    v128.load64_splat(row, 8 * NUMBER),
  )
  v128.store(out, third, 2 * PAIR)
}

// @ts-ignore: decorator
@inline
function along(u: v128, v: v128, z: v128, axisU: v128, axisV: v128, axisZ: v128): v128 {
  return f64x2.add(f64x2.add(f64x2.mul(u, axisU), f64x2.mul(v, axisV)), f64x2.mul(z, axisZ))
}

/** The vertical shares of the first two axes, and of the third. */
// @ts-ignore: decorator
@inline
function upOf(row: usize): v128 {
  return v128.load(row, 2 * PAIR)
}

// @ts-ignore: decorator
@inline
function upOfThird(row: usize): f64 {
  return load<f64>(row, 8 * NUMBER)
}

// @ts-ignore: decorator
@inline
function between(a: v128, b: v128, share: v128): v128 {
  return f64x2.add(a, f64x2.mul(share, f64x2.sub(b, a)))
}

/** Clearance from a part that moves through drop phase `phase`, see measureMoving in sim/clearance.ts. */
export function clearanceMoving(part: usize, met: usize, phase: f64, phasePerMetre: f64): f64 {
  const phases = phasesInHand()
  let k = <i32>phase
  if (k > phases - 2) k = phases - 2
  const rest = phase - <f64>k
  const atKey = rest < 1e-9 && k > 0
  const share = f64x2.splat(rest)
  const motion = f64x2.splat((atKey ? 0.5 : 1) * phasePerMetre)
  const here = localRow(part, met, k)
  const next = localRow(part, met, k + 1)
  const before = atKey ? localRow(part, met, k - 1) : here
  const q = v128.load(here)
  const w = v128.load(here, PAIR)
  const third = v128.load(here, 2 * PAIR)
  const nextQ = v128.load(next)
  const nextThird = v128.load(next, 2 * PAIR)
  const moved = f64x2.mul(motion, f64x2.sub(nextQ, v128.load(before)))
  const moved2 = f64x2.mul(motion, f64x2.sub(nextThird, v128.load(before, 2 * PAIR)))
  const mixed = between(third, nextThird, share)
  const a = rowOf(part, k)
  const b = rowOf(part, k + 1)
  return solveRow(
    part,
    met,
    between(q, nextQ, share),
    f64x2.add(between(w, v128.load(next, PAIR), share), moved),
    turned(mixed, moved2),
    between(upOf(a), upOf(b), share),
    upOfThird(a) + rest * (upOfThird(b) - upOfThird(a)),
  )
}

/** The direction along the third axis, in the upper half, less the part's own motion, given in the lower. */
// @ts-ignore: decorator
@inline
function turned(third: v128, moved: v128): v128 {
  const w = f64x2.extract_lane(third, 1) + f64x2.extract_lane(moved, 0)
  return f64x2.replace_lane(third, 1, w)
}

/** Clearance of the part on its way down at a key phase: standing at the first and the last, moving between them. */
// @ts-ignore: decorator
@inline
export function gapAt(part: usize, met: usize, k: i32): f64 {
  if (load<u8>(met + k, MET_MEASURED) == 0) measureGap(part, met, k)
  return load<f64>(met + k * NUMBER, MET_GAPS)
}

function measureGap(part: usize, met: usize, k: i32): void {
  const here = localRow(part, met, k)
  const q = v128.load(here)
  let w = v128.load(here, PAIR)
  let third = v128.load(here, 2 * PAIR)
  if (k != 0 && k != phasesInHand() - 1) {
    const next = localRow(part, met, k + 1)
    const before = localRow(part, met, k - 1)
    const motion = f64x2.splat(0.5 * load<f64>(met, LEVEL_PACE * NUMBER) * load<f64>(FRAME + FRAME_RATE * NUMBER))
    w = f64x2.add(w, f64x2.mul(motion, f64x2.sub(v128.load(next), v128.load(before))))
    const moved = f64x2.mul(motion, f64x2.sub(v128.load(next, 2 * PAIR), v128.load(before, 2 * PAIR)))
    third = turned(third, moved)
  }
  const row = rowOf(part, k)
  store<f64>(met + k * NUMBER, solveRow(part, met, q, w, third, upOf(row), upOfThird(row)), MET_GAPS)
  store<u8>(met + k, 1, MET_MEASURED)
}

/** A clearance that the part, on its way down, does not fall under at a key phase, see sim/clearance.ts. */
export function leastGapAt(part: usize, met: usize, k: i32): f64 {
  const inverse = load<f64>(FRAME + FRAME_INVERSE * NUMBER)
  if (inverse == 0 || momentOf(MOMENT_UNEVEN) != 0) return 0
  const box = boxOf(part, k)
  const near = (load<f64>(box) - load<f64>(met, LEVEL_U * NUMBER)) * inverse
  const far = (load<f64>(box, 1 * NUMBER) - load<f64>(met, LEVEL_U * NUMBER)) * inverse
  const v1 = load<f64>(met, LEVEL_V * NUMBER) + load<f64>(met, LEVEL_DV * NUMBER) * near
  const v2 = load<f64>(met, LEVEL_V * NUMBER) + load<f64>(met, LEVEL_DV * NUMBER) * far
  const left = (v1 < v2 ? v1 : v2) - load<f64>(box, 3 * NUMBER)
  const right = load<f64>(box, 2 * NUMBER) - (v1 < v2 ? v2 : v1)
  const beside = left > right ? left : right
  const z1 = load<f64>(met, LEVEL_Z * NUMBER) + load<f64>(met, LEVEL_SLOPE * NUMBER) * near
  const z2 = load<f64>(met, LEVEL_Z * NUMBER) + load<f64>(met, LEVEL_SLOPE * NUMBER) * far
  const over = (z1 < z2 ? z1 : z2) - load<f64>(box, 5 * NUMBER)
  const under = load<f64>(box, 4 * NUMBER) - (z1 < z2 ? z2 : z1)
  const apart = over > under ? over : under
  const away = beside <= 0 ? apart : apart <= 0 ? beside : sqrt(beside * beside + apart * apart)
  return away - SWAY
}

/** Whether the path comes near what the part fills itself, and the part covers it at key phase `k`, on its way down. */
// @ts-ignore: decorator
@inline
export function coversAt(part: usize, met: usize, k: i32): bool {
  if (load<i32>(met, MET_STATE) != MET) return false
  if (k >= load<i32>(met, MET_KNOWN)) tellCovers(part, met, k)
  return load<u8>(met + k, MET_COVERS) == 1
}

/** Tells of every key phase up to `to` whether the part covers, see sim/clearance.ts. */
function tellCovers(part: usize, met: usize, to: i32): void {
  const last = phasesInHand() - 1
  let k = load<i32>(met, MET_KNOWN)
  if (k == 0) {
    const covers = leastGapAt(part, met, 0) <= 0 && gapAt(part, met, 0) <= 0
    store<u8>(met, covers ? 1 : 0, MET_COVERS)
    k = 1
  }
  // the last one measured, if it was the one before
  let measured = load<u8>(met + k - 1, MET_MEASURED) == 0 ? NaN : load<f64>(met + (k - 1) * NUMBER, MET_GAPS)
  let slack: f64 = 0
  for (; k <= to; k++) {
    // what the part's motion during the passing of the puck may add is one more phase of it
    slack += load<f64>(part + (k - 1) * NUMBER, PART_MOVES)
    const most = slack + load<f64>(part + k * NUMBER, PART_MOVES)
    store<u8>(met + k, measured <= 0 ? 1 : 0, MET_COVERS)
    // at the last phase the part stops: moving there says nothing of it
    if ((measured > most || measured < -most) && k < last) continue
    if (leastGapAt(part, met, k) > 0) store<u8>(met + k, 0, MET_COVERS)
    else {
      measured = gapAt(part, met, k)
      slack = 0
      store<u8>(met + k, measured <= 0 ? 1 : 0, MET_COVERS)
    }
  }
  store<i32>(met, k, MET_KNOWN)
}
