import { openedBy } from "../../models/plays/open-bodies.ts"
import { puckView, viewSeen } from "../../models/positioning/box.ts"
import { blockShare, unsetNow } from "../../sim/answer.ts"
import { NO_SHOT } from "../../sim/fate.ts"
import { distanceToBody } from "../../sim/meet-goalie.ts"
import { dropStart, REACTS } from "../../sim/moment.ts"
import { MODES } from "../../sim/motion/mode.ts"
import { DOWN_FOR, OPEN_LEVEL, OPEN_MODE, OPENING_LEVELS } from "../../sim/motion/opening.ts"
import { ON_ANGLE_AT, SET_AT, STATE_VX, STATE_VY, UNSET_FROM } from "../../sim/motion/timeline.ts"
import { LAG, LIMB_STRIDE, LIMBS } from "../../sim/parts.ts"
import { PATH_STRIDE, timeAt } from "../../sim/path.ts"
import { PLAY_MOVES, START_X, START_Y } from "../../sim/play/course.ts"
import * as P from "../../sim/pose.ts"
import { SHOT_STRIDE, SHOT_X, SHOT_Y, SHOT_Z } from "../../sim/shots.ts"
import { STATION_COS, STATION_CUT, STATION_DEPTH, STATION_SIN, STATION_X, STATION_Y } from "../../sim/station.ts"
import { PUCK_HALF_THICKNESS } from "../../sim/world.ts"
import { legStories } from "./legs.ts"
import { bodyNow, type FiredShot, type Replay, stationAt } from "./replay.ts"
import { bounded, centimetres, milliseconds, rounded } from "./round.ts"
import type { LimbStart, OpenedStory, PlayBefore, ReadingStory, StandStory } from "./story.ts"
import type { DropClock } from "./watch.ts"

/** Where the goalie stood when the shot left the stick. */
export function standStory(replay: Replay, { i }: FiredShot): StandStory {
  const { point, pose } = replay
  const { batch, goalkeeping: g } = replay.engine
  const { scene } = g
  const station = stationAt(replay, 0)
  const { numbers } = scene.poses[pose]!
  const px = batch.shot[i * SHOT_STRIDE + SHOT_X]!
  const py = batch.shot[i * SHOT_STRIDE + SHOT_Y]!
  const pz = Math.max(batch.shot[i * SHOT_STRIDE + SHOT_Z]!, scene.world[PUCK_HALF_THICKNESS]!)
  const x = station[STATION_X]!
  const y = station[STATION_Y]!
  const heading = Math.atan2(station[STATION_SIN]!, station[STATION_COS]!)
  const toPuck = Math.atan2(py - y, px - x)
  const standing = { gx: x, gy: y, heading, phase: 0 }
  const view = puckView(bodyNow(replay), standing, scene.world, px, py, pz)
  return {
    stance: point.settings.choices["goalie.stance"],
    hands: point.settings.choices["goalie.hands"],
    // whoever has come through a play may not be where the depth is
    depthM: rounded(scene.play[PLAY_MOVES] === 1 ? Math.hypot(x, y) : station[STATION_DEPTH]!, 4),
    askedM: rounded(numbers[P.DEPTH]!, 4),
    cut: station[STATION_CUT] === 1,
    xM: rounded(x, 4),
    yM: rounded(y, 4),
    offLineCm: centimetres((px * y - py * x) / Math.hypot(px, py)),
    turnedDegrees: rounded((Math.atan2(Math.sin(heading - toPuck), Math.cos(heading - toPuck)) * 180) / Math.PI, 3),
    netCovered: rounded(viewSeen(view).netCovered, 4),
    notSet: unsetNow(g),
    opened: openedStory(replay),
  }
}

