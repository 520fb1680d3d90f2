import * as boxColumns from "./box-record.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { DISC_RADIUS, PLANE_X, PLANE_Y, PLANE_A, PLANE_B, PLANE_TILT, PLANE_NEAREST } = boxColumns
const { START_C, START_S, START_SQUARE, SHIFT, SHIFT_SLOPE, SHIFT_CORNER, SHIFT_SQUARE } = boxColumns

/**
 * Distance of a point from the shape that box and disc make together, seen along the path (see rounded-box.ts):
 *
 *   shape      the sum of four segments, from -g to g, and of an ellipse of half axes R and R sqrt(tilt)
 *   extent     in the direction n = (c, s): sum |n g| + R sqrt(c² + tilt s²)
 *   distance   the most that n point - extent(n) comes to for any n, and zero at least
 *
 * Where that is more than zero it has one maximum: there n points from the shape's nearest corner or bow to the point, or
 * is square to one of its edges. The slope along the circle, t = n x (point - corner), tells on which side of n it lies.
 * The length of n does not matter.
 * Steps are Newton's; once two of them have it between them and found different corners, square to the line through both,
 * which is square to the edge where one lies between them.
 */

/** Squared tangent of the angle between n and the way from the corner to the point that is none: half of it, of the distance. */
const NOTHING = 1e-8
/** A segment that reaches less far than this in n, m, is square to it: both its ends lie farthest. Squared. */
const SQUARE = 1e-24
/** The disc of a level path is square to an n closer to upright than this, as a squared sine. */
const FLAT = 1e-20
const MOST_STEPS = 48
const NO_CORNER = -1
/** Begun straight at the point; turned a quarter from there. */
const STRAIGHT = 1
const TURNED = 2

/** Fills PLANE_NEAREST of a record: zero where the point is in the shape. */
export function distanceInPlane(box: Float64Array): void {
  const x = box[PLANE_X]!
  const y = box[PLANE_Y]!
  const a0 = box[PLANE_A]!
  const a1 = box[PLANE_A + 1]!
  const a2 = box[PLANE_A + 2]!
  const b0 = box[PLANE_B]!
  const b1 = box[PLANE_B + 1]!
  const b2 = box[PLANE_B + 2]!
  const b3 = box[PLANE_B + 3]!
  const tilt = box[PLANE_TILT]!
  const radius = box[DISC_RADIUS]!
  let begun = beginSearch(box, x, y)
  let c = box[START_C]!
  let s = box[START_S]!

  // on either side of the best n: its corner's name, the corner without the bow of the disc and with it, and n
  let right = NO_CORNER
  let rightBowX = 0
  let rightBowY = 0
  let rightC = 0
  let rightS = 0
  let left = NO_CORNER
  let leftBowX = 0
  let leftBowY = 0
  let leftC = 0
  let leftS = 0
  let outside = false
  let wasRight = false
  for (let step = 0; step < MOST_STEPS; step++) {
    // the corner that lies farthest in n
    const d0 = c * a0 + s * b0
    const d1 = c * a1 + s * b1
    const d2 = c * a2 + s * b2
    const d3 = s * b3
    let corner = (d0 > 0 ? 1 : 0) | (d1 > 0 ? 2 : 0) | (d2 > 0 ? 4 : 0) | (d3 > 0 ? 8 : 0)
    const vx = (d0 > 0 ? a0 : -a0) + (d2 > 0 ? a2 : -a2) + (d1 > 0 ? a1 : -a1)
    const vy = (d0 > 0 ? b0 : -b0) + (d2 > 0 ? b2 : -b2) + ((d1 > 0 ? b1 : -b1) + (d3 > 0 ? b3 : -b3))
    const bend = c * c + tilt * s * s
    const nn = c * c + s * s
    const bow = bend > FLAT * nn ? radius / Math.sqrt(bend) : 0
    let rx = x - vx - bow * c
    let ry = y - vy - bow * tilt * s
    const gain = c * rx + s * ry
    let t = c * ry - s * rx
    let squares = 0
    const square = SQUARE * nn
    if (d0 * d0 < square || d1 * d1 < square || d2 * d2 < square || d3 * d3 < square || bow === 0) {
      // what is square to n has two ends: the one toward the point
      shiftSquare(box, c, s, t, corner, bow === 0 ? radius : 0)
      t = box[SHIFT_SLOPE]!
      rx += box[SHIFT]! * s
      ry -= box[SHIFT]! * c
      corner = box[SHIFT_CORNER]!
      squares = box[SHIFT_SQUARE]!
    }
    if (gain > 0) {
      if (t * t <= NOTHING * gain * gain) {
        box[START_C] = c
        box[START_S] = s
        box[START_SQUARE] = squares
        box[PLANE_NEAREST] = Math.sqrt((gain * gain + t * t) / nn)
        return
      }
      outside = true
    } else if (begun === TURNED && t * t <= NOTHING * gain * gain) break

    const flipped = t > 0 !== wasRight
    wasRight = t > 0
    if (wasRight) {
      right = corner
      rightBowX = x - rx
      rightBowY = y - ry
      rightC = c
      rightS = s
    } else {
      left = corner
      leftBowX = x - rx
      leftBowY = y - ry
      leftC = c
      leftS = s
    }
    // Newton's step: the bow's radius of curvature turns the corner with n
    const curve = bow > 0 ? (bow * tilt * nn) / bend : 0
    let nx = rx + curve * c
    let ny = ry + curve * s
    if (right === NO_CORNER || left === NO_CORNER) {
      if (!(gain > 0)) {
        // straight at the point; from there the best n lies on that side, within a quarter turn
        if (begun === TURNED) break
        if (begun === STRAIGHT) {
          nx = wasRight ? -s : s
          ny = wasRight ? c : -c
          begun = TURNED
        } else {
          nx = x
          ny = y
          begun = STRAIGHT
          right = left = NO_CORNER
        }
      }
    } else {
      const chordX = leftBowX - rightBowX
      const chordY = leftBowY - rightBowY
      // no n so far said outside, and the line through both corners says inside
      if (!outside && (x - rightBowX) * chordY - (y - rightBowY) * chordX <= 0) break
      if (right !== left) {
        // square to the first segment of which they have different ends
        const differ = right ^ left
        const i = differ & 1 ? 0 : differ & 2 ? 1 : differ & 4 ? 2 : 3
        const sign = (left & (differ & -differ)) === 0 ? -1 : 1
        nx = sign * box[PLANE_B + i]!
        ny = -sign * box[PLANE_A + i]!
      } else if (
        chordX * chordX + chordY * chordY > SQUARE &&
        (flipped || !(gain > 0 && rightC * ny - rightS * nx > 0 && nx * leftS - ny * leftC > 0))
      ) {
        nx = chordY
        ny = -chordX
      }
    }
    c = nx
    s = ny
  }
  box[PLANE_NEAREST] = 0
}

