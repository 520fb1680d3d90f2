import * as boxColumns from "./box-record.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { BOX_Q, BOX_W, BOX_UP, BOX_H, DISC_RADIUS, DISC_HALF, PLANE_NEAREST, PLACE, CHANGE, STILL, AXIS } = boxColumns
const { POINT, BEST, APART, SQUARED, SLACK, BESIDE, STIFF_UP, STIFF_OUT, STIFF_ROUND, MATRIX } = boxColumns

/**
 * Distance between a box and a level disc that stands still, proven:
 *
 *   e(x)      the way from the disc's nearest point to x, a point of the box; half its square has the slope e and no dents
 *   at least  in the direction of e all of the box is as far from the disc as |e| - slack / |e|, slack = sum |e_i| h_i + e_i x_i
 *
 * Steps are Newton's: half the square is stiff by 1 along the axis where x is over or under the disc, by 1 outward where it
 * is beside it and by 1 - R / rho round it, rho its distance from the axis. What leaves the box on the way to the least is
 * held at its face. As the stiffness jumps where x passes from over the disc to beside it, a step may lead farther off, and
 * the next ones back; where some do not, the best point is gone back to, and steps are shortened by more stiffness: by as
 * much as there can be at most, if need be, and that one leads nearer. Half of all discs ask for no step: the start, the
 * box's nearest to what of the disc lies farthest toward the box's nearest to the disc's middle, is proven.
 */

/** Known to this, m; after so many steps, where disc and face lie all but flat on each other, four times that will do. */
const EXACTLY = 5e-10
const ROUGHLY = 2e-9
const PATIENCE = 100
/** Closer than this, m, they overlap. */
const TOUCHES = 1e-9
/** What a distance may be off by in its last digits, m. */
const ROUNDING = 1e-16
/** Slack that no step lessens and that may be all rounding, m²: it counts where they all but touch, within 1e-6 m. */
const SLIGHT = 1e-15
/** Steps that may end farther off than the best, one after the other; one that leads farther off counts for ten. */
const WANDERS = 80
const ASTRAY = 10
/** More stiffness, of the most there can be: to begin with, and what is none. */
const DAMPED = 1e-9
const UNDAMPED = 1e-10
/** The same where there is none at all, that nothing is divided by zero. */
const NOTHING = 1e-13
/** Trials by the million took less than a tenth of these. */
const MOST_STEPS = 10_000

/**
 * Fills PLANE_NEAREST of a record for the disc at PLACE of the path in `row`, 0 where it overlaps the box, and CHANGE: how
 * much farther it is a unit of s on. Throws a RangeError where that cannot be proven, as no trial did.
 */
export function distanceStill(box: Float64Array, row: Float64Array): void {
  box[CHANGE] = 0
  box[PLANE_NEAREST] = 0
  if (overlapsAtStart(box, row)) return
  let least = Number.POSITIVE_INFINITY
  let slack = Number.POSITIVE_INFINITY
  let before = Number.POSITIVE_INFINITY
  let wandered = 0
  let damping = 0
  let returned = false
  for (let step = 0; step < MOST_STEPS; step++) {
    look(box)
    const squared = box[SQUARED]!
    const distance = Math.sqrt(squared)
    if (distance < TOUCHES) return
    if (box[SLACK]! <= (step < PATIENCE ? EXACTLY : ROUGHLY) * distance) {
      found(box, row)
      return
    }
    if (squared < least || (squared <= least + ROUNDING * distance && box[SLACK]! < 0.5 * slack)) {
      least = Math.min(least, squared)
      slack = Math.min(slack, box[SLACK]!)
      for (let i = 0; i < 3; i++) box[BEST + i] = box[POINT + i]!
      wandered = 0
      if (!returned) damping = damping < UNDAMPED ? 0 : 0.1 * damping
      returned = false
    } else if (damping === 0 && wandered < WANDERS) wandered += squared < before ? 1 : ASTRAY
    else {
      for (let i = 0; i < 3; i++) box[POINT + i] = box[BEST + i]!
      look(box)
      if (damping === 1 && box[SLACK]! <= SLIGHT) {
        found(box, row)
        return
      }
      wandered = 0
      damping = damping === 1 ? 0 : damping === 0 ? DAMPED : Math.min(1, 10 * damping)
      returned = true
    }
    before = squared
    takeStep(box, damping)
  }
  const rule = "Cannot find how far the puck is from a part as path and part must be finite numbers"
  throw new RangeError(`${rule}: current distance is ${Math.sqrt(least)} m`)
}

