import * as T from "../../sim/motion/timeline.ts"
import { branchRow, PLAY_DRAWS, PLAY_MOVES } from "../../sim/play/course.ts"
import { moves, planMoves } from "../../sim/play/moves.ts"
import { CLOCK_LENGTH, LEG_ENDS, LEG_STARTS, timePlay } from "../../sim/play/timing.ts"
import { GOALIE_DRAWS } from "../../sim/shots.ts"
import type { Metres, Probability, Radians, Seconds } from "../../sim/units.ts"
import { MOUTH_HALF_WIDTH } from "../../sim/world.ts"
import type { Settings } from "../settings.ts"
import type { PlayBranch, Spot } from "./branch.ts"
import { blindShares } from "./branch-shares.ts"
import { branchesOf } from "./branches.ts"
import { compileScene } from "./scene.ts"

/** Part of the puck's way: where it goes, how, and when. Times from the release, so negative before it. */
export interface UsualLeg {
  readonly does: "pass" | "carry" | "cut"
  readonly from: Spot
  readonly to: Spot
  readonly starts: Seconds
  readonly ends: Seconds
}

/** Where the goalie is at one moment. */
export interface GoalieMoment {
  readonly at: Seconds
  readonly x: Metres
  readonly y: Metres
  readonly heading: Radians
  readonly isSet: boolean
}

/** One branch of a play as it usually goes: every speed, wait and reading at its middle, nobody in error. */
export interface UsualCourse {
  readonly name: string
  /** How often it is played, against this goalie, by a carrier who does not look. */
  readonly share: Probability
  readonly legs: readonly UsualLeg[]
  /** Where the shot is taken. */
  readonly shot: Spot
  /** From the start of the play, or a moment before a shot without one, to a moment after the release. */
  readonly goalie: readonly GoalieMoment[]
  /** When the goalie leaves the set stance and is set again; null where the goalie stays set. */
  readonly leavesSet: Seconds | null
  readonly setAgain: Seconds | null
}

/** Moments at which the goalie is looked at. */
const MOMENTS = 61
/** Looked at so long before a shot without a play, and so long after any release, s. */
const BEFORE: Seconds = 0.5
const AFTER: Seconds = 0.15

/** How the play of these settings usually goes, branch by branch, with the goalie's way through it. */
export function usualCourses(settings: Settings): UsualCourse[] {
  const scene = compileScene([blind(settings)])
  const pose = scene.poses[0]!
  const posture = scene.postures[pose.posture]!
  const branches = branchesOf(settings)
  const shares = blindShares(settings)
  return branches.flatMap((branch, index) => {
    const share = shareShown(branches, shares, index)
    if (share === 0) return []
    const { "play.distance": distance, "play.angle": angle } = branch.settings.quantities
    const first = settings.origins[0]
    // of several places the middle of the first stands for the play
    const shot =
      branch.legs.length === 0 && first?.kind === "spot"
        ? { x: first.x, y: first.y }
        : { x: distance * Math.cos(angle), y: distance * Math.sin(angle) }
    const row = branchRow(index)
    const clock = new Float64Array(CLOCK_LENGTH)
    timePlay(scene.world, scene.play, row, shot.x, shot.y, new Float64Array(PLAY_DRAWS), 0, clock, 0)
    const m = moves()
    const played = {
      play: scene.play,
      mouthHalfWidth: scene.world[MOUTH_HALF_WIDTH]!,
      branch: row,
      ...shot,
      clock,
      clockAt: 0,
      draws: new Float64Array(GOALIE_DRAWS),
      drawsAt: 0,
    }
    planMoves(pose, posture, played, m)
    const moving = scene.play[PLAY_MOVES] === 1 && Number.isFinite(m.timeline[T.UNSET_FROM]!)
    let from: Spot = branch.start
    const legs = branch.legs.map(({ kind, x, y }, k) => {
      const to = k === branch.legs.length - 1 ? shot : { x, y }
      const leg = { does: kind, from, to, starts: clock[LEG_STARTS + k]!, ends: clock[LEG_ENDS + k]! }
      from = to
      return leg
    })
    const course: UsualCourse = {
      name: branch.name,
      share,
      legs,
      shot,
      goalie: momentsOf(m.timeline, m.lasts > 0 ? -m.lasts : -BEFORE),
      leavesSet: moving ? m.timeline[T.UNSET_FROM]! : null,
      setAgain: moving ? m.timeline[T.SET_AT]! : null,
    }
    return [course]
  })
}

/** Share of all branches of one name, at the one of them that is played most; 0 at the others. */
function shareShown(branches: readonly PlayBranch[], shares: readonly Probability[], index: number): Probability {
  const alike = [...branches.keys()].filter((other) => branches[other]!.name === branches[index]!.name)
  const most = alike.reduce((top, other) => (shares[other]! > shares[top]! ? other : top))
  return index === most ? alike.reduce((sum, other) => sum + shares[other]!, 0) : 0
}

function momentsOf(timeline: Float64Array, starts: Seconds): GoalieMoment[] {
  const state = new Float64Array(T.STATE_LENGTH)
  return Array.from({ length: MOMENTS }, (_, i) => {
    const at = starts + ((AFTER - starts) * i) / (MOMENTS - 1)
    T.stateAt(timeline, at, state)
    return {
      at,
      x: state[T.STATE_X]!,
      y: state[T.STATE_Y]!,
      heading: state[T.STATE_HEADING]!,
      isSet: state[T.STATE_UNSET_FOR]! === 0,
    }
  })
}

/** The same play before a shooter who does not look: what is seen of the goalie is not asked for here. */
function blind(settings: Settings): Settings {
  const { quantities } = settings
  return { ...settings, quantities: { ...quantities, "shooter.reading": 0, "shooter.choice_skill": 0 } }
}
