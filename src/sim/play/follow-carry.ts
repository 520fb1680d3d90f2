import { goAcross } from "../motion/across.ts"
import { followTo, wayIn } from "../motion/follow.ts"
import { BACKWARD_GLIDE, MODE_STRIDE, TELESCOPE, TOP_SPEED, travelTime } from "../motion/mode.ts"
import * as timeline from "../motion/timeline.ts"
import type { Posture } from "../parts.ts"
import * as poseColumns from "../pose.ts"
import * as stationColumns from "../station.ts"
import type { Metres, Seconds } from "../units.ts"
import * as G from "./goalie-plan.ts"
import { depthFor, place } from "./place.ts"
import type { Moves, Played } from "./played.ts"
import * as played from "./played.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { ENDS, FROM_X, FROM_Y, STARTS, STOPS, TO_X, TO_Y, VIGOUR } = played
const { DEPTH } = poseColumns
const { STATION_X, STATION_Y } = stationColumns
const { STATE_VX, STATE_VY, STATE_X, STATE_Y, TRAVEL_END, writePlace } = timeline

/** A carry is followed along as many straight pieces as its change of bearing asks for: one each so many radians. */
const PIECE_BEARING = 0.15
const MOST_PIECES = 6
/** In place of a depth: the one that goes with the puck. */
const WITH_PUCK: Metres = -1

/**
 * Follows the carry in `m.carry` from the depth the goalie has, leaving the start depth on the way where that is due: with
 * one push, or evenly with the puck. Returns the depth the goalie has in mind at its end.
 */
export function followCarry(pose: poseColumns.Pose, posture: Posture, shot: Played, m: Moves, depth: Metres): Metres {
  const own = pose.numbers[DEPTH]!
  if (depth === own) return followAlong(pose, posture, shot, m, own, 0, 1)
  const leaves = shareAtDistance(m.carry, pose.plan[G.PLAN_LEAVES_AT]!)
  if (leaves > 1) return followAlong(pose, posture, shot, m, depth, 0, 1)
  followAlong(pose, posture, shot, m, depth, 0, leaves)
  const inPlace = pose.plan[G.PLAN_IN_PLACE_AT]!
  if (inPlace === 0) return pushToDepth(pose, posture, shot, m, depth, leaves)
  const placed = Math.max(leaves, Math.min(1, shareAtDistance(m.carry, inPlace)))
  followAlong(pose, posture, shot, m, WITH_PUCK, leaves, placed)
  followAlong(pose, posture, shot, m, WITH_PUCK, placed, 1)
  return depthFor(pose, m.carry[TO_X]!, m.carry[TO_Y]!)
}

/** Takes the pose's depth in one push, this share of the carry done, and follows what is left of it. */
function pushToDepth(
  pose: poseColumns.Pose,
  posture: Posture,
  shot: Played,
  m: Moves,
  depth: Metres,
  leaves: number,
): Metres {
  const { carry } = m
  const own = pose.numbers[DEPTH]!
  const lag = pose.plan[G.PLAN_LAG]!
  const starts = carry[STARTS]!
  const lasts = carry[ENDS]! - starts
  // to where the new depth meets the line when the goalie will be there
  const takes = travelTime(pose.movement, backing(pose), Math.abs(own - depth))
  const from = Math.min(1, leaves + takes / lasts)
  placeAt(pose, posture, shot, m, own, from)
  goAcross(pose.movement, starts + leaves * lasts + lag, m.target, carry[VIGOUR]!, m.timeline)
  const arrived = Math.max(from, (m.timeline[TRAVEL_END]! - lag - starts) / lasts)
  return followAlong(pose, posture, shot, m, own, arrived, 1)
}

