import type { Goalkeeping } from "./answer.ts"
import { OPENS, OPENS_IN } from "./motion/across.ts"
import { BUTTERFLY_SLIDE, MODE_STRIDE, SET } from "./motion/mode.ts"
import { OPENING_LEVELS, pieceAt, TURNING } from "./motion/opening.ts"
import {
  PIECE_MODES,
  STATE_LENGTH,
  STATE_UNSET_FOR,
  STATE_VX,
  STATE_VY,
  stateAt,
  UNSET_FROM,
} from "./motion/timeline.ts"
import { CENTRE, HALF_SIZE, PART_STRIDE, type Posture } from "./parts.ts"
import type { Pose } from "./pose.ts"
import { withUnsetLimbs } from "./prepared.ts"
import { AGAIN_DOWN } from "./rebound/rebound-table.ts"
import type { ShotBatch } from "./shots.ts"
import type { Seconds } from "./units.ts"

/**
 * The referee's own way to the body that meets a shot: it steps back and forth from the release to see since when the
 * goalie has been out of the set stance, when the skates stand still and when the stance is back, and mixes the two
 * bodies number by number. The axes it mixes are made upright only where they are used. Since when a slide has been on its
 * way down it does not step to: that comes with the other clocks of the shot, as setMoment() sets them.
 */

const STEP: Seconds = 0.001
/** Longer than any play, s. */
const LONGEST: Seconds = 60
const HALVINGS = 40
const STANDS_STILL = 1e-9

export function steppedBody(g: Goalkeeping, pose: Pose, batch: ShotBatch): Posture {
  const set = g.scene.postures[pose.posture]!
  const table = g.moves.timeline
  const unsetAt = (t: Seconds): boolean => stateOf(table, t)[STATE_UNSET_FOR]! > 0
  if (!g.moves.travels || !unsetAt(0)) return set
  const posture = withUnsetLimbs(set)
  const { movement } = pose
  if (movement[OPENS] === 0) return posture

  const left = table[UNSET_FROM] === Number.NEGATIVE_INFINITY ? -LONGEST : lastChange(unsetAt, 0, -STEP)
  const back = lastChange(unsetAt, 0, STEP)
  const skates = (t: Seconds): boolean => {
    const state = stateOf(table, t)
    return Math.hypot(state[STATE_VX]!, state[STATE_VY]!) > STANDS_STILL
  }
  const downAgain = batch.again.length > 0 && batch.again[AGAIN_DOWN] === 1
  const planned = table[PIECE_MODES + pieceAt(table, 0)]!
  // who has stayed down since a save has only the slide, whatever the direction
  const mode = downAgain && planned >= 0 ? BUTTERFLY_SLIDE : planned
  const opensIn = movement[OPENS_IN]!
  let closesIn = opensIn
  let until = back
  let travels = false
  if (mode >= 0) {
    const needs = movement[mode * MODE_STRIDE + SET]!
    // the last moment at which the skates still move
    const still = skates(back) ? back : lastChange(skates, back, -STEP)
    travels = 0 < still + needs
    if (travels) {
      closesIn = needs
      until = Math.min(back, still + needs)
    }
  }
  const share = Math.min(1, -left / opensIn, until / closesIn)
  const row = downAgain || mode === BUTTERFLY_SLIDE ? BUTTERFLY_SLIDE : travels ? mode : TURNING
  const open = g.scene.opened[pose.posture]![row]!
  return mixed(posture, open.parts, open.roots, Math.round(share * OPENING_LEVELS) / OPENING_LEVELS)
}

/** Steps from `from` as long as `holds` stays as it is there; the moment of the change, or `end`. */
function lastChange(
  holds: (t: Seconds) => boolean,
  from: Seconds,
  step: Seconds,
  end: Seconds = Math.sign(step) * LONGEST,
): Seconds {
  const here = holds(from)
  let t = from
  while (step > 0 ? t < end : t > end) {
    if (holds(t + step) !== here) {
      let [a, b] = [t, t + step]
      for (let i = 0; i < HALVINGS; i++) {
        const middle = 0.5 * (a + b)
        if (holds(middle) === here) a = middle
        else b = middle
      }
      return b
    }
    t += step
  }
  return end
}

function stateOf(table: Float64Array, t: Seconds): Float64Array {
  const state = new Float64Array(STATE_LENGTH)
  stateAt(table, t, state)
  return state
}

/** Middles and axes between those of two bodies; sizes are the same in both. */
function mixed(set: Posture, parts: Float64Array, roots: Float64Array, share: number): Posture {
  const mix = (own: Float64Array, other: Float64Array, moves: (i: number) => boolean): Float64Array =>
    own.map((number, i) => (moves(i) ? (1 - share) * number + share * other[i]! : number))
  const isPlaced = (i: number): boolean => i % PART_STRIDE < HALF_SIZE && i % PART_STRIDE >= CENTRE
  return { ...set, parts: mix(set.parts, parts, isPlaced), roots: mix(set.roots, roots, () => true) }
}
