import * as boxColumns from "./box-record.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { BOX_Q, BOX_W, BOX_UP, BOX_H, BOX_LEAST, BOX_MOST, DISC_RADIUS, DISC_HALF } = boxColumns
const { PLANE_A, PLANE_B, PLANE_TILT, PLANE_NEAREST, PATH_LONG, PATH_MIDDLE, PATH_REACH, START_C, START_S } = boxColumns
const { KEPT, NEAREST, FROM, STRETCH, APART, TRIED, BEST, EQUATIONS } = boxColumns

/**
 * Distance between the core box and a puck whose path may end before it is closest (see rounded-box.ts). What the plane says
 * holds where box and disc touch between the ends of the path. Otherwise it is the distance of q from the sum of the box, the
 * disc and the path turned about, found by Gilbert, Johnson and Keerthi's way: of the points that lie farthest toward
 * q as seen from the nearest point so far, the few that span the nearest one are kept.
 */

/** Known to this, m. */
const EXACTLY = 1e-9
/** The same for where a contact lies along the path, as a sine. */
const FLAT = 1e-6
const MOST_STEPS = 100
/** Squared length under which points span nothing more, m². */
const SINGULAR = 1e-24
/** Turns after which an overlap is no longer looked for so simply. */
const TURNS = 6
/** A segment that reaches less far than this, m, in the direction of the distance lies along the contact. */
const ALONG = 1e-9
/** A direction closer than this to upright, a squared tangent: the contact may lie anywhere under the disc. */
const UPRIGHT = 1e-20

/** Squared length of the three numbers at `at` of a table. */
function lengthSquared(table: Float64Array, at: number): number {
  return table[at]! * table[at]! + table[at + 1]! * table[at + 1]! + table[at + 2]! * table[at + 2]!
}

/** Puts PLANE_NEAREST right for the ends of the path in `row`. */
export function distanceInSpace(box: Float64Array, row: Float64Array): void {
  if (touchesBetweenEnds(box, row)) return
  setStretch(box, row)
  let count = 0
  let squared = Infinity
  for (let i = 0; i < 3; i++) box[NEAREST + i] = box[FROM + i]!
  for (let step = 0; step < MOST_STEPS; step++) {
    farthest(box, row, count)
    const at = 3 * count
    const reaches =
      box[NEAREST]! * box[KEPT + at]! +
      box[NEAREST + 1]! * box[KEPT + at + 1]! +
      box[NEAREST + 2]! * box[KEPT + at + 2]!
    if (count > 0 && squared - reaches <= EXACTLY * Math.sqrt(squared)) break
    count = span(box, count + 1)
    const before = squared
    squared = lengthSquared(box, NEAREST)
    if (count === 4 || squared < EXACTLY * EXACTLY || squared >= before) break
  }
  box[PLANE_NEAREST] = squared < EXACTLY * EXACTLY ? 0 : Math.sqrt(squared)
}

/** The stretch of the path on which it can be closest: its start, and from there to its end. */
function setStretch(box: Float64Array, row: Float64Array): void {
  const middle = box[PATH_MIDDLE]!
  const reach = box[PATH_REACH]!
  const least = box[BOX_LEAST]!
  const most = box[BOX_MOST]!
  const lo = Math.min(most, Math.max(least, middle - reach))
  const hi = Math.min(most, Math.max(least, middle + reach))
  for (let i = 0; i < 3; i++) {
    box[FROM + i] = row[BOX_Q + i]! + lo * row[BOX_W + i]!
    box[STRETCH + i] = (hi - lo) * row[BOX_W + i]!
  }
}

