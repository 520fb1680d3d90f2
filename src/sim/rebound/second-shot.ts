import type { Goalkeeping } from "../answer.ts"
import { aimAt, LAUNCH_AZIMUTH, LAUNCH_TANGENT } from "../launch.ts"
import { goAcross } from "../motion/across.ts"
import { BUTTERFLY_SLIDE, MODE_STRIDE, MODES } from "../motion/mode.ts"
import { OPEN_MODE, openingAt } from "../motion/opening.ts"
import { STATE_X, STATE_Y, stateAt } from "../motion/timeline.ts"
import { begin } from "../motion/travel.ts"
import { readingTime, stationOfState, vigourOf } from "../play/moves.ts"
import * as P from "../pose.ts"
import { invertNormal } from "../random/normal.ts"
import { sampleTruncatedNormal } from "../random/truncated-normal.ts"
import type { ShotBatch } from "../shots.ts"
import * as shotColumns from "../shots.ts"
import { standWithErrors } from "../stand-for-shot.ts"
import type { Metres, Seconds } from "../units.ts"
import { MOUTH_HALF_WIDTH } from "../world.ts"
import * as R from "./rebound-table.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { GOALIE_DRAWS, SHOT_AIM_Y, SHOT_AIM_Z, SHOT_SPEED, SHOT_X, SHOT_Y, SHOT_Z } = shotColumns

/** Half of what a goalie on the knees covers across, m: where the openings beside begin for a shooter's eye. */
const HALF_COVERED: Metres = 0.55
/** A puck against the body is pulled this far clear of it before it can be shot, m; and out from the goal line. */
const CLEAR: Metres = 0.15
const FROM_LINE: Metres = 0.25

/** Where the goalie is when the first save is made, and on the way from then on: x, y, heading. */
export interface Saver {
  x: Metres
  y: Metres
  heading: number
  /** The drop had begun. */
  down: boolean
}

/**
 * Moves the goalie from the first save to the second shot, `delay` later at (x, y): reads the loose puck, then goes
 * across; on the knees it is a slide, and only after `recovers` a goalie who went down stands again. The timeline's
 * time 0 is the second release. The goalie's draws are those of `second`.
 */
export function moveToSecond(
  g: Goalkeeping,
  pose: P.Pose,
  second: ShotBatch,
  saver: Saver,
  x: Metres,
  y: Metres,
  delay: Seconds,
  movement: Float64Array,
): void {
  const { moves, scene } = g
  const down = saver.down && delay < pose.control[R.RECOVERS]!
  second.again[R.AGAIN_DOWN] = down ? 1 : 0
  for (let i = 0; i < movement.length; i++) movement[i] = pose.movement[i]!
  // whoever is down has only the slide, whatever the direction
  if (down)
    for (let mode = 0; mode < MODES.length; mode++)
      for (let i = 0; i < MODE_STRIDE; i++)
        movement[mode * MODE_STRIDE + i] = pose.movement[BUTTERFLY_SLIDE * MODE_STRIDE + i]!
  const reading = readingTime(movement, second.goalie, 0)
  const vigour = vigourOf(movement, second.goalie, 0)
  const posture = scene.postures[pose.posture]!
  const mouth = scene.world[MOUTH_HALF_WIDTH]!
  standWithErrors(posture, pose.numbers, mouth, pose.numbers[P.DEPTH]!, second.goalie, 0, x, y, moves.target)
  begin(moves.timeline, -delay, saver.x, saver.y, 0, 0, saver.heading)
  moves.readAt = reading - delay
  if (reading < delay) goAcross(movement, moves.readAt, moves.target, vigour, moves.timeline)
  stateAt(moves.timeline, 0, moves.state)
  openingAt(moves.timeline, movement, pose.control[R.RECOVERS]!, 0, moves.opening)
  // whoever has stayed down since the save slides
  if (down) moves.opening[OPEN_MODE] = BUTTERFLY_SLIDE
  stationOfState(moves.state, g.station)
  moves.travels = true
  g.now.begins = 0
}

