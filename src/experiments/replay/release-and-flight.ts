import { zoneCuts } from "../../models/positioning/box.ts"
import { SHOT_NAMES } from "../../models/shooter/shot-types.ts"
import { zoneOf } from "../../sim/box/openings.ts"
import { FATES } from "../../sim/fate.ts"
import { crossingDistance } from "../../sim/goal-line.ts"
import { distanceToBody } from "../../sim/meet-goalie.ts"
import {
  heightAt,
  PATH_COUNT,
  PATH_DX,
  PATH_DY,
  PATH_END,
  PATH_PIECES,
  PATH_STRIDE,
  PATH_X,
  PATH_Y,
  PIECE_START,
  PIECE_STRIDE,
  PIECE_T,
  PIECE_Z,
  paceAt,
  timeAt,
} from "../../sim/path.ts"
import {
  SHOT_AIM_Y,
  SHOT_AIM_Z,
  SHOT_SPEED,
  SHOT_STRIDE,
  SHOT_UNREACHABLE,
  SHOT_X,
  SHOT_Y,
  SHOT_Z,
} from "../../sim/shots.ts"
import * as S from "../../sim/strata.ts"
import { PUCK_HALF_THICKNESS } from "../../sim/world.ts"
import type { FiredShot, Replay } from "./replay.ts"
import { centimetres, milliseconds, rounded } from "./round.ts"
import type { FlightStory, ReleaseStory } from "./story.ts"
import { FEET_PER_METRE, KMH, MPH } from "./units.ts"

/** Where the shot left from, how, and where it was meant to go. */
export function releaseStory({ engine, point }: Replay, { i }: FiredShot): ReleaseStory {
  const { batch, goalkeeping } = engine
  const { scene } = goalkeeping
  const row = batch.stratum[i]! * S.STRATUM_STRIDE
  const at = i * SHOT_STRIDE
  const x = batch.shot[at + SHOT_X]!
  const y = batch.shot[at + SHOT_Y]!
  const distance = Math.hypot(x, y)
  const aimY = batch.shot[at + SHOT_AIM_Y]!
  const aimZ = batch.shot[at + SHOT_AIM_Z]!
  const speed = batch.shot[at + SHOT_SPEED]!
  return {
    spot: point.settings.origins.length === 0 ? "" : scene.spots[scene.strata.table[row + S.SPOT]!]!,
    xM: rounded(x, 4),
    yM: rounded(y, 4),
    heightCm: centimetres(Math.max(batch.shot[at + SHOT_Z]!, scene.world[PUCK_HALF_THICKNESS]!)),
    distanceM: rounded(distance, 4),
    distanceFt: rounded(distance * FEET_PER_METRE, 3),
    angleDegrees: rounded((Math.atan2(y, x) * 180) / Math.PI, 3),
    shotType: SHOT_NAMES[scene.strata.table[row + S.SHOT_TYPE]!]!,
    hurried: scene.strata.table[row + S.HURRIED] === 1,
    aim: {
      yCm: centimetres(aimY),
      heightCm: centimetres(aimZ),
      zone: zoneOf(aimY, aimZ, zoneCuts(point.settings)),
    },
    unreachable: batch.shot[at + SHOT_UNREACHABLE] === 1,
    speedKmH: rounded(speed * KMH, 2),
    speedMph: rounded(speed * MPH, 2),
  }
}

/** What the puck did on its way, goalie or not. */
export function flightStory({ engine }: Replay, { i }: FiredShot, hasGoalie: boolean): FlightStory {
  const { batch, goalkeeping } = engine
  const { path } = batch
  const offset = i * PATH_STRIDE
  const body = hasGoalie ? distanceToBody(goalkeeping.meeting) : null
  const reaches = body !== null && body <= path[offset + PATH_END]!
  return {
    fate: FATES[batch.fate[i]!]!,
    iceTouches: iceTouches(path, offset, goalkeeping.scene.world[PUCK_HALF_THICKNESS]!),
    atBody: reaches
      ? { timeMs: milliseconds(timeAt(path, offset, body)), heightCm: centimetres(heightAt(path, offset, body)) }
      : null,
    atLine: lineOf(path, offset, crossingDistance(path, offset), batch.shot, i * SHOT_STRIDE),
  }
}

/** Where the undisturbed path crosses the goal line's plane. */
function lineOf(
  path: Float64Array,
  offset: number,
  end: number,
  shot: Float64Array,
  at: number,
): FlightStory["atLine"] {
  if (!(path[offset + PATH_DX]! < 0) || path[offset + PATH_END]! < end - 1e-9) return null
  const y = path[offset + PATH_Y]! + end * path[offset + PATH_DY]!
  const z = heightAt(path, offset, end)
  return {
    timeMs: milliseconds(timeAt(path, offset, end)),
    yCm: centimetres(y),
    heightCm: centimetres(z),
    speedKmH: rounded(KMH / paceAt(path, offset, end), 2),
    offAimCm: centimetres(Math.hypot(y - shot[at + SHOT_AIM_Y]!, z - shot[at + SHOT_AIM_Z]!)),
  }
}

/** Landings: pieces that begin on the ice behind one that was in the air, up to the goal line. */
function iceTouches(path: Float64Array, offset: number, floor: number): FlightStory["iceTouches"] {
  const touches: FlightStory["iceTouches"][number][] = []
  const onIce = (row: number): boolean => path[row + PIECE_Z]! <= floor + 1e-9
  for (let piece = 1; piece < path[offset + PATH_COUNT]!; piece++) {
    const row = offset + PATH_PIECES + piece * PIECE_STRIDE
    const before = row - PIECE_STRIDE
    if (!onIce(row) || (onIce(before) && !(path[before + PIECE_Z + 1]! > 0))) continue
    const x = path[offset + PATH_X]! + path[row + PIECE_START]! * path[offset + PATH_DX]!
    if (x < 0) break
    touches.push({
      timeMs: milliseconds(path[row + PIECE_T]!),
      fromGoalLineM: rounded(x, 3),
      hops: path[row + PIECE_Z + 1]! > 0,
    })
  }
  return touches
}
