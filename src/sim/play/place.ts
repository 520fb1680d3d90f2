import type { Posture } from "../parts.ts"
import * as poseColumns from "../pose.ts"
import { standWithErrors, standWrongBy } from "../stand-for-shot.ts"
import * as stationColumns from "../station.ts"
import type { Metres } from "../units.ts"
import * as G from "./goalie-plan.ts"
import type { Moves, Played } from "./played.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { DEPTH } = poseColumns
const { STATION_COS, STATION_SIN, STATION_X, STATION_Y } = stationColumns
const { CUE_ANGLE, CUE_BIAS, CUE_OFF_LINE, PLAN_CUE_AT_DEPTH, PLAN_CUE_AT_START } = G

/** Depth for a puck at (x, y): the start depth while it is far, the pose's when it is near, between them on the way. */
export function depthFor(pose: poseColumns.Pose, x: Metres, y: Metres): Metres {
  const { plan } = pose
  const leaves = plan[G.PLAN_LEAVES_AT]!
  const inPlace = plan[G.PLAN_IN_PLACE_AT]!
  const distance = Math.sqrt(x * x + y * y)
  const own = pose.numbers[DEPTH]!
  if (distance > leaves) return plan[G.PLAN_START_DEPTH]!
  if (inPlace === 0 || distance <= inPlace) return own
  return own + ((plan[G.PLAN_START_DEPTH]! - own) * (distance - inPlace)) / (leaves - inPlace)
}

/** Station for a puck at (x, y), shifted toward the threat by as much as the goalie cheats. */
export function place(
  pose: poseColumns.Pose,
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

/** Station of the pose at a depth, with the errors of the shot: as large as they are at that depth. */
export function standFor(
  pose: poseColumns.Pose,
  posture: Posture,
  shot: Played,
  depth: Metres,
  x: Metres,
  y: Metres,
  station: Float64Array,
): void {
  const { numbers, plan } = pose
  const { draws, drawsAt, mouthHalfWidth } = shot
  const own = numbers[DEPTH]!
  // at the pose's own depth its numbers hold all there is
  if (plan[G.PLAN_CUE_VARIES] === 0 || depth === own) {
    standWithErrors(posture, numbers, mouthHalfWidth, depth, draws, drawsAt, x, y, station)
    return
  }
  const share = (depth - own) / (plan[G.PLAN_START_DEPTH]! - own)
  const bias = cueAt(plan, CUE_BIAS, share)
  const angle = cueAt(plan, CUE_ANGLE, share)
  const offLine = cueAt(plan, CUE_OFF_LINE, share)
  // on the goal line every line meets: no angle is off
  const perDepth = depth > 0 ? 1 / depth : 0
  const ownAngle = plan[G.PLAN_OWN_ANGLE]!
  const ownOffLine = plan[G.PLAN_OWN_OFF_LINE]!
  standWrongBy(
    posture,
    numbers,
    mouthHalfWidth,
    depth,
    draws,
    drawsAt,
    x,
    y,
    plan[G.PLAN_OWN_BIAS]! + bias * perDepth,
    Math.sqrt(ownAngle * ownAngle + angle * perDepth * angle * perDepth),
    Math.sqrt(ownOffLine * ownOffLine + offLine * offLine),
    station,
  )
}

/** What the cue adds, this share of the way from the pose's depth to the start depth. */
function cueAt(plan: Float64Array, column: number, share: number): number {
  const end = plan[PLAN_CUE_AT_DEPTH + column]!
  return end + share * (plan[PLAN_CUE_AT_START + column]! - end)
}