/**
 * Where the search begins: where the last one ended, square to the same segment if there was one; for want of that, square
 * to the longest. STRAIGHT at the point where neither has it before it.
 */
function beginSearch(box: Float64Array, x: number, y: number): number {
  const c = box[START_C]!
  const s = box[START_S]!
  const ahead = c * x + s * y > 0
  const squares = box[START_SQUARE]!
  if (ahead && squares === 0) return 0
  box[START_SQUARE] = 0
  let i = 3
  if (ahead) i = squares & 1 ? 0 : squares & 2 ? 1 : squares & 4 ? 2 : 3
  else {
    let longest = 0
    for (let j = 0; j < 3; j++) {
      const squared = box[PLANE_A + j]! * box[PLANE_A + j]! + box[PLANE_B + j]! * box[PLANE_B + j]!
      if (squared > longest) {
        longest = squared
        i = j
      }
    }
  }
  const gx = box[PLANE_A + i]!
  const gy = box[PLANE_B + i]!
  const turn = gy * (ahead ? c : x) - gx * (ahead ? s : y) > 0 ? 1 : -1
  const nx = turn * gy
  const ny = -turn * gx
  if (nx * x + ny * y > 0) {
    box[START_C] = nx
    box[START_S] = ny
    return 0
  }
  if (ahead) return 0
  box[START_C] = x !== 0 || y !== 0 ? x : 1
  box[START_S] = y
  return STRAIGHT
}

/**
 * Of the segments square to n, and of a level disc, the ends toward the point: how far the corner moves to the left for them,
 * without the disc and with it, its slope t there, zero where the point lies between the ends, and its name.
 */
function shiftSquare(box: Float64Array, c: number, s: number, slope: number, name: number, level: number): void {
  const unit = 1 / Math.sqrt(c * c + s * s)
  const square = SQUARE * (c * c + s * s)
  let squares = 0
  let slack = 0
  let taken = 0
  let leftward = 0
  for (let i = 0; i < 4; i++) {
    const gx = box[PLANE_A + i]!
    const gy = box[PLANE_B + i]!
    const far = c * gx + s * gy
    if (far * far >= square) continue
    const along = (c * gy - s * gx) * unit
    if (along === 0) continue
    const bit = 1 << i
    squares |= bit
    if (along > 0) leftward |= bit
    slack += along > 0 ? along : -along
    taken += (name & bit) === 0 ? -along : along
  }
  const middle = slope * unit + taken
  const most = slack + level
  const side = middle > most ? 1 : middle < -most ? -1 : 0
  box[SHIFT_SLOPE] = side === 0 ? 0 : (middle - side * most) / unit
  box[SHIFT] = (side * most - taken) * unit
  box[SHIFT_CORNER] = (name & ~squares) | (side < 0 ? squares & ~leftward : leftward)
  box[SHIFT_SQUARE] = squares
}
