import {
  APART,
  AXIS,
  BESIDE,
  BEST,
  BOX_H,
  BOX_Q,
  BOX_UP,
  BOX_W,
  CHANGE,
  MATRIX,
  POINT,
  SLACK,
  SQUARED,
  STIFF_OUT,
  STIFF_ROUND,
  STIFF_UP,
  STILL,
} from "../sim/box-record.ts"
import { DISC_HALF, DISC_RADIUS } from "../sim/compiled/layout.ts"
import { keep, recorded } from "./tables.ts"

/** The same as in sim/still-disc.ts. */
const EXACTLY: f64 = 5e-10
const ROUGHLY: f64 = 2e-9
const PATIENCE: i32 = 100
const TOUCHES: f64 = 1e-9
const ROUNDING: f64 = 1e-16
const SLIGHT: f64 = 1e-15
const WANDERS: i32 = 80
const ASTRAY: i32 = 10
const DAMPED: f64 = 1e-9
const UNDAMPED: f64 = 1e-10
const NOTHING: f64 = 1e-13
const MOST_STEPS: i32 = 10_000

/** Distance of the box in the record from the disc at place `s` of its path, see sim/still-disc.ts; traps where that throws. */
export function distanceStill(s: f64): f64 {
  keep(CHANGE, 0)
  if (overlapsAtStart(s)) return 0
  let least: f64 = Infinity
  let slack: f64 = Infinity
  let before: f64 = Infinity
  let wandered = 0
  let damping: f64 = 0
  let returned = false
  for (let step = 0; step < MOST_STEPS; step++) {
    look()
    const squared = recorded(SQUARED)
    const distance = sqrt(squared)
    if (distance < TOUCHES) return 0
    if (recorded(SLACK) <= (step < PATIENCE ? EXACTLY : ROUGHLY) * distance) return found()
    if (squared < least || (squared <= least + ROUNDING * distance && recorded(SLACK) < 0.5 * slack)) {
      least = min(least, squared)
      slack = min(slack, recorded(SLACK))
      for (let i = 0; i < 3; i++) keep(BEST + i, recorded(POINT + i))
      wandered = 0
      if (!returned) damping = damping < UNDAMPED ? 0 : 0.1 * damping
      returned = false
    } else if (damping == 0 && wandered < WANDERS) wandered += squared < before ? 1 : ASTRAY
    else {
      for (let i = 0; i < 3; i++) keep(POINT + i, recorded(BEST + i))
      look()
      if (damping == 1 && recorded(SLACK) <= SLIGHT) return found()
      wandered = 0
      damping = damping == 1 ? 0 : damping == 0 ? DAMPED : min<f64>(1, 10 * damping)
      returned = true
    }
    before = squared
    takeStep(damping)
  }
  return unreachable()
}

/** Takes what was last looked at for the distance. */
function found(): f64 {
  const distance = sqrt(recorded(SQUARED))
  const along = recorded(APART) * recorded(BOX_W) + recorded(APART + 1) * recorded(BOX_W + 1) + recorded(APART + 2) * recorded(BOX_W + 2)
  keep(CHANGE, -along / distance)
  return distance
}

