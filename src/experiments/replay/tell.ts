import { collectCover, preparedNow } from "../../sim/answer.ts"
import { isOnGoal } from "../../sim/fate.ts"
import { REACTS } from "../../sim/moment.ts"
import { PATH_STRIDE } from "../../sim/path.ts"
import * as P from "../../sim/pose.ts"
import { pointText } from "../report/words.ts"
import { limbStarts, playBefore, readingStory, standStory } from "./goalie-story.ts"
import { measurePasses, passStory, standingStory } from "./passes.ts"
import { reboundStory } from "./rebound.ts"
import { flightStory, releaseStory } from "./release-and-flight.ts"
import { bodyNow, type FiredShot, fireShot, type Replay } from "./replay.ts"
import { bounded, milliseconds, rounded } from "./round.ts"
import { type ShotName, shotText } from "./shot-name.ts"
import type { BlockStory, ReactionsStory, Story } from "./story.ts"
import { coverStretches, type Stretch, savingStretches, spareOf } from "./stretches.ts"
import { trafficStory } from "./traffic.ts"
import { verdictStory } from "./verdict.ts"

/** Tells one shot of a run from the release to its end. */
export function tellShot(replay: Replay, name: ShotName): Story {
  const fired = fireShot(replay, name)
  const { experiment, point, engine, pose } = replay
  const { scene } = engine.goalkeeping
  const { numbers } = scene.poses[pose]!
  const hasGoalie = numbers[P.ANSWER] !== P.ANSWER_ABSENT
  const contested = hasGoalie && isOnGoal(engine.batch.fate[fired.i]!)
  const measured = contested ? measurePasses(replay, fired) : []
  const stretches = contested ? stretchesOf(replay) : []
  const flight = flightStory(replay, fired, hasGoalie)
  return {
    experiment: experiment.name,
    seed: experiment.seed,
    shot: shotText(name),
    point: {
      number: point.index + 1,
      of: experiment.points.length,
      name: pointText(experiment, point.index),
      baseline: point.index === experiment.baseline,
    },
    weight: rounded(fired.weight, 6),
    release: releaseStory(replay, fired),
    before: playBefore(replay, fired),
    stand: hasGoalie ? standStory(replay, fired) : null,
    traffic: trafficStory(replay, fired, contested),
    reading: hasGoalie ? readingStory(replay, fired) : null,
    flight,
    limbs: hasGoalie ? limbStarts(replay, fired) : [],
    passes: measured.map((one) => passStory(bodyNow(replay), one)),
    verdict: verdictStory(replay, fired, flight, measured, stretches),
    reactions: contested ? reactionsStory(fired, stretches, engine.goalkeeping.now.read) : null,
    block: contested ? blockStory(replay, fired) : null,
    standing: contested ? standingStory(replay, fired) : null,
    // the last to be told: the goalie moves on to the second shot
    rebound: contested ? reboundStory(replay, fired) : null,
  }
}

/** The saving reactions of the shot in hand. */
export function stretchesOf({ engine, pose }: Replay): Stretch[] {
  const { saves, now, scene } = engine.goalkeeping
  const { numbers } = scene.poses[pose]!
  const median = numbers[P.REACTION_MEDIAN]!
  return savingStretches(saves, { median, spread: numbers[P.REACTION_SPREAD]!, read: now.read })
}

function reactionsStory({ saved, start }: FiredShot, stretches: readonly Stretch[], read: number): ReactionsStory {
  return {
    probability: rounded(
      stretches.reduce((sum, { probability }) => sum + probability, 0),
      9,
    ),
    countedProbability: saved,
    saving: stretches.map(({ from, to, region, limb, probability }) => ({
      fromMs: from <= -read ? null : milliseconds(from),
      toMs: bounded(milliseconds(to)),
      reactionFromMs: from <= -read ? null : milliseconds(from + read),
      reactionToMs: bounded(milliseconds(to + read)),
      region,
      limb,
      probability: rounded(probability, 9),
      drawn: from < start && start <= to,
    })),
  }
}

/** What another lead would have done, for a shot that is blocked. */
function blockStory(replay: Replay, { i }: FiredShot): BlockStory | null {
  const { goalkeeping: g, batch } = replay.engine
  const { longestLead, blockLead, leaks } = g.now
  if (blockLead <= REACTS || leaks || !(longestLead > 0)) return null
  collectCover(g, preparedNow(g, g.scene.poses[replay.pose]!), batch.path, i * PATH_STRIDE)
  const covering = coverStretches(g.cover, -longestLead)
  const spare = spareOf(covering, -blockLead, -longestLead)
  const covered = covering.reduce((sum, { from, to }) => sum + to - from, 0)
  return {
    earliestMs: milliseconds(-longestLead),
    coveredShare: rounded(covered / longestLead, 6),
    covering: covering.map(({ from, to, region }) => ({ fromMs: milliseconds(from), toMs: milliseconds(to), region })),
    byMs: covered < longestLead ? bounded(milliseconds(spare.by)) : null,
    way: spare.way,
  }
}
