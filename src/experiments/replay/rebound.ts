import { IRON_OUT, isOnGoal } from "../../sim/fate.ts"
import { REGIONS } from "../../sim/parts.ts"
import * as B from "../../sim/rebound/bounce.ts"
import { takeSave } from "../../sim/rebound/choose-save.ts"
import { followSave, type Rebounds } from "../../sim/rebound/follow.ts"
import * as L from "../../sim/rebound/loose.ts"
import { AGAIN_DOWN } from "../../sim/rebound/rebound-table.ts"
import { decidePlain } from "../../sim/referee.ts"
import { SHOT_SPEED, SHOT_X, SHOT_Y } from "../../sim/shots.ts"
import { plain } from "../report/words.ts"
import { partName } from "./passes.ts"
import { bodyNow, type FiredShot, type Replay } from "./replay.ts"
import { milliseconds, rounded } from "./round.ts"
import type { Row } from "./row.ts"
import type { ReboundStory, SecondStory } from "./story.ts"
import { KMH } from "./units.ts"
import { ms, side } from "./words.ts"

const ENDS = ["out of play", "covered", "cleared", "shot again"] as const

/** Follows the save of the shot in hand as drawn. The goalie moves on with it: nothing of the first shot is told after. */
export function reboundStory(replay: Replay, fired: FiredShot): ReboundStory | null {
  const { goalkeeping: g, batch, outcome, rebounds: r } = replay.engine
  if (r === null || fired.by < 0) return null
  const pose = g.scene.poses[replay.pose]!
  takeSave(g, pose, fired.by, fired.start, outcome.save)
  const { part, time } = outcome.save
  if (part < 0) return null
  const body = bodyNow(replay)
  r.race[L.ENDS_AT] = Number.NaN
  followSave(g, r, pose, batch, fired.i, decidePlain, outcome)
  const held = Number.isNaN(r.race[L.ENDS_AT]!)
  const b = r.bounce
  const vx = b[B.OUT_V]!
  const vy = b[B.OUT_V + 1]!
  return {
    part: partName(body, part),
    saveMs: milliseconds(time),
    held,
    leavesKmH: held ? null : rounded(KMH * Math.hypot(vx, vy, b[B.OUT_V + 2]!), 1),
    leavesDegrees: held ? null : rounded((Math.atan2(vy, vx) * 180) / Math.PI, 1),
    ends: held ? "held" : ENDS[r.race[L.ENDS]!]!,
    endsMs: held ? null : milliseconds(time + r.race[L.ENDS_AT]!),
    endsXM: held ? null : rounded(r.race[L.ENDS_X]!, 3),
    endsYM: held ? null : rounded(r.race[L.ENDS_Y]!, 3),
    second: Number.isNaN(r.delay) ? null : secondStory(r, g.now.begins),
  }
}

function secondStory(r: Rebounds, begins: number): SecondStory {
  const { shot, fate, again } = r.second
  const onGoal = isOnGoal(fate[0]!)
  const saved = onGoal && r.savedAgain > 0
  const region = r.outcome.byRegion.indexOf(1)
  return {
    releaseMs: milliseconds(r.delay - begins),
    fromXM: rounded(shot[SHOT_X]!, 3),
    fromYM: rounded(shot[SHOT_Y]!, 3),
    speedKmH: rounded(KMH * shot[SHOT_SPEED]!, 1),
    down: again[AGAIN_DOWN] === 1,
    outcome: saved ? "save" : onGoal ? "goal" : fate[0] === IRON_OUT ? "iron" : "miss",
    by: saved && region >= 0 ? REGIONS[region]! : null,
  }
}

/** The rebound in words. */
export function reboundRows(story: ReboundStory): Row[] {
  const { part, saveMs, leavesKmH, leavesDegrees, ends, endsMs, endsXM, endsYM, second } = story
  if (leavesKmH === null || leavesDegrees === null || endsMs === null)
    return [{ label: `${plain(saveMs, 0)} ms`, text: `the ${part} holds the puck` }]
  const way =
    Math.abs(leavesDegrees) < 5
      ? "straight out"
      : `${plain(Math.abs(leavesDegrees), 0)}° to the goalie's ${side(leavesDegrees)}`
  const rows = [{ label: `${plain(saveMs, 0)} ms`, text: `off the ${part} at ${plain(leavesKmH, 0)} km/h, ${way}` }]
  const where = `${plain(Math.hypot(endsXM!, endsYM!), 1)} m from the middle of the goal line`
  const text = {
    held: "held",
    "out of play": "nobody reaches it where a second shot could be taken",
    covered: "the goalie covers it",
    cleared: `a defender is first at it, ${where}`,
    "shot again": `an attacker is first at it, ${where}`,
  }[ends]
  rows.push({ label: `${plain(endsMs, 0)} ms`, text })
  if (second !== null)
    rows.push({
      label: `${plain(second.releaseMs, 0)} ms`,
      text: `second shot, ${plain(second.speedKmH, 0)} km/h, ${ms(second.releaseMs - saveMs)} after the save, the goalie ${second.down ? "on the knees" : "up again"}: ${secondText(second)}`,
    })
  return rows
}

function secondText({ outcome, by }: SecondStory): string {
  if (outcome === "save") return by === null ? "saved" : `saved, ${by}`
  return { goal: "goal", miss: "it misses the net", iron: "off the iron" }[outcome]
}