/** Whether the box's nearest point to the disc's middle lies in the disc; otherwise fills POINT with where to start. */
function overlapsAtStart(s: f64): bool {
  const p0 = recorded(BOX_Q) + s * recorded(BOX_W)
  const p1 = recorded(BOX_Q + 1) + s * recorded(BOX_W + 1)
  const p2 = recorded(BOX_Q + 2) + s * recorded(BOX_W + 2)
  const h0 = recorded(BOX_H)
  const h1 = recorded(BOX_H + 1)
  const h2 = recorded(BOX_H + 2)
  const radius = load<f64>(DISC_RADIUS)
  const half = load<f64>(DISC_HALF)
  let u0 = recorded(BOX_UP)
  let u1 = recorded(BOX_UP + 1)
  let u2 = recorded(BOX_UP + 2)
  const unit = 1 / sqrt(u0 * u0 + u1 * u1 + u2 * u2)
  u0 *= unit
  u1 *= unit
  u2 *= unit
  const y0 = (p0 > h0 ? h0 : p0 < -h0 ? -h0 : p0) - p0
  const y1 = (p1 > h1 ? h1 : p1 < -h1 ? -h1 : p1) - p1
  const y2 = (p2 > h2 ? h2 : p2 < -h2 ? -h2 : p2) - p2
  const up = y0 * u0 + y1 * u1 + y2 * u2
  const l0 = y0 - up * u0
  const l1 = y1 - up * u1
  const l2 = y2 - up * u2
  const level = l0 * l0 + l1 * l1 + l2 * l2
  if (level <= radius * radius && up <= half && up >= -half) return true
  const rim = level > 0 ? radius / sqrt(level) : 0
  const face = up > 0 ? half : up < 0 ? -half : 0
  const x0 = p0 + rim * l0 + face * u0
  const x1 = p1 + rim * l1 + face * u1
  const x2 = p2 + rim * l2 + face * u2
  keep(STILL, p0)
  keep(STILL + 1, p1)
  keep(STILL + 2, p2)
  keep(AXIS, u0)
  keep(AXIS + 1, u1)
  keep(AXIS + 2, u2)
  keep(POINT, x0 > h0 ? h0 : x0 < -h0 ? -h0 : x0)
  keep(POINT + 1, x1 > h1 ? h1 : x1 < -h1 ? -h1 : x1)
  keep(POINT + 2, x2 > h2 ? h2 : x2 < -h2 ? -h2 : x2)
  return false
}

/** How POINT lies to the disc: APART, SQUARED, SLACK and what a step needs of it. */
function look(): void {
  const x0 = recorded(POINT)
  const x1 = recorded(POINT + 1)
  const x2 = recorded(POINT + 2)
  const u0 = recorded(AXIS)
  const u1 = recorded(AXIS + 1)
  const u2 = recorded(AXIS + 2)
  const y0 = x0 - recorded(STILL)
  const y1 = x1 - recorded(STILL + 1)
  const y2 = x2 - recorded(STILL + 2)
  const up = y0 * u0 + y1 * u1 + y2 * u2
  const l0 = y0 - up * u0
  const l1 = y1 - up * u1
  const l2 = y2 - up * u2
  const rho = sqrt(l0 * l0 + l1 * l1 + l2 * l2)
  const radius = load<f64>(DISC_RADIUS)
  const half = load<f64>(DISC_HALF)
  const over = up > half ? up - half : up < -half ? up + half : 0
  const out = rho > radius ? rho - radius : 0
  const unit = out > 0 ? 1 / rho : 0
  const n0 = l0 * unit
  const n1 = l1 * unit
  const n2 = l2 * unit
  const e0 = over * u0 + out * n0
  const e1 = over * u1 + out * n1
  const e2 = over * u2 + out * n2
  keep(APART, e0)
  keep(APART + 1, e1)
  keep(APART + 2, e2)
  keep(SQUARED, over * over + out * out)
  keep(
    SLACK,
    abs(e0) * recorded(BOX_H) +
    e0 * x0 +
    (abs(e1) * recorded(BOX_H + 1) + e1 * x1) +
    (abs(e2) * recorded(BOX_H + 2) + e2 * x2),
  )
  keep(BESIDE, n0)
  keep(BESIDE + 1, n1)
  keep(BESIDE + 2, n2)
  keep(STIFF_UP, over == 0 ? 0 : 1)
  keep(STIFF_OUT, out > 0 ? 1 : 0)
  keep(STIFF_ROUND, out * unit)
}

