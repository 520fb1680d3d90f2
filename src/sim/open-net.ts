import { type Goalkeeping, standForShot } from "./answer.ts"
import { openShare } from "./box/open-share.ts"
import type { Mouth } from "./box/sight.ts"
import { NO_SHOT } from "./fate.ts"
import { SET_AT } from "./motion/timeline.ts"
import { bodyInMotion } from "./moving-body.ts"
import { branchRow, LEG_COUNT, PLAY_DRAWS } from "./play/course.ts"
import { type PlayedShot, puckAt } from "./play/puck-at.ts"
import { CLOCK_LENGTH, LEG_STARTS } from "./play/timing.ts"
import { ANSWER, ANSWER_ABSENT, type Pose } from "./pose.ts"
import { SHOT_STRIDE, SHOT_X, SHOT_Y, SHOT_Z, type ShotBatch } from "./shots.ts"
import * as S from "./strata.ts"
import type { Probability, Seconds } from "./units.ts"
import { BAR_RADIUS, MOUTH_HALF_WIDTH, MOUTH_HEIGHT, POST_RADIUS } from "./world.ts"

/**
 * How much of the mouth the puck sees past the goalie from the last thing that happens to it before the shot, a pass, a
 * cut or a carry, up to the release. The puck looks from where it is at each instant, at the height of the shot; the goalie
 * stands where this shot's way has come to, and as it leaves the body.
 */
export interface OpenNet {
  /** Open share of the mouth at the release. */
  atRelease: Probability
  /** Largest open share at the instants looked at, from the start of the last leg to the release. */
  most: Probability
  /** The open share added up over that time: as long as a wholly open net would amount to the same. */
  time: Seconds
  /** From the start of the last leg to the release. */
  lasts: Seconds
  /** When the goalie is set for good: after the release when more than 0. */
  setAt: Seconds
}

export function openNet(): OpenNet {
  return { atRelease: 0, most: 0, time: 0, lasts: 0, setAt: 0 }
}

/** Intervals between the instants looked at; the time is their sum by the trapezium rule. */
const STEPS = 16

/** One shot on its way, made for {@link openShareAt}. */
export interface OnTheWay {
  readonly shot: PlayedShot
  readonly height: number
  readonly lastLeg: Seconds
  readonly setAt: Seconds
}

/** Sends the goalie of a pose on the way to shot i; null where no shot comes of the play, or nothing goes before it. */
export function onTheWay(g: Goalkeeping, pose: Pose, batch: ShotBatch, i: number): OnTheWay | null {
  const { play, strata } = g.scene
  const branch = branchRow(strata.table[batch.stratum[i]! * S.STRATUM_STRIDE + S.BRANCH]!)
  const legs = play[branch + LEG_COUNT]!
  if (batch.fate[i] === NO_SHOT || legs === 0) return null
  standForShot(g, pose, batch, i)
  const at = i * SHOT_STRIDE
  const clockAt = i * CLOCK_LENGTH
  return {
    shot: {
      branch,
      x: batch.shot[at + SHOT_X]!,
      y: batch.shot[at + SHOT_Y]!,
      clock: batch.clock,
      clockAt,
      draws: batch.play,
      drawsAt: i * PLAY_DRAWS,
    },
    height: batch.shot[at + SHOT_Z]!,
    lastLeg: batch.clock[clockAt + LEG_STARTS + legs - 1]!,
    setAt: g.moves.timeline[SET_AT]!,
  }
}

/** Open share of the mouth at time t of the way last begun by {@link onTheWay}; the puck does not move after the release. */
export function openShareAt(g: Goalkeeping, pose: Pose, { shot, height }: OnTheWay, t: Seconds): Probability {
  const { world, play } = g.scene
  const puck = new Float64Array(2)
  puckAt(world, play, shot, t, puck)
  if (pose.numbers[ANSWER] === ANSWER_ABSENT) return puck[0]! > 0 ? 1 : 0
  return openShare(bodyInMotion(g, pose, t), puck[0]!, puck[1]!, height, mouthIn(world))
}

/** Measures the open net of the way to shot i into `out`; false where there is none. */
export function measureOpenNet(g: Goalkeeping, pose: Pose, batch: ShotBatch, i: number, out: OpenNet): boolean {
  const way = onTheWay(g, pose, batch, i)
  if (way === null) return false
  const step = -way.lastLeg / STEPS
  out.most = 0
  let sum = 0
  for (let k = 0; k <= STEPS; k++) {
    const share = openShareAt(g, pose, way, k === STEPS ? 0 : way.lastLeg + k * step)
    if (share > out.most) out.most = share
    sum += k === 0 || k === STEPS ? 0.5 * share : share
    out.atRelease = share
  }
  out.time = sum * step
  out.lasts = -way.lastLeg
  out.setAt = way.setAt
  return true
}

function mouthIn(world: Float64Array): Mouth {
  return {
    width: 2 * world[MOUTH_HALF_WIDTH]!,
    height: world[MOUTH_HEIGHT]!,
    postRadius: world[POST_RADIUS]!,
    barRadius: world[BAR_RADIUS]!,
  }
}
