import { goalkeeping, standForShot } from "../../dist/sim/answer.js"
import { placeBody } from "../../dist/sim/box/placed.js"
import { IRON_IN, ON_GOAL } from "../../dist/sim/fate.js"
import { CENTRE, PART_STRIDE } from "../../dist/sim/parts.js"
import { heightAt, PATH_DX, PATH_DY, PATH_STRIDE, PATH_X, PATH_Y, pieceAt } from "../../dist/sim/path.js"
import { BOX_RECORD, clearancePath } from "../../dist/sim/rounded-box.js"
import { makeShots, shotBatch } from "../../dist/sim/shots.js"
import { STATION_COS, STATION_SIN, STATION_X, STATION_Y } from "../../dist/sim/station.js"
import { PUCK_HALF_THICKNESS, PUCK_RADIUS } from "../../dist/sim/world.js"
import { BATCH, depthScene, KEY } from "../scenes.mjs"

/** Batches of shots. */
const BATCHES = 4
/** How far a path runs before and past the place where it is level with the middle of a part, m: no part reaches so far. */
const BEFORE = 5
const PAST = 1

/**
 * Every part of the default goalie in the set posture with the straight path of every shot on goal of a few batches from 8 m:
 * a record each, solved once; part after part, shot after shot.
 */
export function realPairs() {
  const scene = depthScene(1)
  const batch = shotBatch(scene, BATCH)
  const g = goalkeeping(scene)
  const [pose] = scene.poses
  const records = []
  for (let k = 0; k < BATCHES; k++) {
    makeShots(scene, KEY, 0, k * BATCH, BATCH, batch)
    for (let i = 0; i < BATCH; i++) {
      if (batch.fate[i] !== ON_GOAL && batch.fate[i] !== IRON_IN) continue
      standForShot(g, pose, batch, i)
      const heading = Math.atan2(g.station[STATION_SIN], g.station[STATION_COS])
      const body = placeBody(scene.postures[pose.posture], 0, g.station[STATION_X], g.station[STATION_Y], heading)
      for (let part = 0; part < body.count; part++)
        records.push(recordOf(body.parts, part * PART_STRIDE, batch.path, i * PATH_STRIDE, scene.world))
    }
  }
  return { records, parts: scene.postures[pose.posture].count }
}

/** The path of a shot, straight from where it is level with the middle of a part, against that part. */
function recordOf(parts, at, path, offset, world) {
  const [x, y] = [path[offset + PATH_X], path[offset + PATH_Y]]
  const [dx, dy] = [path[offset + PATH_DX], path[offset + PATH_DY]]
  const distance = (parts[at + CENTRE] - x) * dx + (parts[at + CENTRE + 1] - y) * dy
  const z = heightAt(path, offset, distance)
  const i = pieceAt(path, offset, distance)
  const q = distance - path[i]
  const slope = path[i + 2] + q * (2 * path[i + 3] + q * 3 * path[i + 4])
  const [px, py] = [x + distance * dx, y + distance * dy]
  const box = new Float64Array(BOX_RECORD)
  const disc = [world[PUCK_RADIUS], world[PUCK_HALF_THICKNESS]]
  clearancePath(parts, at, px, py, z, dx, dy, slope, -BEFORE, PAST, ...disc, box)
  return box
}
