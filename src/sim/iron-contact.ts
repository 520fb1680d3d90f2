import { IRON_IN, IRON_OUT, MISS, ON_GOAL } from "./fate.ts"
import { heightAt, MOST_PIECES, PATH_DX, PATH_DY, PATH_PIECES, PIECE_STRIDE, paceAt, slopeAt, timeAt } from "./path.ts"
import type { Metres, Seconds } from "./units.ts"
import {
  BAR_RADIUS,
  GRAVITY,
  IRON_FRICTION,
  IRON_RESTITUTION,
  MOUTH_HALF_WIDTH,
  MOUTH_HEIGHT,
  POST_RADIUS,
  PUCK_HALF_THICKNESS,
  PUCK_RADIUS,
} from "./world.ts"

// the puck near the iron, on a straight line: kept in the spare row of its path
const X = 0
const Y = 1
const Z = 2
const VX = 3
const VY = 4
const VZ = 5
const T = 6

const NO_IRON = 0
const LEFT_POST = 1
const RIGHT_POST = 2
const BAR = 3
const MOST_CONTACTS = 2
/** Rolling along the iron, a disc keeps two thirds of its speed along it: friction takes no more than one third. */
const MOST_FRICTION = 1 / 3

/**
 * Follows a puck that touches iron: off the first cylinder it meets, perhaps off a second, and then in or out. D is
 * where its path crosses the goal line's plane; the crossing at `at` of `out` is moved to the new one when it goes in.
 */
export function reflectOffIron(
  world: Float64Array,
  path: Float64Array,
  offset: number,
  D: Metres,
  out: Float64Array,
  at: number,
): number {
  const puck = offset + PATH_PIECES + PIECE_STRIDE * MOST_PIECES
  const speed = 1 / paceAt(path, offset, D)
  path[puck + X] = 0
  path[puck + Y] = out[at]!
  path[puck + Z] = heightAt(path, offset, D)
  path[puck + VX] = path[offset + PATH_DX]! * speed
  path[puck + VY] = path[offset + PATH_DY]! * speed
  path[puck + VZ] = slopeAt(path, offset, D) * speed
  path[puck + T] = timeAt(path, offset, D)

  // the first contact may lie on either side of the plane, a second one only ahead
  let iron = NO_IRON
  let from = Number.NEGATIVE_INFINITY
  for (let contact = 0; contact < MOST_CONTACTS; contact++) {
    const next = firstIron(world, path, puck, iron, from)
    if (next === NO_IRON) break
    advance(path, puck, contactTime(world, path, puck, next))
    bounce(world, path, puck, next)
    iron = next
    from = 0
  }
  if (iron === NO_IRON) return betweenAxes(world, path[puck + Y]!, path[puck + Z]!) ? ON_GOAL : MISS
  return comesIn(world, path, puck, out, at) ? IRON_IN : IRON_OUT
}

/** Whether the puck, leaving the iron, gets wholly over a line as wide as the posts; writes its crossing if so. */
function comesIn(world: Float64Array, path: Float64Array, puck: number, out: Float64Array, at: number): boolean {
  const vx = path[puck + VX]!
  if (vx >= 0) return false
  const over = Math.max(0, (path[puck + X]! + world[POST_RADIUS]! + world[PUCK_RADIUS]!) / -vx)
  const y = path[puck + Y]! + path[puck + VY]! * over
  const z = path[puck + Z]! + path[puck + VZ]! * over - 0.5 * world[GRAVITY]! * over * over
  if (!betweenAxes(world, y, z)) return false

  const crossing = Math.max(0, path[puck + X]! / -vx)
  const height = path[puck + Z]! + path[puck + VZ]! * crossing - 0.5 * world[GRAVITY]! * crossing * crossing
  out[at] = path[puck + Y]! + path[puck + VY]! * crossing
  out[at + 1] = Math.max(height, world[PUCK_HALF_THICKNESS]!)
  out[at + 2] = path[puck + T]! + crossing
  return true
}

/** Whether a place of the goal line's plane lies between the posts' axes and under the bar's. */
function betweenAxes(world: Float64Array, y: Metres, z: Metres): boolean {
  const between = Math.abs(y) < world[MOUTH_HALF_WIDTH]! + world[POST_RADIUS]!
  return between && z < world[MOUTH_HEIGHT]! + world[BAR_RADIUS]!
}

/** The iron the puck meets first after time `from`, other than the one it has just left. */
function firstIron(world: Float64Array, path: Float64Array, puck: number, left: number, from: Seconds): number {
  let first = NO_IRON
  let soonest = Number.POSITIVE_INFINITY
  for (let iron = LEFT_POST; iron <= BAR; iron++) {
    if (iron === left) continue
    const time = contactTime(world, path, puck, iron)
    if (time >= from && time < soonest) {
      soonest = time
      first = iron
    }
  }
  return first
}