/** Takes what was last looked at for the distance. */
function found(box: Float64Array, row: Float64Array): void {
  const distance = Math.sqrt(box[SQUARED]!)
  const along = box[APART]! * row[BOX_W]! + box[APART + 1]! * row[BOX_W + 1]! + box[APART + 2]! * row[BOX_W + 2]!
  box[PLANE_NEAREST] = distance
  box[CHANGE] = -along / distance
}

/** Whether the box's nearest point to the disc's middle lies in the disc; otherwise fills POINT with where to start. */
function overlapsAtStart(box: Float64Array, row: Float64Array): boolean {
  const s = box[PLACE]!
  const p0 = row[BOX_Q]! + s * row[BOX_W]!
  const p1 = row[BOX_Q + 1]! + s * row[BOX_W + 1]!
  const p2 = row[BOX_Q + 2]! + s * row[BOX_W + 2]!
  const h0 = box[BOX_H]!
  const h1 = box[BOX_H + 1]!
  const h2 = box[BOX_H + 2]!
  const radius = box[DISC_RADIUS]!
  const half = box[DISC_HALF]!
  let u0 = row[BOX_UP]!
  let u1 = row[BOX_UP + 1]!
  let u2 = row[BOX_UP + 2]!
  const unit = 1 / Math.sqrt(u0 * u0 + u1 * u1 + u2 * u2)
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
  const rim = level > 0 ? radius / Math.sqrt(level) : 0
  const face = up > 0 ? half : up < 0 ? -half : 0
  const x0 = p0 + rim * l0 + face * u0
  const x1 = p1 + rim * l1 + face * u1
  const x2 = p2 + rim * l2 + face * u2
  box[STILL] = p0
  box[STILL + 1] = p1
  box[STILL + 2] = p2
  box[AXIS] = u0
  box[AXIS + 1] = u1
  box[AXIS + 2] = u2
  box[POINT] = x0 > h0 ? h0 : x0 < -h0 ? -h0 : x0
  box[POINT + 1] = x1 > h1 ? h1 : x1 < -h1 ? -h1 : x1
  box[POINT + 2] = x2 > h2 ? h2 : x2 < -h2 ? -h2 : x2
  return false
}

/** How POINT lies to the disc: APART, SQUARED, SLACK and what a step needs of it. */
function look(box: Float64Array): void {
  const x0 = box[POINT]!
  const x1 = box[POINT + 1]!
  const x2 = box[POINT + 2]!
  const u0 = box[AXIS]!
  const u1 = box[AXIS + 1]!
  const u2 = box[AXIS + 2]!
  const y0 = x0 - box[STILL]!
  const y1 = x1 - box[STILL + 1]!
  const y2 = x2 - box[STILL + 2]!
  const up = y0 * u0 + y1 * u1 + y2 * u2
  const l0 = y0 - up * u0
  const l1 = y1 - up * u1
  const l2 = y2 - up * u2
  const rho = Math.sqrt(l0 * l0 + l1 * l1 + l2 * l2)
  const radius = box[DISC_RADIUS]!
  const half = box[DISC_HALF]!
  const over = up > half ? up - half : up < -half ? up + half : 0
  const out = rho > radius ? rho - radius : 0
  const unit = out > 0 ? 1 / rho : 0
  const n0 = l0 * unit
  const n1 = l1 * unit
  const n2 = l2 * unit
  const e0 = over * u0 + out * n0
  const e1 = over * u1 + out * n1
  const e2 = over * u2 + out * n2
  box[APART] = e0
  box[APART + 1] = e1
  box[APART + 2] = e2
  box[SQUARED] = over * over + out * out
  box[SLACK] =
    Math.abs(e0) * box[BOX_H]! +
    e0 * x0 +
    (Math.abs(e1) * box[BOX_H + 1]! + e1 * x1) +
    (Math.abs(e2) * box[BOX_H + 2]! + e2 * x2)
  box[BESIDE] = n0
  box[BESIDE + 1] = n1
  box[BESIDE + 2] = n2
  box[STIFF_UP] = over === 0 ? 0 : 1
  box[STIFF_OUT] = out > 0 ? 1 : 0
  box[STIFF_ROUND] = out * unit
}