/** Whether all places at which box and disc are closest, seen along the path, lie between its ends; or its middle enters the box. */
function touchesBetweenEnds(box: Float64Array, row: Float64Array): boolean {
  const long = box[PATH_LONG]!
  const middle = box[PATH_MIDDLE]!
  const least = box[BOX_LEAST]!
  const most = box[BOX_MOST]!
  if (!(box[PLANE_NEAREST]! > 0)) return overlapsNear(box, row, middle, long)
  const unit = 1 / Math.sqrt(box[START_C]! * box[START_C]! + box[START_S]! * box[START_S]!)
  const c = box[START_C]! * unit
  const s = box[START_S]! * unit
  let at = 0
  let either = 0
  for (let i = 0; i < 3; i++) {
    const far = c * box[PLANE_A + i]! + s * box[PLANE_B + i]!
    const along = box[BOX_H + i]! * row[BOX_W + i]!
    if (Math.abs(far) <= ALONG) either += Math.abs(along)
    else at += far > 0 ? along : -along
  }
  // the disc: its rim, and its upper or lower face
  const tilt = box[PLANE_TILT]!
  const rise = Math.sqrt(tilt * long)
  const climbs = row[BOX_UP]! * row[BOX_W]! + row[BOX_UP + 1]! * row[BOX_W + 1]! + row[BOX_UP + 2]! * row[BOX_W + 2]!
  const up = s * Math.sqrt(Math.max(0, 1 - tilt))
  const level = Math.sqrt(Math.max(0, 1 - up * up))
  const signed = climbs > 0 ? rise : -rise
  if (level < FLAT) either += box[DISC_RADIUS]! * Math.sqrt(long)
  else at -= (box[DISC_RADIUS]! * up * signed) / level
  if (Math.abs(s) <= ALONG) either += box[DISC_HALF]! * rise
  else at += s > 0 ? box[DISC_HALF]! * signed : -box[DISC_HALF]! * signed
  const much = EXACTLY * Math.sqrt(long)
  return at - either + much >= (least - middle) * long && at + either - much <= (most - middle) * long
}

/**
 * Whether a few turns find a place on the path where the disc overlaps the box: its nearest point to the disc, the disc's
 * nearest to that, and the path's place nearest to both, from the place `s` on. False says nothing.
 */
function overlapsNear(box: Float64Array, row: Float64Array, first: number, long: number): boolean {
  const least = box[BOX_LEAST]!
  const most = box[BOX_MOST]!
  const tall = lengthSquared(row, BOX_UP)
  const half = box[DISC_HALF]! / Math.sqrt(tall)
  const radius = box[DISC_RADIUS]!
  let s = Math.min(most, Math.max(least, first))
  for (let i = 0; i < 3; i++) box[APART + i] = 0
  for (let turn = 0; turn < TURNS; turn++) {
    // from the middle to the point of the box nearest to the disc's nearest so far
    let up = 0
    for (let i = 0; i < 3; i++) {
      const q = row[BOX_Q + i]! + s * row[BOX_W + i]!
      const h = box[BOX_H + i]!
      const p = q + box[APART + i]!
      box[APART + i] = (p > h ? h : p < -h ? -h : p) - q
      up += box[APART + i]! * row[BOX_UP + i]!
    }
    up /= tall
    const raised = up > half ? half : up < -half ? -half : up
    let level = 0
    for (let i = 0; i < 3; i++) {
      const beside = box[APART + i]! - up * row[BOX_UP + i]!
      level += beside * beside
    }
    const inward = level > radius * radius ? radius / Math.sqrt(level) : 1
    if (inward === 1 && raised === up) return true
    let along = 0
    for (let i = 0; i < 3; i++) {
      const disc = inward * (box[APART + i]! - up * row[BOX_UP + i]!) + raised * row[BOX_UP + i]!
      along += (box[APART + i]! - disc) * row[BOX_W + i]!
      box[APART + i] = disc
    }
    s = Math.min(most, Math.max(least, s + along / long))
  }
  return false
}

/** Writes, as point `count`, q less the point of the sum that lies farthest in the direction of `nearest`. */
function farthest(box: Float64Array, row: Float64Array, count: number): void {
  const n0 = box[NEAREST]!
  const n1 = box[NEAREST + 1]!
  const n2 = box[NEAREST + 2]!
  const u0 = row[BOX_UP]!
  const u1 = row[BOX_UP + 1]!
  const u2 = row[BOX_UP + 2]!
  const tall = u0 * u0 + u1 * u1 + u2 * u2
  const up = n0 * u0 + n1 * u1 + n2 * u2
  const l0 = n0 - (up / tall) * u0
  const l1 = n1 - (up / tall) * u1
  const l2 = n2 - (up / tall) * u2
  const level = l0 * l0 + l1 * l1 + l2 * l2
  // upright, any place of the disc lies as far
  const rim = level * tall > UPRIGHT * up * up ? box[DISC_RADIUS]! / Math.sqrt(level) : 0
  const face = (up > 0 ? box[DISC_HALF]! : -box[DISC_HALF]!) / Math.sqrt(tall)
  const forward = n0 * box[STRETCH]! + n1 * box[STRETCH + 1]! + n2 * box[STRETCH + 2]!
  const s = forward > 0 ? 0 : 1
  const at = 3 * count
  for (let i = 0; i < 3; i++) {
    const n = i === 0 ? n0 : i === 1 ? n1 : n2
    const l = i === 0 ? l0 : i === 1 ? l1 : l2
    const half = n > 0 ? box[BOX_H + i]! : -box[BOX_H + i]!
    box[KEPT + at + i] = box[FROM + i]! + s * box[STRETCH + i]! - half - rim * l - face * row[BOX_UP + i]!
  }
}

