import type { Seconds } from "../units.ts"
import * as course from "./course.ts"
import { LEG_ENDS, LEG_STARTS, legSpeed, passTime } from "./timing.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { LEG_COUNT, LEG_FLIES, LEG_KIND, LEG_PASS, LEG_STRIDE, LEG_X, LEG_Y, LEGS, START_X, START_Y } = course

/** One shot of a play: its branch, where it is taken, its clock and its draws of the PLAY stream, each from a place on. */
export interface PlayedShot {
  readonly branch: number
  readonly x: number
  readonly y: number
  readonly clock: Float64Array
  readonly clockAt: number
  readonly draws: Float64Array
  readonly drawsAt: number
}

/** Halvings that find how far a pass has come: 20 m to less than a micrometre. */
const HALVINGS = 26

/**
 * Writes where the puck is at time t, s from the release, to `out` [2]. A carry is even; a pass slows as its arrival is
 * timed: the way it has gone is the one that takes so long. Between legs the puck waits on the stick, and from the
 * release on it is where the shot is taken.
 */
export function puckAt(world: Float64Array, play: Float64Array, shot: PlayedShot, t: Seconds, out: Float64Array): void {
  const { branch, clock, clockAt, draws, drawsAt } = shot
  const count = play[branch + LEG_COUNT]!
  // a shot at once starts where it is taken
  let px = count > 0 ? play[branch + START_X]! : shot.x
  let py = count > 0 ? play[branch + START_Y]! : shot.y
  for (let k = 0; k < count; k++) {
    const starts = clock[clockAt + LEG_STARTS + k]!
    if (t < starts) break
    const leg = branch + LEGS + k * LEG_STRIDE
    const last = k === count - 1
    const ex = last ? shot.x : play[leg + LEG_X]!
    const ey = last ? shot.y : play[leg + LEG_Y]!
    const ends = clock[clockAt + LEG_ENDS + k]!
    if (t < ends) {
      const distance = Math.sqrt((ex - px) * (ex - px) + (ey - py) * (ey - py))
      const isPass = play[leg + LEG_KIND] === LEG_PASS
      const gone = isPass
        ? passedIn(world, legSpeed(play, leg, k, draws, drawsAt), play[leg + LEG_FLIES]!, distance, t - starts)
        : (t - starts) / (ends - starts)
      px += gone * (ex - px)
      py += gone * (ey - py)
      break
    }
    px = ex
    py = ey
  }
  out[0] = px
  out[1] = py
}

/** Share of its way that a pass has come in the time. */
function passedIn(world: Float64Array, speed: number, flies: number, distance: number, time: Seconds): number {
  let least = 0
  let most = 1
  for (let i = 0; i < HALVINGS; i++) {
    const middle = 0.5 * (least + most)
    if (passTime(world, speed, flies, middle * distance, distance) <= time) least = middle
    else most = middle
  }
  return 0.5 * (least + most)
}
