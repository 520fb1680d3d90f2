import { faceShot, goalkeeping, standForShot } from "../dist/sim/answer.js"
import { answerBatch, decideConditional, emptyOutcome } from "../dist/sim/conditional.js"
import { IRON_IN, ON_GOAL } from "../dist/sim/fate.js"
import { fly } from "../dist/sim/flight.js"
import { crossMouth } from "../dist/sim/iron.js"
import { meetPart } from "../dist/sim/meet.js"
import { PATH_DX, PATH_DY, PATH_PIECES, PATH_STRIDE, PIECE_Z } from "../dist/sim/path.js"
import { makeShots, SHOT_SPEED, SHOT_STRIDE, SHOT_X, SHOT_Y, SHOT_Z, shotBatch } from "../dist/sim/shots.js"
import { emptyTally } from "../dist/sim/tally.js"
import { interleaved, timed } from "./clock.mjs"
import { BATCH, KEY } from "./scenes.mjs"

/** How often a batch is gone over in one measurement. */
const PASSES = 24

/** Nanoseconds a shot of making the shots, and of what flight and crossing take of it. */
export function shotStages(scene, rounds) {
  const batch = shotBatch(scene, BATCH)
  makeShots(scene, KEY, 0, 0, BATCH, batch)
  const launches = launchesOf(batch)
  const path = new Float64Array(BATCH * PATH_STRIDE)
  const crossing = new Float64Array(8)
  let replicate = 0
  const all = () =>
    timed(() => {
      for (let pass = 0; pass < PASSES; pass++) makeShots(scene, KEY, replicate++, 0, BATCH, batch)
    })
  const flight = () =>
    timed(() => {
      for (let pass = 0; pass < PASSES; pass++)
        for (let i = 0; i < BATCH; i++) {
          const [x, y, z, azimuth, elevation, speed, reach] = launches[i]
          fly(scene.world, x, y, z, azimuth, elevation, speed, reach, path, i * PATH_STRIDE)
        }
    })
  const cross = () =>
    timed(() => {
      for (let pass = 0; pass < PASSES; pass++)
        for (let i = 0; i < BATCH; i++) crossMouth(scene.world, path, i * PATH_STRIDE, crossing)
    })
  const [made, flown, crossed] = perShot(interleaved([all, flight, cross], rounds), BATCH)
  return { release: made - flown - crossed, flight: flown, crossing: crossed }
}

/** What flew each shot of a batch, read back from its path. */
function launchesOf(batch) {
  return Array.from({ length: BATCH }, (_, i) => {
    const shot = i * SHOT_STRIDE
    const path = i * PATH_STRIDE
    const x = batch.shot[shot + SHOT_X]
    const y = batch.shot[shot + SHOT_Y]
    const azimuth = Math.atan2(batch.path[path + PATH_DY], batch.path[path + PATH_DX])
    const elevation = Math.atan(batch.path[path + PATH_PIECES + PIECE_Z + 1])
    return [x, y, batch.shot[shot + SHOT_Z], azimuth, elevation, batch.shot[shot + SHOT_SPEED], 1.5 * Math.hypot(x, y)]
  })
}

/**
 * Nanoseconds a shot and pose, over shots on goal: standing, meeting the path with every part, reach and saves, and the
 * verdict with its tallies. Each is the difference of two measurements that share what comes before. The compiled kernel
 * meets and saves in one.
 */
export function poseStages(scene, rounds, kernel) {
  const batch = shotBatch(scene, BATCH)
  makeShots(scene, KEY, 0, 0, BATCH, batch)
  const onGoal = Array.from({ length: BATCH }, (_, i) => i).filter(
    (i) => batch.fate[i] === ON_GOAL || batch.fate[i] === IRON_IN,
  )
  const jobs = [goalkeeping(scene), goalkeeping(scene, kernel)].map((g) => stagesOf(g, batch, onGoal))
  const count = onGoal.length * scene.poses.length
  const times = perShot(interleaved(jobs.flat(), rounds), count)
  const [stand, met, saved, all, compiledStand, , compiledSaved, compiledAll] = times
  return {
    onGoal: onGoal.length / BATCH,
    typescript: { stand, meet: met - stand, saves: saved - met, verdict: all - saved },
    compiled: { stand: compiledStand, both: compiledSaved - compiledStand, verdict: compiledAll - compiledSaved },
  }
}

/** What a goalkeeping does for every pose and shot on goal, more of it from one to the next. */
function stagesOf(g, batch, onGoal) {
  const { scene } = g
  const outcome = emptyOutcome()
  const tally = emptyTally(scene.poses.length, scene.spots.length)
  const poses = [...scene.poses.keys()]
  const each = (work) => () =>
    timed(() => {
      for (let pass = 0; pass < PASSES; pass++)
        for (const i of onGoal) for (const pose of scene.poses) work(pose, i, i * PATH_STRIDE)
    })
  const standing = each((pose, i) => standForShot(g, pose, batch, i))
  const meeting = each((pose, i, path) => {
    standForShot(g, pose, batch, i)
    faceShot(g, pose, batch, i, path)
    const prepared = g.prepared[pose.posture]
    for (let part = 0; part < prepared.posture.count; part++) meetPart(g.meeting, prepared, part, batch.path, path)
  })
  const saving = each((pose, i, path) => {
    standForShot(g, pose, batch, i)
    decideConditional(g, pose, batch, i, path, outcome)
  })
  const verdict = () =>
    timed(() => {
      for (let pass = 0; pass < PASSES; pass++) answerBatch(g, batch, poses, decideConditional, tally, outcome)
    })
  return [standing, meeting, saving, verdict]
}

function perShot(seconds, count) {
  return seconds.map((time) => (1e9 * time) / (PASSES * count))
}