/** Follows part of a carry, from share `from` to share `to` of it, at one depth or with the puck; returns the depth. */
function followAlong(
  pose: poseColumns.Pose,
  posture: Posture,
  shot: Played,
  m: Moves,
  depth: Metres,
  from: number,
  to: number,
): Metres {
  if (!(to > from)) return depth
  const { carry } = m
  const lag = pose.plan[G.PLAN_LAG]!
  const starts = carry[STARTS]!
  const lasts = carry[ENDS]! - starts
  const px = carry[FROM_X]!
  const py = carry[FROM_Y]!
  const ex = carry[TO_X]!
  const ey = carry[TO_Y]!
  const swing = Math.abs(Math.atan2(px * ey - py * ex, px * ex + py * ey)) * (to - from)
  const pieces = Math.max(1, Math.min(MOST_PIECES, Math.ceil(swing / PIECE_BEARING)))
  for (let i = 1; i <= pieces; i++) {
    const since = from + ((to - from) * (i - 1)) / pieces
    const share = from + ((to - from) * i) / pieces
    placeAt(pose, posture, shot, m, depth, share)
    const isLast = i === pieces && to === 1 && carry[STOPS] === 1
    const at = starts + since * lasts + lag
    const until = starts + share * lasts + lag
    const short = depth === WITH_PUCK ? keepLine(pose, posture, shot, m, share, at, until) : 0
    follow(pose, m, at, until, isLast && short === 0)
    if (!isLast || short === 0) continue
    // the puck is there, and the goalie goes the rest of the way in
    placeAt(pose, posture, shot, m, depth, share)
    follow(pose, m, until, until + short / (pose.movement[backing(pose) + TOP_SPEED]! * carry[VIGOUR]!), true)
  }
  return depth
}

function follow(pose: poseColumns.Pose, m: Moves, at: Seconds, until: Seconds, isLast: boolean): void {
  const setSpeed = pose.plan[G.PLAN_SET_SPEED]!
  followTo(pose.movement, at, until, m.target, isLast, setSpeed, m.carry[VIGOUR]!, m.timeline)
}

/** Row of the mode in which the pose's depth is taken from the start depth. */
function backing({ numbers, plan }: poseColumns.Pose): number {
  return (numbers[DEPTH]! < plan[G.PLAN_START_DEPTH]! ? BACKWARD_GLIDE : TELESCOPE) * MODE_STRIDE
}

/**
 * Angle before depth: where the goalie cannot be at `m.target` in time, it becomes the place on the same line that is as
 * near to it as can be reached. With the goalie s along the line from the target and h beside it, and a reach R, the place
 * is s - sqrt(R² - h²) along the line; level with the goalie where R < h. Returns how far from the target it is.
 */
function keepLine(
  pose: poseColumns.Pose,
  posture: Posture,
  shot: Played,
  m: Moves,
  share: number,
  at: Seconds,
  until: Seconds,
): Metres {
  const { carry, from, target } = m
  writePlace(m.timeline, at, from, 0)
  const x = carry[FROM_X]! + share * (carry[TO_X]! - carry[FROM_X]!)
  const y = carry[FROM_Y]! + share * (carry[TO_Y]! - carry[FROM_Y]!)
  const distance = Math.sqrt(x * x + y * y)
  const dx = from[STATE_X]! - target[STATION_X]!
  const dy = from[STATE_Y]! - target[STATION_Y]!
  const along = (dx * x + dy * y) / distance
  const beside = (dy * x - dx * y) / distance
  const speed = Math.sqrt(from[STATE_VX]! * from[STATE_VX]! + from[STATE_VY]! * from[STATE_VY]!)
  const reach = wayIn(pose.movement, backing(pose), speed, until - at, carry[VIGOUR]!)
  if (along * along + beside * beside <= reach * reach) return 0
  const spare = reach > Math.abs(beside) ? Math.sqrt(reach * reach - beside * beside) : 0
  const short = Math.max(0, Math.abs(along) - spare)
  const depth = depthFor(pose, x, y) + (along > 0 ? short : -short)
  place(pose, posture, shot, m, depth > 0 ? depth : 0, x, y, target)
  return short
}

/** Station for where the puck is this share of the carry on, at a depth or at the one that goes with the puck. */
function placeAt(pose: poseColumns.Pose, posture: Posture, shot: Played, m: Moves, depth: Metres, share: number): void {
  const { carry } = m
  const x = carry[FROM_X]! + share * (carry[TO_X]! - carry[FROM_X]!)
  const y = carry[FROM_Y]! + share * (carry[TO_Y]! - carry[FROM_Y]!)
  place(pose, posture, shot, m, depth >= 0 ? depth : depthFor(pose, x, y), x, y, m.target)
}

/** Share of a carry at which the puck first comes within `near` of the middle of the goal line; above 1 when never. */
function shareAtDistance(carry: Float64Array, near: Metres): number {
  const px = carry[FROM_X]!
  const py = carry[FROM_Y]!
  if (px * px + py * py <= near * near) return 0
  const dx = carry[TO_X]! - px
  const dy = carry[TO_Y]! - py
  const a = dx * dx + dy * dy
  const b = px * dx + py * dy
  const c = px * px + py * py - near * near
  const root = b * b - a * c
  if (!(root >= 0) || a === 0) return 2
  const share = (-b - Math.sqrt(root)) / a
  return share >= 0 ? share : 2
}