/**
 * Moves POINT to where the square is least within the box if its stiffness stays as it is, but for `damping`: that share of
 * the most.
 */
function takeStep(box: Float64Array, damping: number): void {
  const u0 = box[AXIS]!
  const u1 = box[AXIS + 1]!
  const u2 = box[AXIS + 2]!
  const n0 = box[BESIDE]!
  const n1 = box[BESIDE + 1]!
  const n2 = box[BESIDE + 2]!
  const left = 1 - damping
  const round = left * box[STIFF_ROUND]!
  const lift = left * box[STIFF_UP]! - round
  const outward = left * box[STIFF_OUT]! - round
  const all = round + damping + NOTHING
  box[MATRIX] = lift * u0 * u0 + outward * n0 * n0 + all
  box[MATRIX + 1] = lift * u1 * u1 + outward * n1 * n1 + all
  box[MATRIX + 2] = lift * u2 * u2 + outward * n2 * n2 + all
  box[MATRIX + 3] = lift * u0 * u1 + outward * n0 * n1
  box[MATRIX + 4] = lift * u0 * u2 + outward * n0 * n2
  box[MATRIX + 5] = lift * u1 * u2 + outward * n1 * n2
  solveWithin(box)
}

/** Moves POINT by what the matrix makes of APART; what leaves the box on the way is held at its face. */
function solveWithin(box: Float64Array): void {
  const x0 = box[POINT]!
  const x1 = box[POINT + 1]!
  const x2 = box[POINT + 2]!
  const h0 = box[BOX_H]!
  const h1 = box[BOX_H + 1]!
  const h2 = box[BOX_H + 2]!
  const e0 = box[APART]!
  const e1 = box[APART + 1]!
  const e2 = box[APART + 2]!
  const a01 = box[MATRIX + 3]!
  const a02 = box[MATRIX + 4]!
  const a12 = box[MATRIX + 5]!

  // what is at a face and pushed outward stays
  let free0 = !((x0 <= -h0 && e0 > 0) || (x0 >= h0 && e0 < 0))
  let free1 = !((x1 <= -h1 && e1 > 0) || (x1 >= h1 && e1 < 0))
  let free2 = !((x2 <= -h2 && e2 > 0) || (x2 >= h2 && e2 < 0))
  let d0 = 0
  let d1 = 0
  let d2 = 0
  for (let held = 0; held <= 3; held++) {
    // elimination on those that are free; the others move as they do
    const b0 = free0 ? -e0 - ((free1 ? 0 : a01 * d1) + (free2 ? 0 : a02 * d2)) : d0
    const b1 = free1 ? -e1 - ((free0 ? 0 : a01 * d0) + (free2 ? 0 : a12 * d2)) : d1
    const b2 = free2 ? -e2 - ((free0 ? 0 : a02 * d0) + (free1 ? 0 : a12 * d1)) : d2
    const m01 = free0 && free1 ? a01 : 0
    const m02 = free0 && free2 ? a02 : 0
    const k0 = free0 ? 1 / box[MATRIX]! : 1
    const m12 = (free1 && free2 ? a12 : 0) - m01 * k0 * m02
    const k1 = 1 / (free1 ? box[MATRIX + 1]! - m01 * k0 * m01 : 1)
    const rest = b1 - m01 * k0 * b0
    d2 = (b2 - m02 * k0 * b0 - m12 * k1 * rest) / ((free2 ? box[MATRIX + 2]! - m02 * k0 * m02 : 1) - m12 * k1 * m12)
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
  box[POINT] = free0 ? x0 + d0 : x0 + d0 > 0 ? h0 : -h0
  box[POINT + 1] = free1 ? x1 + d1 : x1 + d1 > 0 ? h1 : -h1
  box[POINT + 2] = free2 ? x2 + d2 : x2 + d2 > 0 ? h2 : -h2
}
