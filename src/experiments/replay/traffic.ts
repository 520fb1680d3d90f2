import * as P from "../../sim/pose.ts"
import { plain } from "../report/words.ts"
import type { FiredShot, Replay } from "./replay.ts"
import { milliseconds } from "./round.ts"
import type { TrafficStory } from "./story.ts"
import { ms } from "./words.ts"

/** The traffic of the shot in hand, `met` by the goalie or not; null in a play without any. */
export function trafficStory({ engine, pose }: Replay, { i }: FiredShot, met: boolean): TrafficStory | null {
  const { goalkeeping: g, batch } = engine
  if (g.scene.traffic.length === 0) return null
  const tipped = batch.tipped[i]!
  const sees = met && g.scene.poses[pose]!.numbers[P.ANSWER] !== P.ANSWER_ABSENT
  return {
    tippedAfterMs: tipped > 0 ? milliseconds(tipped) : null,
    seenMs: sees ? milliseconds(g.now.sight) : null,
    atBodyMs: sees ? milliseconds(g.now.flight) : null,
  }
}

/** The release, the tip and the moment of sight as steps of the story. */
export function trafficEvents({ tippedAfterMs, seenMs, atBodyMs }: TrafficStory): { at: number; text: string }[] {
  const events = []
  if (tippedAfterMs !== null)
    events.push(
      { at: -tippedAfterMs, text: "the puck leaves the shooter's stick" },
      { at: 0, text: `it is tipped on its way, ${ms(tippedAfterMs)} after the release: a new line, a new reaction` },
    )
  if (seenMs === null || atBodyMs === null || seenMs <= 0) return events
  const share = atBodyMs > 0 ? `, ${plain((100 * seenMs) / atBodyMs, 0)} % of the way in` : ""
  if (seenMs >= atBodyMs) events.push({ at: atBodyMs, text: "the puck was hidden from the goalie all the way" })
  else events.push({ at: seenMs, text: `the puck comes into sight from behind the screen${share}` })
  return events
}