/** What the movement has opened by the release; null where nothing is, and in a straight shot. */
function openedStory({ engine, point }: Replay): OpenedStory | null {
  const { moves } = engine.goalkeeping
  const { [OPEN_MODE]: mode, [OPEN_LEVEL]: level, [DOWN_FOR]: down } = moves.opening
  if (!moves.travels || (level === 0 && down! < 0)) return null
  const share = level! / OPENING_LEVELS
  const { legs, hands, blade, lean } = openedBy(point.settings, mode!, share)
  return {
    by: MODES[mode!] ?? "turn",
    share,
    legsCm: centimetres(legs),
    handsCm: centimetres(hands),
    bladeCm: centimetres(blade),
    leanDegrees: rounded((lean * 180) / Math.PI, 3),
    downForMs: down! < 0 ? null : milliseconds(down!),
  }
}

/** The play before the shot and the goalie's way through it; null in a straight shot, and where no shot comes of it. */
export function playBefore({ engine, pose }: Replay, { i }: FiredShot): PlayBefore | null {
  const { moves, played, scene } = engine.goalkeeping
  if (scene.play[PLAY_MOVES] === 0 || scene.poses[pose]!.numbers[P.ANSWER] === P.ANSWER_ABSENT) return null
  if (engine.batch.fate[i] === NO_SHOT) return null
  const { timeline, state } = moves
  return {
    fromXM: rounded(scene.play[played.branch + START_X]!, 4),
    fromYM: rounded(scene.play[played.branch + START_Y]!, 4),
    legs: legStories(played, timeline),
    firstMoveMs: bounded(milliseconds(timeline[UNSET_FROM]!)),
    setMs: bounded(milliseconds(timeline[SET_AT]!)),
    onAngleMs: bounded(milliseconds(timeline[ON_ANGLE_AT]!)),
    speedAtReleaseMS: rounded(Math.hypot(state[STATE_VX]!, state[STATE_VY]!), 3),
  }
}

/** When the drop of this shot starts, as a clock for watching it. */
export function dropClock({ engine }: Replay, { start }: FiredShot): DropClock {
  const { now } = engine.goalkeeping
  return { start: dropStart(now, start), takes: now.dropTime, last: now.lastPhase }
}

/** Start of the hands' clock; a frozen goalie's never starts. */
export function handsStart({ engine }: Replay, { start }: FiredShot): number {
  return engine.goalkeeping.now.frozen ? Infinity : start
}

/** What the goalie knew and when, and what the answer was. */
export function readingStory(replay: Replay, fired: FiredShot): ReadingStory {
  const { batch, goalkeeping: g } = replay.engine
  const { now } = g
  const { numbers } = g.scene.poses[replay.pose]!
  const flight = timeAt(batch.path, fired.i * PATH_STRIDE, distanceToBody(g.meeting))
  const drop = dropClock(replay, fired)
  return {
    answer: now.frozen ? "frozen" : now.blockLead > REACTS && !now.committed ? "block" : "reaction",
    blockShare: rounded(blockShare(numbers, flight - now.sight), 4),
    readFromMs: milliseconds(-now.read),
    reactionMs: milliseconds(fired.reaction),
    medianReactionMs: milliseconds(numbers[P.REACTION_MEDIAN]!),
    handsStartMs: bounded(milliseconds(handsStart(replay, fired))),
    dropStartMs: bounded(milliseconds(drop.start)),
    dropEndMs: bounded(milliseconds(drop.start + drop.last * drop.takes)),
    dropShare: drop.last,
    squeezes: now.leaks,
    slides: g.moves.travels && g.moves.opening[DOWN_FOR]! >= 0,
  }
}

/** First movement of each limb, the earliest first. */
export function limbStarts(replay: Replay, fired: FiredShot): LimbStart[] {
  const start = handsStart(replay, fired)
  if (start === Infinity) return []
  const { limbs } = bodyNow(replay)
  return LIMBS.map((limb, index) => ({
    limb,
    startMs: milliseconds(start + limbs[index * LIMB_STRIDE + LAG]!),
  })).sort((a, b) => a.startMs - b.startMs)
}