/** When the puck's straight line first touches this iron; Infinity when it never does. */
function contactTime(world: Float64Array, path: Float64Array, puck: number, iron: number): Seconds {
  const axis = world[MOUTH_HALF_WIDTH]! + world[POST_RADIUS]!
  if (iron === BAR) {
    const time = barTime(world, path, puck)
    return Math.abs(path[puck + Y]! + path[puck + VY]! * time) <= axis ? time : Number.POSITIVE_INFINITY
  }
  const postY = iron === RIGHT_POST ? -axis : axis
  const touch = world[PUCK_RADIUS]! + world[POST_RADIUS]!
  const time = circleTime(path[puck + X]!, path[puck + Y]! - postY, path[puck + VX]!, path[puck + VY]!, touch)
  const underside = path[puck + Z]! + path[puck + VZ]! * time - world[PUCK_HALF_THICKNESS]!
  return underside < world[MOUTH_HEIGHT]! + 2 * world[BAR_RADIUS]! ? time : Number.POSITIVE_INFINITY
}

/** When a point moving from (a, b) with velocity (va, vb) enters a circle about the origin; Infinity when never. */
function circleTime(a: Metres, b: Metres, va: number, vb: number, radius: Metres): Seconds {
  const square = va * va + vb * vb
  const dot = a * va + b * vb
  const cross = a * vb - b * va
  const inside = radius * radius * square - cross * cross
  return inside <= 0 ? Number.POSITIVE_INFINITY : (-dot - Math.sqrt(inside)) / square
}

/** When a point moving along one axis pair enters a rectangle about the origin; Infinity when never. */
function rectangleTime(a: Metres, b: Metres, va: number, vb: number, halfA: Metres, halfB: Metres): Seconds {
  const enter = Math.max((-halfA * Math.sign(va) - a) / va, vb === 0 ? -Infinity : (-halfB * Math.sign(vb) - b) / vb)
  const leave = Math.min((halfA * Math.sign(va) - a) / va, vb === 0 ? Infinity : (halfB * Math.sign(vb) - b) / vb)
  const beside = vb === 0 && Math.abs(b) >= halfB
  return enter >= leave || beside ? Number.POSITIVE_INFINITY : enter
}

/**
 * When the disc touches the bar. Seen along the bar the level disc is a rectangle 2R by 2H, so its centre enters that
 * rectangle grown by the bar's radius: two rectangles and a circle at each corner.
 */
function barTime(world: Float64Array, path: Float64Array, puck: number): Seconds {
  const R = world[PUCK_RADIUS]!
  const H = world[PUCK_HALF_THICKNESS]!
  const r = world[BAR_RADIUS]!
  const a = path[puck + X]!
  const b = path[puck + Z]! - world[MOUTH_HEIGHT]! - r
  const va = path[puck + VX]!
  const vb = path[puck + VZ]!
  let time = Math.min(rectangleTime(a, b, va, vb, R + r, H), rectangleTime(a, b, va, vb, R, H + r))
  time = Math.min(time, circleTime(a - R, b - H, va, vb, r), circleTime(a - R, b + H, va, vb, r))
  return Math.min(time, circleTime(a + R, b - H, va, vb, r), circleTime(a + R, b + H, va, vb, r))
}

/** Moves the puck on its straight line. */
function advance(path: Float64Array, puck: number, time: Seconds): void {
  path[puck + X] = path[puck + X]! + path[puck + VX]! * time
  path[puck + Y] = path[puck + Y]! + path[puck + VY]! * time
  path[puck + Z] = path[puck + Z]! + path[puck + VZ]! * time
  path[puck + T] = path[puck + T]! + time
}

/**
 * Turns the velocity at a contact: the part into the iron comes back by the restitution e, friction takes
 * mu (1 + e) |vn| off the part along it, at most a third. The disc stays level.
 */
function bounce(world: Float64Array, path: Float64Array, puck: number, iron: number): void {
  const axis = world[MOUTH_HALF_WIDTH]! + world[POST_RADIUS]!
  const onBar = iron === BAR
  const R = world[PUCK_RADIUS]!
  const H = world[PUCK_HALF_THICKNESS]!

  // from the iron's axis to the nearest point of the disc's middle: the direction it is pushed
  const x = path[puck + X]!
  const up = onBar ? path[puck + Z]! - world[MOUTH_HEIGHT]! - world[BAR_RADIUS]! : 0
  let nx = onBar ? x - Math.max(-R, Math.min(R, x)) : x
  let ny = onBar ? 0 : path[puck + Y]! - (iron === RIGHT_POST ? -axis : axis)
  let nz = onBar ? up - Math.max(-H, Math.min(H, up)) : 0
  const length = Math.sqrt(nx * nx + ny * ny + nz * nz)
  nx /= length
  ny /= length
  nz /= length

  const vx = path[puck + VX]!
  const vy = path[puck + VY]!
  const vz = path[puck + VZ]!
  const into = vx * nx + vy * ny + vz * nz
  const tx = vx - into * nx
  const ty = vy - into * ny
  const tz = vz - into * nz
  const along = Math.sqrt(tx * tx + ty * ty + tz * tz)
  const e = world[IRON_RESTITUTION]!
  const lost = along > 0 ? Math.min(MOST_FRICTION, (world[IRON_FRICTION]! * (1 + e) * -into) / along) : 0
  path[puck + VX] = tx * (1 - lost) - e * into * nx
  path[puck + VY] = ty * (1 - lost) - e * into * ny
  path[puck + VZ] = tz * (1 - lost) - e * into * nz
}
