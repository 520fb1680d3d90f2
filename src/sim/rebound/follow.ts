import { type Goalkeeping, preparedNow } from "../answer.ts"
import { isOnGoal } from "../fate.ts"
import { MOVEMENT_LENGTH } from "../motion/across.ts"
import { STATE_HEADING, STATE_LENGTH, STATE_VX, STATE_VY, STATE_X, STATE_Y, stateAt } from "../motion/timeline.ts"
import { type Decide, emptyOutcome, type Outcome } from "../outcome.ts"
import { PATH_STRIDE } from "../path.ts"
import type * as P from "../pose.ts"
import { INDEPENDENT_DRAWS } from "../sampler.ts"
import { REGION_COUNT } from "../saves.ts"
import { type ShotBatch, shotBatch } from "../shots.ts"
import { STATION_COS, STATION_SIN, STATION_X, STATION_Y } from "../station.ts"
import { quantise } from "../statistics/exact-sum.ts"
import * as T from "../tally.ts"
import type { Seconds } from "../units.ts"
import * as B from "./bounce.ts"
import { bounce } from "./bounce.ts"
import { chooseSave } from "./choose-save.ts"
import * as L from "./loose.ts"
import { type Loose, placePlayers, raceTo } from "./loose.ts"
import * as R from "./rebound-table.ts"
import { moveToSecond, type Saver, shootAgain, takeGoalieDraws } from "./second-shot.ts"

/** What one thread needs to follow rebounds: the second shot's batch of one, and scratch. */
export interface Rebounds {
  readonly second: ShotBatch
  readonly outcome: Outcome
  readonly bounce: Float64Array
  readonly race: Float64Array
  readonly movement: Float64Array
  readonly state: Float64Array
  readonly regions: Float64Array
  readonly loose: Loose
  readonly saver: Saver
  /** From the first release to the second, s; NaN where there was none. */
  delay: Seconds
  /** Weight of the loose puck among the shot's saves, and chance that the second shot is saved. */
  left: number
  savedAgain: number
}

export function rebounds(scene: P.Scene): Rebounds {
  return {
    second: shotBatch(scene, 1, true, INDEPENDENT_DRAWS),
    outcome: emptyOutcome(),
    bounce: new Float64Array(B.BOUNCE_LENGTH),
    race: new Float64Array(L.RACE_LENGTH),
    movement: new Float64Array(MOVEMENT_LENGTH),
    state: new Float64Array(STATE_LENGTH),
    regions: new Float64Array(REGION_COUNT),
    loose: { x: 0, y: 0, z: 0, vx: 0, vy: 0, vz: 0 },
    saver: { x: 0, y: 0, heading: 0, down: false },
    delay: Number.NaN,
    left: 0,
    savedAgain: 0,
  }
}

/**
 * Follows the save of shot i, answered just now by `decide` with `outcome`: chooses one of the saves, bounces the puck
 * off the part that made it, and lets goalie, attackers and defenders race for it; an attacker who is first shoots
 * again. Results are in `r`: how much of the saves is left loose, and what becomes of the second shot.
 */
export function followSave(
  g: Goalkeeping,
  r: Rebounds,
  pose: P.Pose,
  batch: ShotBatch,
  i: number,
  decide: Decide,
  outcome: Outcome,
): void {
  const draws = batch.rebound
  const at = i * R.REBOUND_DRAWS
  const path = i * PATH_STRIDE
  const { save } = outcome
  r.delay = Number.NaN
  r.left = 0
  r.savedAgain = 0
  if (save.drawn === 0) chooseSave(g, pose, batch, path, outcome, draws[at + R.DRAW_SAVE]!, r.regions)
  if (save.part < 0) return

  // held, or loose
  const posture = g.scene.postures[pose.posture]!
  const holds = pose.control[R.HOLDS + posture.region[save.part]!]!
  const left = save.drawn === 1 ? (draws[at + R.DRAW_HELD]! < holds ? 0 : 1) : 1 - holds
  if (left === 0) return
  bounceOff(g, r, pose, batch, path, outcome, draws, at)
  placePlayers(g.scene.rebound, draws, at, r.race)
  const { control } = pose
  const covers = control[R.COVERS_AFTER]! * Math.exp(control[R.COVERS_SPREAD]! * draws[at + R.DRAW_COVERS]!)
  raceTo(g.scene.world, g.scene.rebound, control, r.loose, r.saver.x, r.saver.y, covers, r.race)
  if (r.race[L.ENDS] === L.COVERED) return
  r.left = left
  if (r.race[L.ENDS] !== L.REACHED) return

  // the second shot
  const table = g.scene.rebound
  const shoots = table[R.SHOOTS]! * Math.exp(table[R.SHOOTS_SPREAD]! * draws[at + R.DRAW_SHOOTS]!)
  const since = r.race[L.ENDS_AT]! + shoots
  r.delay = g.now.begins + save.time + since
  takeGoalieDraws(r.second, draws, at)
  r.second.again[R.AGAIN_READ] = table[R.EARLY_READ]!
  moveToSecond(g, pose, r.second, r.saver, r.race[L.ENDS_X]!, r.race[L.ENDS_Y]!, since, r.movement)
  shootAgain(g, pose, r.second, table, draws, at, r.race[L.ENDS_X]!, r.race[L.ENDS_Y]!)
  if (!isOnGoal(r.second.fate[0]!)) return
  decide(g, pose, r.second, 0, 0, r.outcome)
  r.savedAgain = r.outcome.saved
}

