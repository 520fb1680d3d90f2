import { goAcross, PASS_READING, PASS_READING_SPREAD, VIGOUR_SPREAD } from "../motion/across.ts"
import { openingAt } from "../motion/opening.ts"
import * as timeline from "../motion/timeline.ts"
import { begin } from "../motion/travel.ts"
import type { Posture } from "../parts.ts"
import { DEPTH, type Pose } from "../pose.ts"
import { RECOVERS } from "../rebound/rebound-table.ts"
import * as shotColumns from "../shots.ts"
import * as stationColumns from "../station.ts"
import type { Seconds } from "../units.ts"
import * as course from "./course.ts"
import { followCarry } from "./follow-carry.ts"
import { depthFor, place, standFor } from "./place.ts"
import type { Moves, Played } from "./played.ts"
import * as played from "./played.ts"
import { LEG_ENDS, LEG_STARTS } from "./timing.ts"

export { type Moves, moves, type Played } from "./played.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { LEG_CARRY, LEG_COUNT, LEG_KIND, LEG_STRIDE, LEG_X, LEG_Y, LEGS, START_X, START_Y } = course
const { ENDS, FROM_X, FROM_Y, STARTS, STOPS, TO_X, TO_Y, VIGOUR } = played
const { DRAW_READING, DRAW_VIGOUR } = shotColumns
const { STATION_COS, STATION_SIN, STATION_X, STATION_Y } = stationColumns
const { SET_AT, STATE_HEADING, STATE_UNSET_FOR, STATE_X, STATE_Y, stateAt } = timeline

/**
 * Plans the goalie's way from the start of the play to the shot, and writes the state at the release (time 0) to
 * `m.state`. A pass or a cut is read a reading time after it starts, then answered by the way across; a carry is followed
 * a lag behind; the start depth is left when the puck comes near enough. Vigour varies from shot to shot.
 */
export function planMoves(pose: Pose, posture: Posture, shot: Played, m: Moves): void {
  const { play, branch, clock, clockAt, draws, drawsAt } = shot
  const movement = pose.movement
  const count = play[branch + LEG_COUNT]!
  const reading = readingTime(movement, draws, drawsAt)
  const vigour = vigourOf(movement, draws, drawsAt)
  let px = play[branch + START_X]!
  let py = play[branch + START_Y]!
  // nothing goes before a shot at once: the goalie is where the pose has them
  let depth = count > 0 ? depthFor(pose, px, py) : pose.numbers[DEPTH]!
  place(pose, posture, shot, m, depth, px, py, m.before)
  const heading = Math.atan2(m.before[STATION_SIN]!, m.before[STATION_COS]!)
  m.lasts = count > 0 ? -clock[clockAt + LEG_STARTS]! : 0
  m.readAt = Number.NEGATIVE_INFINITY
  begin(m.timeline, -m.lasts, m.before[STATION_X]!, m.before[STATION_Y]!, 0, 0, heading)
  for (let k = 0; k < count; k++) {
    const leg = branch + LEGS + k * LEG_STRIDE
    const last = k === count - 1
    const ex = last ? shot.x : play[leg + LEG_X]!
    const ey = last ? shot.y : play[leg + LEG_Y]!
    const starts = clock[clockAt + LEG_STARTS + k]!
    if (play[leg + LEG_KIND] === LEG_CARRY) {
      const { carry } = m
      carry[FROM_X] = px
      carry[FROM_Y] = py
      carry[TO_X] = ex
      carry[TO_Y] = ey
      carry[STARTS] = starts
      carry[ENDS] = clock[clockAt + LEG_ENDS + k]!
      carry[VIGOUR] = vigour
      carry[STOPS] = last || play[leg + LEG_STRIDE + LEG_KIND] !== LEG_CARRY ? 1 : 0
      depth = followCarry(pose, posture, shot, m, depth)
    } else {
      // whatever the depth was, the answer to a pass is the pose's own
      depth = pose.numbers[DEPTH]!
      standFor(pose, posture, shot, depth, ex, ey, m.target)
      m.readAt = starts + reading
      goAcross(movement, m.readAt, m.target, vigour, m.timeline)
    }
    px = ex
    py = ey
  }
  stateAt(m.timeline, 0, m.state)
  openingAt(m.timeline, movement, pose.control[RECOVERS]!, 0, m.opening)
}

/** How long the goalie of a shot, whose GOALIE draws start at `at`, takes to read where the puck is sent. */
export function readingTime(movement: Float64Array, draws: Float64Array, at: number): Seconds {
  return movement[PASS_READING]! * Math.exp(movement[PASS_READING_SPREAD]! * draws[at + DRAW_READING]!)
}

/** How much faster that goalie pushes than usual, as a factor. */
export function vigourOf(movement: Float64Array, draws: Float64Array, at: number): number {
  return Math.exp(movement[VIGOUR_SPREAD]! * draws[at + DRAW_VIGOUR]!)
}

/** Puts the state into a station. */
export function stationOfState(state: Float64Array, station: Float64Array): void {
  station[STATION_X] = state[STATE_X]!
  station[STATION_Y] = state[STATE_Y]!
  station[STATION_COS] = Math.cos(state[STATE_HEADING]!)
  station[STATION_SIN] = Math.sin(state[STATE_HEADING]!)
}

/** Seconds between being set and the release: negative when late. */
export function arrivalMargin(m: Moves): Seconds {
  return -m.timeline[SET_AT]!
}

/** Whether the goalie is still moving or not yet set at the release. */
export function isUnset(m: Moves): boolean {
  return m.state[STATE_UNSET_FOR]! > 0
}