/**
 * The second shot from (x, y), hurried, by the REBOUND draws from `at` on: fills the one shot of `second`, path and fate.
 * A puck against the goalie is pulled clear first.
 */
export function shootAgain(
  g: Goalkeeping,
  pose: P.Pose,
  second: ShotBatch,
  table: Float64Array,
  draws: Float64Array,
  at: number,
  x: Metres,
  y: Metres,
): void {
  const { scene, moves } = g
  const { shot, path, aimed } = second
  const gx = moves.state[STATE_X]!
  const gy = moves.state[STATE_Y]!
  const nearest = scene.postures[pose.posture]!.foremost + CLEAR
  const ax = x - gx
  const ay = y - gy
  const away = Math.sqrt(ax * ax + ay * ay)
  const pull = away < nearest ? nearest / Math.max(away, 1e-3) : 1
  const px = Math.max(FROM_LINE, gx + pull * ax)
  const py = gy + pull * ay
  const z = table[R.RELEASE_HEIGHT]!

  const D = Math.sqrt(px * px + py * py)
  const row = R.BY_DISTANCE + R.DISTANCE_STRIDE * Math.min(R.DISTANCE_ROWS - 1, Math.round(D / R.DISTANCE_STEP))
  const drawn = sampleTruncatedNormal(draws[at + R.DRAW_SPEED]!, table[row]!, table[row + 1]!)
  const speed = drawn > table[row + 2]! ? drawn : table[row + 2]!
  aim(scene.world, table, draws, at, px, py, gx, gy, shot)
  aimAt(scene.world, px, py, z, shot[SHOT_AIM_Y]!, shot[SHOT_AIM_Z]!, speed, table[R.STEEPEST]!, path, 0, aimed, 0)
  const azimuth = aimed[LAUNCH_AZIMUTH]! + table[row + 3]! * invertNormal(draws[at + R.DRAW_AZIMUTH]!)
  const raised = Math.atan(aimed[LAUNCH_TANGENT]!) + table[row + 4]! * invertNormal(draws[at + R.DRAW_ELEVATION]!)
  shot[SHOT_X] = px
  shot[SHOT_Y] = py
  shot[SHOT_Z] = z
  shot[SHOT_SPEED] = speed
  shotColumns.flyShot(scene.world, second, 0, azimuth, raised)
}

/** Into the wider opening beside the goalie, or at the net. */
function aim(
  world: Float64Array,
  table: Float64Array,
  draws: Float64Array,
  at: number,
  px: Metres,
  py: Metres,
  gx: Metres,
  gy: Metres,
  shot: Float64Array,
): void {
  const half = world[MOUTH_HALF_WIDTH]!
  let y = table[R.AIM_ACROSS]! * invertNormal(draws[at + R.DRAW_AIM_1]!)
  if (draws[at + R.DRAW_SEES]! < table[R.SEES]! && gx < px - 0.1) {
    // the goalie's shadow on the goal line
    const grows = px / (px - gx)
    const middle = py + (gy - py) * grows
    const left = half - (middle + HALF_COVERED * grows)
    const right = half + (middle - HALF_COVERED * grows)
    const open = Math.max(0, left > right ? left : right)
    y = left > right ? half - 0.5 * open : 0.5 * open - half
  }
  const z = table[R.AIM_HEIGHT]! + table[R.AIM_UP]! * invertNormal(draws[at + R.DRAW_AIM_2]!)
  shot[SHOT_AIM_Y] = y
  shot[SHOT_AIM_Z] = z > 0 ? z : 0
}

/** Shapes the goalie's draws of a second shot like those of a first: copies them from the REBOUND draws. */
export function takeGoalieDraws(second: ShotBatch, draws: Float64Array, at: number): void {
  for (let k = 0; k < GOALIE_DRAWS; k++) second.goalie[k] = draws[at + R.DRAW_GOALIE + k]!
  shotColumns.shapeGoalieDraws(second.goalie, 0)
}