/**
 * The nearest point to nothing of what `count` points span, into NEAREST; keeps the points that it lies between and
 * returns how many. The newest, the last, is always one of them. Four: nothing itself lies between them.
 */
function span(box: Float64Array, count: number): number {
  const chosen = count < 4 ? chooseOf(box, count) : chooseOfFour(box)
  for (let i = 0; i < 3; i++) box[NEAREST + i] = 0
  let left = 0
  for (let j = 0; j < count; j++) {
    if ((chosen & (1 << j)) === 0) continue
    for (let i = 0; i < 3; i++) {
      box[NEAREST + i]! += box[BEST + j]! * box[KEPT + 3 * j + i]!
      box[KEPT + 3 * left + i] = box[KEPT + 3 * j + i]!
    }
    left++
  }
  return left
}

/** Which of up to three points: all of them where the nearest lies between them, else those that do best. */
function chooseOf(box: Float64Array, count: number): number {
  const all = (1 << count) - 1
  if (keepIfLess(box, all, count, Infinity) < Infinity || count === 1) return all
  return chooseLeast(box, count, all)
}

/** Which of four points: three that the fourth is not nearer than, else those that do best, all four among them. */
function chooseOfFour(box: Float64Array): number {
  for (let out = 0; out < 3; out++) {
    const three = 15 & ~(1 << out)
    const squared = keepIfLess(box, three, 4, Infinity)
    if (squared === Infinity) continue
    let along = 0
    for (let i = 0; i < 3; i++) {
      let v = 0
      for (let j = 0; j < 4; j++) v += box[TRIED + j]! * box[KEPT + 3 * j + i]!
      along += v * box[KEPT + 3 * out + i]!
    }
    if (along >= squared) return three
  }
  return chooseLeast(box, 4, 0)
}

/** Of all choices with the newest point but one, which comes nearest to nothing. */
function chooseLeast(box: Float64Array, count: number, but: number): number {
  const newest = 1 << (count - 1)
  let least = Infinity
  let chosen = newest
  for (let rest = 0; rest < newest; rest++) {
    if ((rest | newest) === but) continue
    const squared = keepIfLess(box, rest | newest, count, least)
    if (squared >= least) continue
    least = squared
    chosen = rest | newest
  }
  return chosen
}

/** Squared distance of a choice of points; its weights are kept as the best ones if that is less than `least`. */
function keepIfLess(box: Float64Array, mask: number, count: number, least: number): number {
  const squared = between(box, mask, count)
  if (squared < least) for (let j = 0; j < count; j++) box[BEST + j] = box[TRIED + j]!
  return squared
}

/**
 * Squared distance of nothing from the plane, line or point through the points of a mask, into `tried` with what each weighs
 * in the nearest one; Infinity where that lies outside of them. The newest, the last, is one of them.
 */
function between(box: Float64Array, mask: number, count: number): number {
  for (let j = 0; j < 4; j++) box[TRIED + j] = 0
  const newest = count - 1
  const rest = mask & ~(1 << newest)
  if (rest === 0) return alone(box, newest)
  const first = rest & 1 ? 0 : rest & 2 ? 1 : 2
  if (rest === 1 << first) return onLine(box, first, newest)
  const last = rest & 4 ? 2 : 1
  return rest === 7 ? among(box) : onPlane(box, first, last, newest)
}

function alone(box: Float64Array, n: number): number {
  box[TRIED + n] = 1
  const at = KEPT + 3 * n
  return box[at]! * box[at]! + box[at + 1]! * box[at + 1]! + box[at + 2]! * box[at + 2]!
}

