import { PIECE_START, PIECE_STRIDE, PIECE_T, PIECE_Z } from "./path.ts"
import type { Metres } from "./units.ts"
import { DRAG, GRAVITY, ICE_FRICTION, ICE_RESTITUTION, PUCK_HALF_THICKNESS, SLIDE_THRESHOLD } from "./world.ts"

/** A sliding puck is followed in pieces over which its speed falls to no less than this share. */
const SPEED_KEPT = 0.7

/**
 * A puck meets the ice: turns the state at `row` (height, slope, time, pace) from before into after, and says whether
 * it hops. The vertical speed comes back by the restitution e; below the slide threshold the puck stays on the ice.
 * Friction takes mu times the vertical impulse off the horizontal speed: mu (1 + e) |vz| for a hop, mu |vz| for a
 * puck that stays.
 */
export function landOnIce(world: Float64Array, path: Float64Array, row: number): boolean {
  const horizontal = 1 / path[row + PIECE_T + 1]!
  const down = -path[row + PIECE_Z + 1]! * horizontal
  const up = world[ICE_RESTITUTION]! * down
  const hops = up > world[SLIDE_THRESHOLD]!

  const lost = world[ICE_FRICTION]! * (hops ? down + up : down)
  const left = horizontal > lost ? horizontal - lost : 0
  path[row + PIECE_Z] = world[PUCK_HALF_THICKNESS]!
  path[row + PIECE_Z + 1] = hops && left > 0 ? up / left : 0
  path[row + PIECE_T + 1] = 1 / left
  return hops && left > 0
}

/**
 * Slides the puck from the state at `row` to distance `until` or until it stops, in at most `most` pieces; returns how
 * many. The row behind the last piece starts where the slide ends. Friction and drag, dv/dt = -(mu g + k v²), have a
 * closed form; each piece is the cubic that meets time and pace at its ends.
 */
export function slideOnIce(world: Float64Array, path: Float64Array, row: number, until: Metres, most: number): number {
  const friction = world[ICE_FRICTION]! * world[GRAVITY]!
  const k = world[DRAG]!
  const start = path[row + PIECE_START]!
  let speed = 1 / path[row + PIECE_T + 1]!
  const length = Math.min(until - start, stoppingDistance(friction, k, speed))
  const last = speedAfter(friction, k, speed, length)

  // as many pieces as the fall of speed asks for, each keeping the same share of it
  const wanted = last < speed ? Math.ceil(Math.log(Math.max(last / speed, 1e-3)) / Math.log(SPEED_KEPT)) : 1
  const count = Math.max(1, Math.min(most, wanted))
  const stops = last <= 1e-6 * speed
  const kept = stops ? SPEED_KEPT : (last / speed) ** (1 / count)

  let at = row
  for (let piece = 1; piece <= count; piece++) {
    const ends = piece === count
    const next = ends ? last : speed * kept
    const h = ends ? start + length - path[at + PIECE_START]! : slideLength(friction, k, speed, next)
    slidePiece(path, at, h, slideTime(friction, k, speed, next, h), speed, next)
    path[at + PIECE_STRIDE + PIECE_Z] = world[PUCK_HALF_THICKNESS]!
    speed = next
    at += PIECE_STRIDE
  }
  return count
}

/**
 * Writes one sliding piece and the state behind it: height constant, time cubic. The pace at its end is cut to what a
 * cubic can rise to without first falling; where the puck stops it has no bound, and the cut alone shapes the end.
 */
function slidePiece(path: Float64Array, row: number, h: Metres, lapse: number, from: number, to: number): void {
  const next = row + PIECE_STRIDE
  const p1 = 1 / from
  const mean = lapse / h
  const p2 = Math.min(1 / to, 3 * mean - 2 * p1)
  path[row + PIECE_Z + 1] = 0
  path[row + PIECE_Z + 2] = 0
  path[row + PIECE_Z + 3] = 0
  path[row + PIECE_T + 1] = p1
  path[row + PIECE_T + 2] = (3 * mean - 2 * p1 - p2) / h
  path[row + PIECE_T + 3] = (p1 + p2 - 2 * mean) / (h * h)
  path[next + PIECE_START] = path[row + PIECE_START]! + h
  path[next + PIECE_Z + 1] = 0
  path[next + PIECE_T] = path[row + PIECE_T]! + lapse
  path[next + PIECE_T + 1] = 1 / to
}

/** How far a puck slides before it stops: v² = (v0² + a/k) exp(-2 k d) - a/k set to zero, a = mu g. */
export function stoppingDistance(friction: number, k: number, speed: number): Metres {
  if (friction <= 0) return Number.POSITIVE_INFINITY
  return slideLength(friction, k, speed, 0)
}

/** Distance over which friction and drag bring the speed from `from` to `to`; the limit k = 0 is (v0² - v1²) / 2a. */
function slideLength(friction: number, k: number, from: number, to: number): Metres {
  const x = (k * (from * from - to * to)) / (friction + k * to * to)
  const free = (from * from - to * to) / (2 * (friction + k * to * to))
  return x < 1e-9 ? free : free * (Math.log1p(x) / x)
}

/** Speed after a slide of length d. */
function speedAfter(friction: number, k: number, speed: number, d: Metres): number {
  const x = 2 * k * d
  const fade = x < 1e-9 ? 1 : -Math.expm1(-x) / x
  const squared = speed * speed * Math.exp(-x) - 2 * friction * d * fade
  return squared > 0 ? Math.sqrt(squared) : 0
}

/** Time from speed `from` to `to` over length h: atan form of the integral of dv / (a + k v²); v0 = v1 moves evenly. */
function slideTime(friction: number, k: number, from: number, to: number, h: Metres): number {
  if (from <= to) return h / from
  const r = (from - to) / (friction + k * from * to)
  const x = r * Math.sqrt(friction * k)
  return x < 1e-9 ? r : (r * Math.atan(x)) / x
}
