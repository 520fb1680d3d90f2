import { STATE_X, STATE_Y, stateAt } from "../../sim/motion/timeline.ts"
import { branchRow, PLAY_DRAWS, playTable } from "../../sim/play/course.ts"
import { moves, planMoves } from "../../sim/play/moves.ts"
import { CLOCK_LENGTH, LEG_ENDS, LEG_STARTS, timePlay } from "../../sim/play/timing.ts"
import { GOALIE_DRAWS } from "../../sim/shots.ts"
import type { Metres } from "../../sim/units.ts"
import { MOUTH_HALF_WIDTH } from "../../sim/world.ts"
import { buildPosture } from "../goalie/posture.ts"
import { movementNumbers } from "../movement/movement-numbers.ts"
import { poseNumbers } from "../positioning/pose-numbers.ts"
import type { Settings } from "../settings.ts"
import { carryTo, polar, type Spot } from "./branch.ts"
import { planNumbers } from "./plan-numbers.ts"
import { controlNumbers } from "./rebound.ts"
import { worldOf } from "./world.ts"

/** How finely the way in is looked along. */
const STEPS = 400

/**
 * How far from the centre of the goal line a puck carried from `start` straight to `nearest` out is when it first comes
 * within play.keep_off of the goalie, or `nearest` where it never does. The goalie is taken as usual: every speed and
 * time at its middle, nobody in error.
 */
export function keepsOffAt(settings: Settings, start: Spot, nearest: Metres): Metres {
  const { quantities: q } = settings
  const end = polar(nearest, q["play.angle"])
  const carry = carryTo(end, q["play.carry_speed"], 0)
  const world = worldOf(settings)
  const play = playTable([{ ...start, legs: [carry], lost: 0 }], true)
  const clock = new Float64Array(CLOCK_LENGTH)
  timePlay(world, play, branchRow(0), end.x, end.y, new Float64Array(PLAY_DRAWS), 0, clock, 0)
  const pose = {
    posture: 0,
    numbers: poseNumbers(settings),
    movement: movementNumbers(settings),
    plan: planNumbers(settings, [{ name: "", share: 1, start, legs: [carry], lost: 0, settings }]),
    control: controlNumbers(settings),
  }
  const shot = {
    play,
    mouthHalfWidth: world[MOUTH_HALF_WIDTH]!,
    branch: branchRow(0),
    ...end,
    clock,
    clockAt: 0,
    draws: new Float64Array(GOALIE_DRAWS),
    drawsAt: 0,
  }
  const m = moves()
  planMoves(pose, buildPosture(settings), shot, m)
  for (let i = 0; i <= STEPS; i++) {
    const share = i / STEPS
    stateAt(m.timeline, clock[LEG_STARTS]! + share * (clock[LEG_ENDS]! - clock[LEG_STARTS]!), m.state)
    const x = start.x + share * (end.x - start.x)
    const y = start.y + share * (end.y - start.y)
    if (Math.hypot(x - m.state[STATE_X]!, y - m.state[STATE_Y]!) < q["play.keep_off"]) return Math.hypot(x, y)
  }
  return nearest
}
