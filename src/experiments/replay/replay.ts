import { compileScene } from "../../models/plays/scene.ts"
import { answerShot, preparedNow, standForShot } from "../../sim/answer.ts"
import { decideConditional } from "../../sim/conditional.ts"
import { STATE_LENGTH, stateAt } from "../../sim/motion/timeline.ts"
import type { Posture } from "../../sim/parts.ts"
import { PATH_STRIDE } from "../../sim/path.ts"
import { stationOfState } from "../../sim/play/moves.ts"
import * as P from "../../sim/pose.ts"
import { sampleLognormal } from "../../sim/random/lognormal.ts"
import type { SeedKey } from "../../sim/random/streams.ts"
import { type Engine, engine, type ShotPlan } from "../../sim/sampling.ts"
import { stretchAt } from "../../sim/saves.ts"
import { DRAW_REACTION, GOALIE_DRAWS, makeShots } from "../../sim/shots.ts"
import type { Probability, Seconds } from "../../sim/units.ts"
import { type DesignPoint, type Experiment, samplingOf } from "../experiment.ts"
import { groupPoints } from "../run/groups.ts"
import { seedKey } from "../seed.ts"
import { planOf, type ShotName } from "./shot-name.ts"

/** One design point of a run, ready to fire any of its shots again. */
export interface Replay {
  readonly experiment: Experiment
  readonly point: DesignPoint
  readonly plan: ShotPlan
  readonly key: SeedKey
  readonly engine: Engine
  /** Place of the point among the poses of its scene: points that see the same shots share one. */
  readonly pose: number
}

/** One shot as the run saw it: the batch it belongs to is in the engine, and so is what the goalie made of it. */
export interface FiredShot {
  readonly name: ShotName
  /** Its place in the batch. */
  readonly i: number
  /** How often it counts for this point; 1 unless shooters read the goalie. */
  readonly weight: number
  /**
   * Chance that it is stopped as the run adds it up, on goal or not: over all reactions, and over block or reaction and
   * the lead of a block where the goalie may block it. 0 without a goalie.
   */
  readonly saved: Probability
  /** When the hands start with the drawn reaction, after the release; Infinity when they never do. */
  readonly start: Seconds
  /** The drawn reaction time itself. */
  readonly reaction: Seconds
  /** Index of the stretch of saving reactions that holds the drawn one, or -1. */
  readonly by: number
}

/** Opens a point of the experiment for replaying: the same scene, seed and batches as a run of it. */
export function openReplay(experiment: Experiment, point: number): Replay {
  const group = groupPoints(experiment.points).find(({ points }) => points.includes(point))
  if (group === undefined)
    throw new RangeError(
      `Cannot open a replay as the point must be < ${experiment.points.length}: current value is ${point}`,
    )
  const plan = planOf(experiment)
  return {
    experiment,
    point: experiment.points[point]!,
    plan,
    key: seedKey(experiment.seed),
    engine: engine(compileScene(group.settings), plan.batch, samplingOf(experiment)),
    pose: group.points.indexOf(point),
  }
}

/** The body that meets the shot in hand, with what its limbs can do when set, or when not. */
export function bodyNow({ engine, pose }: Replay): Posture {
  const g = engine.goalkeeping
  return preparedNow(g, g.scene.poses[pose]!).posture
}

/** Where the goalie is at a moment of the shot in hand: in place, or on the way and turning. */
export function stationAt({ engine }: Replay, time: Seconds): Float64Array {
  const g = engine.goalkeeping
  if (!g.moves.travels) return g.station
  const state = new Float64Array(STATE_LENGTH)
  const station = g.station.slice()
  stateAt(g.moves.timeline, time, state)
  stationOfState(state, station)
  return station
}

/** Fires a shot's batch, unless it is the one in hand, and lets the goalie answer that shot. */
export function fireShot(replay: Replay, name: ShotName): FiredShot {
  const { plan, key, pose: p } = replay
  const { batch, goalkeeping: g, outcome } = replay.engine
  const i = name.index % plan.batch
  const first = name.index - i
  if (batch.count !== plan.batch || batch.replicate !== name.replicate || batch.first !== first)
    makeShots(g.scene, key, name.replicate, first, plan.batch, batch)
  const { strata } = g.scene
  const stratum = batch.stratum[i]!
  const weight = strata.share[p * strata.count + stratum]! / strata.allotment[stratum]!
  const pose = g.scene.poses[p]!
  if (pose.numbers[P.ANSWER] === P.ANSWER_ABSENT)
    return { name, i, weight, saved: 0, start: Infinity, reaction: Number.NaN, by: -1 }
  standForShot(g, pose, batch, i)
  decideConditional(g, pose, batch, i, i * PATH_STRIDE, outcome)
  // the story is of the answer and the lead drawn for this shot, met from where the goalie is at the release
  standForShot(g, pose, batch, i)
  answerShot(g, pose, batch, i, i * PATH_STRIDE)
  const u = batch.goalie[i * GOALIE_DRAWS + DRAW_REACTION]!
  const reaction = sampleLognormal(u, pose.numbers[P.REACTION_MEDIAN]!, pose.numbers[P.REACTION_SPREAD]!)
  const start = reaction - g.now.read
  return { name, i, weight, saved: outcome.saved, start, reaction, by: stretchAt(g.saves, start) }
}
