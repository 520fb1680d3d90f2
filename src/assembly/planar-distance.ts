import { DISC_RADIUS, HAND, HAND_ACROSS, HAND_SHIFT, HAND_SQUARE, HAND_START, HAND_UP } from "../sim/compiled/layout.ts"
import { NUMBER } from "./tables.ts"

/** The same as in sim/planar-distance.ts. */
const NOTHING: f64 = 1e-8
const SQUARE: f64 = 1e-24
const FLAT: f64 = 1e-20
const MOST_STEPS: i32 = 48
const NO_CORNER: i32 = -1
const STRAIGHT: i32 = 1
const TURNED: i32 = 2
/** Bytes of two numbers side by side. */
const PAIR = 2 * NUMBER

// @ts-ignore: decorator
@inline
function acrossOf(i: i32): f64 {
  return load<f64>(HAND + HAND_ACROSS + i * NUMBER)
}

// @ts-ignore: decorator
@inline
function upOf(i: i32): f64 {
  return load<f64>(HAND + HAND_UP + i * NUMBER)
}

// @ts-ignore: decorator
@inline
function sum(v: v128): f64 {
  return f64x2.extract_lane(v, 0) + f64x2.extract_lane(v, 1)
}

/** Distance of a point from box and disc as seen along the path, see sim/planar-distance.ts. */
export function distanceInPlane(x: f64, y: f64, tilt: f64): f64 {
  const a01 = v128.load(HAND + HAND_ACROSS)
  const a23 = v128.load(HAND + HAND_ACROSS, PAIR)
  const b01 = v128.load(HAND + HAND_UP)
  const b23 = v128.load(HAND + HAND_UP, PAIR)
  const minus = i64x2.splat(i64.MIN_VALUE)
  const zero = f64x2.splat(0)
  const radius = load<f64>(DISC_RADIUS)
  let begun = beginSearch(x, y)
  let c = load<f64>(HAND + HAND_START)
  let s = load<f64>(HAND + HAND_START, NUMBER)

  let right = NO_CORNER
  let rightBowX: f64 = 0
  let rightBowY: f64 = 0
  let rightC: f64 = 0
  let rightS: f64 = 0
  let left = NO_CORNER
  let leftBowX: f64 = 0
  let leftBowY: f64 = 0
  let leftC: f64 = 0
  let leftS: f64 = 0
  let outside = false
  let wasRight = false
  for (let step = 0; step < MOST_STEPS; step++) {
    // the corner that lies farthest in n
    const cs = f64x2.splat(c)
    const ss = f64x2.splat(s)
    const d01 = f64x2.add(f64x2.mul(cs, a01), f64x2.mul(ss, b01))
    const d23 = f64x2.add(f64x2.mul(cs, a23), f64x2.mul(ss, b23))
    const ahead01 = f64x2.gt(d01, zero)
    const ahead23 = f64x2.gt(d23, zero)
    let corner = i64x2.bitmask(ahead01) | (i64x2.bitmask(ahead23) << 2)
    const minus01 = v128.andnot(minus, ahead01)
    const minus23 = v128.andnot(minus, ahead23)
    const vxs = f64x2.add(v128.xor(a01, minus01), v128.xor(a23, minus23))
    const vys = f64x2.add(v128.xor(b01, minus01), v128.xor(b23, minus23))
    const bend = c * c + tilt * s * s
    const nn = c * c + s * s
    const bow = bend > FLAT * nn ? radius / sqrt(bend) : 0
    let rx = x - sum(vxs) - bow * c
    let ry = y - sum(vys) - bow * tilt * s
    const gain = c * rx + s * ry
    let t = c * ry - s * rx
    let squares = 0
    const square = f64x2.splat(SQUARE * nn)
    const none01 = f64x2.lt(f64x2.mul(d01, d01), square)
    if (v128.any_true(v128.or(none01, f64x2.lt(f64x2.mul(d23, d23), square))) || bow == 0) {
      shiftSquare(c, s, t, corner, bow == 0 ? radius : 0)
      const bowed = load<f64>(HAND + HAND_SHIFT)
      t = load<f64>(HAND + HAND_SHIFT, NUMBER)
      rx += bowed * s
      ry -= bowed * c
      corner = load<i32>(HAND + HAND_SHIFT, 2 * NUMBER)
      squares = load<i32>(HAND + HAND_SHIFT, 2 * NUMBER + 4)
    }
    if (gain > 0) {
      if (t * t <= NOTHING * gain * gain) {
        store<f64>(HAND + HAND_START, c)
        store<f64>(HAND + HAND_START, s, NUMBER)
        store<i32>(HAND + HAND_SQUARE, squares)
        return sqrt((gain * gain + t * t) / nn)
      }
      outside = true
    } else if (begun == TURNED && t * t <= NOTHING * gain * gain) break

    const flipped = t > 0 != wasRight
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
    const curve = bow > 0 ? (bow * tilt * nn) / bend : 0
    let nx = rx + curve * c
    let ny = ry + curve * s
    if (right == NO_CORNER || left == NO_CORNER) {
      if (!(gain > 0)) {
        if (begun == TURNED) break
        if (begun == STRAIGHT) {
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
      if (!outside && (x - rightBowX) * chordY - (y - rightBowY) * chordX <= 0) break
      if (right != left) {
        const differ = right ^ left
        const sign: f64 = (left & (differ & -differ)) == 0 ? -1 : 1
        nx = sign * upOf(ctz(differ))
        ny = -sign * acrossOf(ctz(differ))
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
  return 0
}

/** Where the search begins, see sim/planar-distance.ts. */
// @ts-ignore: decorator
@inline
function beginSearch(x: f64, y: f64): i32 {
  const c = load<f64>(HAND + HAND_START)
  const s = load<f64>(HAND + HAND_START, NUMBER)
  const ahead = c * x + s * y > 0
  const squares = load<i32>(HAND + HAND_SQUARE)
  if (ahead && squares == 0) return 0
  store<i32>(HAND + HAND_SQUARE, 0)
  let i = 3
  if (ahead) i = ctz(squares)
  else {
    let longest: f64 = 0
    for (let j = 0; j < 3; j++) {
      const squared = acrossOf(j) * acrossOf(j) + upOf(j) * upOf(j)
      if (squared > longest) {
        longest = squared
        i = j
      }
    }
  }
  const gx = acrossOf(i)
  const gy = upOf(i)
  const turn: f64 = gy * (ahead ? c : x) - gx * (ahead ? s : y) > 0 ? 1 : -1
  const nx = turn * gy
  const ny = -turn * gx
  if (nx * x + ny * y > 0) {
    store<f64>(HAND + HAND_START, nx)
    store<f64>(HAND + HAND_START, ny, NUMBER)
    return 0
  }
  if (ahead) return 0
  store<f64>(HAND + HAND_START, x != 0 || y != 0 ? x : 1)
  store<f64>(HAND + HAND_START, y, NUMBER)
  return STRAIGHT
}

/** Of the segments square to n, the ends toward the point, see sim/planar-distance.ts. */
function shiftSquare(c: f64, s: f64, slope: f64, name: i32, level: f64): void {
  const unit = 1 / sqrt(c * c + s * s)
  const square = SQUARE * (c * c + s * s)
  let squares = 0
  let slack: f64 = 0
  let taken: f64 = 0
  let leftward = 0
  for (let i = 0; i < 4; i++) {
    const gx = acrossOf(i)
    const gy = upOf(i)
    const far = c * gx + s * gy
    if (far * far >= square) continue
    const along = (c * gy - s * gx) * unit
    if (along == 0) continue
    const bit = 1 << i
    squares |= bit
    if (along > 0) leftward |= bit
    slack += along > 0 ? along : -along
    taken += (name & bit) == 0 ? -along : along
  }
  const middle = slope * unit + taken
  const most = slack + level
  const side: f64 = middle > most ? 1 : middle < -most ? -1 : 0
  store<f64>(HAND + HAND_SHIFT, (side * most - taken) * unit)
  store<f64>(HAND + HAND_SHIFT, side == 0 ? 0 : (middle - side * most) / unit, NUMBER)
  store<i32>(HAND + HAND_SHIFT, (name & ~squares) | (side < 0 ? squares & ~leftward : leftward), 2 * NUMBER)
  store<i32>(HAND + HAND_SHIFT, squares, 2 * NUMBER + 4)
}
