import { goAcross, PASS_READING, PASS_READING_SPREAD, VIGOUR_SPREAD } from "../motion/across.ts"
import { followTo } from "../motion/follow.ts"
import { MODE_STRIDE, TELESCOPE, travelTime } from "../motion/mode.ts"
import * as timeline from "../motion/timeline.ts"
import { begin } from "../motion/travel.ts"
import type { Posture } from "../parts.ts"
import { DEPTH, type Pose } from "../pose.ts"
import * as shotColumns from "../shots.ts"
import { standWithErrors } from "../stand-for-shot.ts"
import * as stationColumns from "../station.ts"
import type { Metres, Seconds } from "../units.ts"
import * as course from "./course.ts"
import * as G from "./goalie-plan.ts"
import { LEG_ENDS, LEG_STARTS } from "./timing.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { LEG_CARRY, LEG_COUNT, LEG_KIND, LEG_STRIDE, LEG_X, LEG_Y, LEGS, START_X, START_Y } = course
const { DRAW_READING, DRAW_VIGOUR } = shotColumns
const { STATION_COS, STATION_LENGTH, STATION_SIN, STATION_X, STATION_Y } = stationColumns
const { SET_AT, STATE_HEADING, STATE_LENGTH, STATE_UNSET_FOR, STATE_X, STATE_Y, stateAt, TIMELINE_LENGTH } = timeline

/** A carry is followed along as many straight pieces as its change of bearing asks for: one each so many radians. */
const PIECE_BEARING = 0.3
const MOST_PIECES = 4

/** One goalie's movement through the time before one shot: scratch, and the result of {@link planMoves}. */
export interface Moves {
  readonly timeline: Float64Array
  /** State at the release, time 0. */
  readonly state: Float64Array
  /** State under work, for whoever steps through the flight. */
  readonly from: Float64Array
  /** Station for the puck's place at the start of the play. */
  readonly before: Float64Array
  /** Stations under work. */
  readonly target: Float64Array
  readonly threat: Float64Array
  /** From the start of the play to the release. */
  lasts: Seconds
}

export function moves(): Moves {
  return {
    timeline: new Float64Array(TIMELINE_LENGTH),
    state: new Float64Array(STATE_LENGTH),
    from: new Float64Array(STATE_LENGTH),
    before: new Float64Array(STATION_LENGTH),
    target: new Float64Array(STATION_LENGTH),
    threat: new Float64Array(STATION_LENGTH),
    lasts: 0,
  }
}

/** What a plan is made for, beside the pose: the play and one shot of it. Filled anew for each shot. */
export interface Played {
  readonly play: Float64Array
  readonly mouthHalfWidth: Metres
  /** Row of the branch, see branchRow(). */
  branch: number
  /** Where the shot is taken. */
  x: Metres
  y: Metres
  /** The shot's clock from `clockAt` on (see timing.ts), and the goalie's draws from `drawsAt` on. */
  clock: Float64Array
  clockAt: number
  draws: Float64Array
  drawsAt: number
}

/**
 * Plans the goalie's way from the start of the play to the shot, and writes the state at the release (time 0) to
 * `m.state`. A pass or a cut is read a reading time after it starts, then answered by the way across; a carry is followed
 * a lag behind; the start depth is left when the puck comes near enough. Vigour varies from shot to shot.
 */
export function planMoves(pose: Pose, posture: Posture, shot: Played, m: Moves): void {
  const { play, branch, clock, clockAt, draws, drawsAt } = shot
  const plan = pose.plan
  const movement = pose.movement
  const count = play[branch + LEG_COUNT]!
  const reading = movement[PASS_READING]! * Math.exp(movement[PASS_READING_SPREAD]! * draws[drawsAt + DRAW_READING]!)
  const vigour = Math.exp(movement[VIGOUR_SPREAD]! * draws[drawsAt + DRAW_VIGOUR]!)
  let px = play[branch + START_X]!
  let py = play[branch + START_Y]!
  let depth = count > 0 && leavesAt(plan, px, py) ? pose.numbers[DEPTH]! : plan[G.PLAN_START_DEPTH]!
  place(pose, posture, shot, m, depth, px, py, m.before)
  const heading = Math.atan2(m.before[STATION_SIN]!, m.before[STATION_COS]!)
  m.lasts = count > 0 ? -clock[clockAt + LEG_STARTS]! : 0
  begin(m.timeline, -m.lasts, m.before[STATION_X]!, m.before[STATION_Y]!, 0, 0, heading)
  for (let k = 0; k < count; k++) {
    const leg = branch + LEGS + k * LEG_STRIDE
    const last = k === count - 1
    const ex = last ? shot.x : play[leg + LEG_X]!
    const ey = last ? shot.y : play[leg + LEG_Y]!
    const starts = clock[clockAt + LEG_STARTS + k]!
    if (play[leg + LEG_KIND] === LEG_CARRY) {
      const ends = clock[clockAt + LEG_ENDS + k]!
      depth = followCarry(pose, posture, shot, m, depth, px, py, ex, ey, starts, ends, vigour)
    } else {
      // whatever the depth was, the answer to a pass is the pose's own
      depth = pose.numbers[DEPTH]!
      standFor(pose, posture, shot, depth, ex, ey, m.target)
      goAcross(movement, starts + reading, m.target, vigour, m.timeline)
    }
    px = ex
    py = ey
  }
  stateAt(m.timeline, 0, m.state)
}