/** Moves POINT to where the square is least within the box, see sim/still-disc.ts. */
function takeStep(damping: f64): void {
  const u0 = recorded(AXIS)
  const u1 = recorded(AXIS + 1)
  const u2 = recorded(AXIS + 2)
  const n0 = recorded(BESIDE)
  const n1 = recorded(BESIDE + 1)
  const n2 = recorded(BESIDE + 2)
  const left = 1 - damping
  const round = left * recorded(STIFF_ROUND)
  const lift = left * recorded(STIFF_UP) - round
  const outward = left * recorded(STIFF_OUT) - round
  const all = round + damping + NOTHING
  keep(MATRIX, lift * u0 * u0 + outward * n0 * n0 + all)
  keep(MATRIX + 1, lift * u1 * u1 + outward * n1 * n1 + all)
  keep(MATRIX + 2, lift * u2 * u2 + outward * n2 * n2 + all)
  keep(MATRIX + 3, lift * u0 * u1 + outward * n0 * n1)
  keep(MATRIX + 4, lift * u0 * u2 + outward * n0 * n2)
  keep(MATRIX + 5, lift * u1 * u2 + outward * n1 * n2)
  solveWithin()
}

/** Moves POINT by what the matrix makes of APART; what leaves the box on the way is held at its face. */
function solveWithin(): void {
  const x0 = recorded(POINT)
  const x1 = recorded(POINT + 1)
  const x2 = recorded(POINT + 2)
  const h0 = recorded(BOX_H)
  const h1 = recorded(BOX_H + 1)
  const h2 = recorded(BOX_H + 2)
  const e0 = recorded(APART)
  const e1 = recorded(APART + 1)
  const e2 = recorded(APART + 2)
  const a01 = recorded(MATRIX + 3)
  const a02 = recorded(MATRIX + 4)
  const a12 = recorded(MATRIX + 5)

  // what is at a face and pushed outward stays
  let free0 = !((x0 <= -h0 && e0 > 0) || (x0 >= h0 && e0 < 0))
  let free1 = !((x1 <= -h1 && e1 > 0) || (x1 >= h1 && e1 < 0))
  let free2 = !((x2 <= -h2 && e2 > 0) || (x2 >= h2 && e2 < 0))
  let d0: f64 = 0
  let d1: f64 = 0
  let d2: f64 = 0
  for (let held = 0; held <= 3; held++) {
    // elimination on those that are free; the others move as they do
    const b0 = free0 ? -e0 - ((free1 ? 0 : a01 * d1) + (free2 ? 0 : a02 * d2)) : d0
    const b1 = free1 ? -e1 - ((free0 ? 0 : a01 * d0) + (free2 ? 0 : a12 * d2)) : d1
    const b2 = free2 ? -e2 - ((free0 ? 0 : a02 * d0) + (free1 ? 0 : a12 * d1)) : d2
    const m01 = free0 && free1 ? a01 : 0
    const m02 = free0 && free2 ? a02 : 0
    const k0 = free0 ? 1 / recorded(MATRIX) : 1
    const m12 = (free1 && free2 ? a12 : 0) - m01 * k0 * m02
    const k1 = 1 / (free1 ? recorded(MATRIX + 1) - m01 * k0 * m01 : 1)
    const rest = b1 - m01 * k0 * b0
    d2 = (b2 - m02 * k0 * b0 - m12 * k1 * rest) / ((free2 ? recorded(MATRIX + 2) - m02 * k0 * m02 : 1) - m12 * k1 * m12)
    d1 = (rest - m12 * d2) * k1
    d0 = (b0 - m01 * d1 - m02 * d2) * k0
    const leaves0 = free0 && (x0 + d0 > h0 || x0 + d0 < -h0)
    const leaves1 = free1 && (x1 + d1 > h1 || x1 + d1 < -h1)
    const leaves2 = free2 && (x2 + d2 > h2 || x2 + d2 < -h2)
    if (!(leaves0 || leaves1 || leaves2)) break
    if (leaves0) d0 = (d0 > 0 ? h0 : -h0) - x0
    if (leaves1) d1 = (d1 > 0 ? h1 : -h1) - x1
    if (leaves2) d2 = (d2 > 0 ? h2 : -h2) - x2
    free0 = free0 && !leaves0
    free1 = free1 && !leaves1
    free2 = free2 && !leaves2
  }
  keep(POINT, free0 ? x0 + d0 : x0 + d0 > 0 ? h0 : -h0)
  keep(POINT + 1, free1 ? x1 + d1 : x1 + d1 > 0 ? h1 : -h1)
  keep(POINT + 2, free2 ? x2 + d2 : x2 + d2 > 0 ? h2 : -h2)
}