/** Of two points, the newest last. */
function onLine(box: Float64Array, a: number, n: number): number {
  const one = KEPT + 3 * a
  const two = KEPT + 3 * n
  const n0 = box[two]!
  const n1 = box[two + 1]!
  const n2 = box[two + 2]!
  const e0 = box[one]! - n0
  const e1 = box[one + 1]! - n1
  const e2 = box[one + 2]! - n2
  const ee = e0 * e0 + e1 * e1 + e2 * e2
  if (!(ee > SINGULAR)) return Infinity
  const weight = -(e0 * n0 + e1 * n1 + e2 * n2) / ee
  const left = 1 - weight
  if (!(weight > 0 && left > 0)) return Infinity
  box[TRIED + a] = weight
  box[TRIED + n] = left
  const v0 = weight * box[one]! + left * n0
  const v1 = weight * box[one + 1]! + left * n1
  const v2 = weight * box[one + 2]! + left * n2
  return v0 * v0 + v1 * v1 + v2 * v2
}

/** Of three points, the newest last. */
function onPlane(box: Float64Array, a: number, b: number, n: number): number {
  const one = KEPT + 3 * a
  const two = KEPT + 3 * b
  const last = KEPT + 3 * n
  const n0 = box[last]!
  const n1 = box[last + 1]!
  const n2 = box[last + 2]!
  const e0 = box[one]! - n0
  const e1 = box[one + 1]! - n1
  const e2 = box[one + 2]! - n2
  const f0 = box[two]! - n0
  const f1 = box[two + 1]! - n1
  const f2 = box[two + 2]! - n2
  const ee = e0 * e0 + e1 * e1 + e2 * e2
  if (!(ee > SINGULAR)) return Infinity
  const ef = e0 * f0 + e1 * f1 + e2 * f2
  const share = ef / ee
  const start = -(e0 * n0 + e1 * n1 + e2 * n2) / ee
  const square = f0 * f0 + f1 * f1 + f2 * f2 - ef * share
  if (!(square > SINGULAR)) return Infinity
  const second = (-(f0 * n0 + f1 * n1 + f2 * n2) - ef * start) / square
  const weight = start - share * second
  const left = 1 - weight - second
  if (!(weight > 0 && second > 0 && left > 0)) return Infinity
  box[TRIED + a] = weight
  box[TRIED + b] = second
  box[TRIED + n] = left
  const v0 = weight * box[one]! + second * box[two]! + left * n0
  const v1 = weight * box[one + 1]! + second * box[two + 1]! + left * n1
  const v2 = weight * box[one + 2]! + second * box[two + 2]! + left * n2
  return v0 * v0 + v1 * v1 + v2 * v2
}

/** Of four points: nothing where nothing lies between them. */
function among(box: Float64Array): number {
  const at = 9
  for (let row = 0; row < 3; row++) {
    const a = 3 * row
    for (let column = 0; column <= 3; column++) {
      // edges from the newest point, and last the newest point itself
      const b = column < 3 ? 3 * column : -1
      let sum = 0
      for (let i = 0; i < 3; i++) {
        const edge = box[KEPT + a + i]! - box[KEPT + at + i]!
        sum += edge * (b < 0 ? -box[KEPT + at + i]! : box[KEPT + b + i]! - box[KEPT + at + i]!)
      }
      box[EQUATIONS + 4 * row + (b < 0 ? 3 : column)] = sum
    }
  }
  if (!solve(box)) return Infinity
  let left = 1
  for (let row = 0; row < 3; row++) {
    const weight = box[EQUATIONS + 4 * row + 3]!
    if (!(weight > 0)) return Infinity
    box[TRIED + row] = weight
    left -= weight
  }
  if (!(left > 0)) return Infinity
  box[TRIED + 3] = left
  let squared = 0
  for (let i = 0; i < 3; i++) {
    let sum = 0
    for (let j = 0; j < 4; j++) sum += box[TRIED + j]! * box[KEPT + 3 * j + i]!
    squared += sum * sum
  }
  return squared
}

/** Gauss and Jordan on the three equations, whose matrix is positive: false where it is singular. */
function solve(box: Float64Array): boolean {
  for (let pivot = 0; pivot < 3; pivot++) {
    const head = box[EQUATIONS + 4 * pivot + pivot]!
    if (!(head > SINGULAR)) return false
    for (let column = pivot; column < 4; column++) box[EQUATIONS + 4 * pivot + column]! /= head
    for (let row = 0; row < 3; row++) {
      if (row === pivot) continue
      const factor = box[EQUATIONS + 4 * row + pivot]!
      for (let column = pivot; column < 4; column++)
        box[EQUATIONS + 4 * row + column]! -= factor * box[EQUATIONS + 4 * pivot + column]!
    }
  }
  return true
}