/** Whether the puck at (x, y) is near enough for the start depth to be left. */
function leavesAt(plan: Float64Array, x: Metres, y: Metres): boolean {
  const near = plan[G.PLAN_LEAVES_AT]!
  return x * x + y * y <= near * near
}

/** Follows a carry from (px, py) to (ex, ey), leaving the start depth on the way where that is due; returns the depth. */
function followCarry(
  pose: Pose,
  posture: Posture,
  shot: Played,
  m: Moves,
  depth: Metres,
  px: Metres,
  py: Metres,
  ex: Metres,
  ey: Metres,
  starts: Seconds,
  ends: Seconds,
  vigour: number,
): Metres {
  const own = pose.numbers[DEPTH]!
  const lag = pose.plan[G.PLAN_LAG]!
  let from = 0
  let now = depth
  if (depth !== own) {
    const leaves = shareAtDistance(px, py, ex, ey, pose.plan[G.PLAN_LEAVES_AT]!)
    if (leaves > 1) return followAlong(pose, posture, shot, m, depth, px, py, ex, ey, starts, ends, 0, 1, vigour)
    followAlong(pose, posture, shot, m, depth, px, py, ex, ey, starts, ends, 0, leaves, vigour)
    // to where the new depth meets the line when the goalie will be there
    now = own
    const row = TELESCOPE * MODE_STRIDE
    const takes = travelTime(pose.movement, own < depth ? row - MODE_STRIDE : row, Math.abs(own - depth))
    from = Math.min(1, leaves + takes / (ends - starts))
    place(pose, posture, shot, m, own, px + from * (ex - px), py + from * (ey - py), m.target)
    goAcross(pose.movement, starts + leaves * (ends - starts) + lag, m.target, vigour, m.timeline)
    if (from >= 1) return now
    from = Math.max(from, (m.timeline[timeline.TRAVEL_END]! - lag - starts) / (ends - starts))
  }
  return followAlong(pose, posture, shot, m, now, px, py, ex, ey, starts, ends, from, 1, vigour)
}

/** Follows part of a carry, from share `from` to share `to` of it, at one depth. */
function followAlong(
  pose: Pose,
  posture: Posture,
  shot: Played,
  m: Moves,
  depth: Metres,
  px: Metres,
  py: Metres,
  ex: Metres,
  ey: Metres,
  starts: Seconds,
  ends: Seconds,
  from: number,
  to: number,
  vigour: number,
): Metres {
  if (!(to > from)) return depth
  const lag = pose.plan[G.PLAN_LAG]!
  const swing = Math.abs(Math.atan2(px * ey - py * ex, px * ex + py * ey)) * (to - from)
  const pieces = Math.max(1, Math.min(MOST_PIECES, Math.ceil(swing / PIECE_BEARING)))
  for (let i = 1; i <= pieces; i++) {
    const share = from + ((to - from) * i) / pieces
    const since = from + ((to - from) * (i - 1)) / pieces
    place(pose, posture, shot, m, depth, px + share * (ex - px), py + share * (ey - py), m.target)
    const at = starts + since * (ends - starts) + lag
    const until = starts + share * (ends - starts) + lag
    followTo(pose.movement, at, until, m.target, pose.plan[G.PLAN_SET_SPEED]!, vigour, m.timeline)
  }
  return depth
}

/** Share of the way from (px, py) to (ex, ey) at which the puck first comes within `near` of the middle of the goal line; above 1 when never. */
function shareAtDistance(px: Metres, py: Metres, ex: Metres, ey: Metres, near: Metres): number {
  if (px * px + py * py <= near * near) return 0
  const dx = ex - px
  const dy = ey - py
  const a = dx * dx + dy * dy
  const b = px * dx + py * dy
  const c = px * px + py * py - near * near
  const root = b * b - a * c
  if (!(root >= 0) || a === 0) return 2
  const share = (-b - Math.sqrt(root)) / a
  return share >= 0 ? share : 2
}

/** Station for a puck at (x, y), shifted toward the threat by as much as the goalie cheats. */
function place(
  pose: Pose,
  posture: Posture,
  shot: Played,
  m: Moves,
  depth: Metres,
  x: Metres,
  y: Metres,
  station: Float64Array,
): void {
  standFor(pose, posture, shot, depth, x, y, station)
  const cheat = pose.plan[G.PLAN_CHEAT]!
  if (cheat === 0) return
  // between the two lines, still facing the puck
  standFor(pose, posture, shot, depth, pose.plan[G.PLAN_THREAT_X]!, pose.plan[G.PLAN_THREAT_Y]!, m.threat)
  const sx = station[STATION_X]! + cheat * (m.threat[STATION_X]! - station[STATION_X]!)
  const sy = station[STATION_Y]! + cheat * (m.threat[STATION_Y]! - station[STATION_Y]!)
  const turn = Math.atan2(y - sy, x - sx) - Math.atan2(y - station[STATION_Y]!, x - station[STATION_X]!)
  const heading = Math.atan2(station[STATION_SIN]!, station[STATION_COS]!) + turn
  station[STATION_X] = sx
  station[STATION_Y] = sy
  station[STATION_COS] = Math.cos(heading)
  station[STATION_SIN] = Math.sin(heading)
}

function standFor(
  pose: Pose,
  posture: Posture,
  shot: Played,
  depth: Metres,
  x: Metres,
  y: Metres,
  station: Float64Array,
): void {
  standWithErrors(posture, pose.numbers, shot.mouthHalfWidth, depth, shot.draws, shot.drawsAt, x, y, station)
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
