import { saucerArrival, slidingArrival } from "../motion/pass.ts"
import type { Seconds } from "../units.ts"
import { DRAG, GRAVITY, ICE_FRICTION } from "../world.ts"
import * as course from "./course.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const {
  DRAW_LEG,
  LEG_COUNT,
  LEG_FLIES,
  LEG_KIND,
  LEG_PASS,
  LEG_SPEED,
  LEG_SPEED_SD,
  LEG_STRIDE,
  LEG_WAIT,
  LEG_WAIT_SPREAD,
  LEG_X,
  LEG_Y,
  LEGS,
  START_X,
  START_Y,
} = course

/** Slowest pass that is played and slowest carry, m/s. */
const SLOWEST_PASS = 3
const SLOWEST_CARRY = 0.2

/** Columns of a shot's clock: when each leg starts and ends, s from the release, so negative; the first is the play's start. */
export const LEG_STARTS = 0
export const LEG_ENDS = course.MOST_LEGS
export const CLOCK_LENGTH = 2 * course.MOST_LEGS

/**
 * Writes when each leg of a branch starts and ends for one shot to `clock` from `to` on, the release being 0. The shot is
 * taken at (x, y); `draws` from `at` on are its draws of the PLAY stream. Returns whether the puck gets there: a pass may
 * stop on its way, and then the clock means nothing.
 */
export function timePlay(
  world: Float64Array,
  play: Float64Array,
  branch: number,
  x: number,
  y: number,
  draws: Float64Array,
  at: number,
  clock: Float64Array,
  to: number,
): boolean {
  const count = play[branch + LEG_COUNT]!
  let px = play[branch + START_X]!
  let py = play[branch + START_Y]!
  let now = 0
  for (let k = 0; k < count; k++) {
    const leg = branch + LEGS + k * LEG_STRIDE
    const last = k === count - 1
    const ex = last ? x : play[leg + LEG_X]!
    const ey = last ? y : play[leg + LEG_Y]!
    const distance = Math.sqrt((ex - px) * (ex - px) + (ey - py) * (ey - py))
    const speed = legSpeed(play, leg, k, draws, at)
    const takes =
      play[leg + LEG_KIND] === LEG_PASS ? passTime(world, speed, play[leg + LEG_FLIES]!, distance) : distance / speed
    if (takes === Number.POSITIVE_INFINITY) return false
    clock[to + LEG_STARTS + k] = now
    clock[to + LEG_ENDS + k] = now + takes
    now += takes + play[leg + LEG_WAIT]! * Math.exp(play[leg + LEG_WAIT_SPREAD]! * draws[at + DRAW_LEG + 2 * k + 1]!)
    px = ex
    py = ey
  }
  for (let k = 0; k < count; k++) {
    clock[to + LEG_STARTS + k]! -= now
    clock[to + LEG_ENDS + k]! -= now
  }
  return true
}

/** Speed at the start of leg k, whose row is `leg`, of the shot whose draws start at `at`: no slower than is played. */
export function legSpeed(play: Float64Array, leg: number, k: number, draws: Float64Array, at: number): number {
  const drawn = play[leg + LEG_SPEED]! + play[leg + LEG_SPEED_SD]! * draws[at + DRAW_LEG + 2 * k]!
  const slowest = play[leg + LEG_KIND] === LEG_PASS ? SLOWEST_PASS : SLOWEST_CARRY
  return drawn > slowest ? drawn : slowest
}

/**
 * Time a pass takes over `distance`, sliding or flying first; Infinity when it stops on the way. A pass that is looked at
 * on its way is `aimed` farther.
 */
export function passTime(
  world: Float64Array,
  speed: number,
  flies: number,
  distance: number,
  aimed = distance,
): Seconds {
  return flies > 0
    ? saucerArrival(world[GRAVITY]!, world[ICE_FRICTION]!, world[DRAG]!, speed, Math.min(flies, aimed), distance)
    : slidingArrival(world[ICE_FRICTION]! * world[GRAVITY]!, world[DRAG]!, speed, distance)
}