/** The puck's bounce off the part that made the save, and where the goalie is then. */
function bounceOff(
  g: Goalkeeping,
  r: Rebounds,
  pose: P.Pose,
  batch: ShotBatch,
  path: number,
  { save }: Outcome,
  draws: Float64Array,
  at: number,
): void {
  const { now, scene, station, moves } = g
  const b = r.bounce
  if (moves.travels) {
    stateAt(moves.timeline, now.begins + save.time, r.state)
    b[B.AT_X] = r.state[STATE_X]!
    b[B.AT_Y] = r.state[STATE_Y]!
    b[B.AT_COS] = Math.cos(r.state[STATE_HEADING]!)
    b[B.AT_SIN] = Math.sin(r.state[STATE_HEADING]!)
  } else {
    b[B.AT_X] = station[STATION_X]!
    b[B.AT_Y] = station[STATION_Y]!
    b[B.AT_COS] = station[STATION_COS]!
    b[B.AT_SIN] = station[STATION_SIN]!
  }
  b[B.AT_VX] = moves.travels ? r.state[STATE_VX]! : 0
  b[B.AT_VY] = moves.travels ? r.state[STATE_VY]! : 0
  const { posture } = preparedNow(g, pose)
  const fallen = (save.time - save.dropStart) / now.dropTime
  const phase = fallen > now.lastPhase ? now.lastPhase : fallen > 0 ? fallen : 0
  const falls = fallen > 0 && fallen < now.lastPhase ? 1 / now.dropTime : 0
  b[B.RESTITUTION] = posture.restitution[save.part]!
  b[B.SLIPS] = pose.control[R.FRICTION]!
  b[B.TILT_1] = pose.control[R.SCATTER]! * draws[at + R.DRAW_TILT_1]!
  b[B.TILT_2] = pose.control[R.SCATTER]! * draws[at + R.DRAW_TILT_2]!
  bounce(scene.world, batch.path, path, posture, save.part, save.limb, save.time, phase, falls, b)
  const { loose, saver } = r
  loose.x = b[B.OUT_X]!
  loose.y = b[B.OUT_X + 1]!
  loose.z = b[B.OUT_X + 2]!
  loose.vx = b[B.OUT_V]!
  loose.vy = b[B.OUT_V + 1]!
  loose.vz = b[B.OUT_V + 2]!
  saver.x = b[B.AT_X]!
  saver.y = b[B.AT_Y]!
  saver.heading = Math.atan2(b[B.AT_SIN]!, b[B.AT_COS]!)
  saver.down = fallen > 0
}

/** Adds what followed a save to the tally's row. `saved` is the weight of the save, already rounded. */
export function addRebound(r: Rebounds, row: number, saved: number, sums: Float64Array): void {
  if (r.left === 0) return
  const loose = quantise(saved * r.left)
  sums[row + T.LOOSE]! += loose
  if (Number.isNaN(r.delay)) return
  sums[row + T.SECOND_SHOTS]! += loose
  if (!isOnGoal(r.second.fate[0]!)) return
  const again = quantise(loose * r.savedAgain)
  const second = Math.min(T.SECOND_BINS, Math.max(1, Math.ceil(r.delay))) - 1
  sums[row + T.SECOND_ON_GOAL]! += loose
  sums[row + T.SECOND_SAVED]! += again
  sums[row + T.SECOND_BY_DELAY + 2 * second]! += loose
  sums[row + T.SECOND_BY_DELAY + 2 * second + 1]! += again
}
