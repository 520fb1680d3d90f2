import { expect, test } from "vitest"
import { tellingOf } from "../../../src/experiments/replay/sections.ts"
import { tellShot } from "../../../src/experiments/replay/tell.ts"
import { replayOf } from "./runs.ts"

// mutation seen red: the second release told from the save instead of the first release
test("a saved shot is told on to who is first at the puck, and to the second shot and its end", () => {
  const replay = replayOf("play: { distance: 6 m, rebounds: played }", "shots: 20000")
  const ends = new Set<string>()
  let again = 0
  for (let index = 0; index < 96; index++) {
    const story = tellShot(replay, { replicate: 0, index })
    const { rebound, verdict } = story
    expect(rebound !== null).toBe(verdict.outcome === "save")
    if (rebound === null) continue
    ends.add(rebound.ends)
    if (rebound.second === null) continue
    again++
    expect(rebound.ends).toBe("shot again")
    expect(rebound.endsMs!).toBeGreaterThan(rebound.saveMs)
    expect(rebound.second.releaseMs).toBeGreaterThan(rebound.endsMs!)
    const text = tellingOf(story)
      .sections.find(({ title }) => title === "The rebound")!
      .rows.map((row) => row.text)
    expect(text.join("\n")).toMatch(/second shot, \d+ km\/h, \d+ ms after the save/)
  }
  expect(ends.size).toBeGreaterThan(2)
  expect(again).toBeGreaterThan(5)
})

// mutation seen red: the moment of sight told for pucks seen from the release alone
test("a screened shot is told by when it comes into sight, when it is tipped, and whom it hits", () => {
  const replay = replayOf("play: { kind: screened shot, distance: 14 m, angle: 10 deg, tip_share: 40 % }", "shots: 640")
  const seen = { tipped: 0, hidden: 0, blocked: 0 }
  for (let index = 0; index < 20; index++) {
    const story = tellShot(replay, { replicate: 0, index })
    const { traffic, verdict } = story
    const text = tellingOf(story)
      .sections.flatMap(({ rows }) => rows.map((row) => row.text))
      .join("\n")
    if (verdict.outcome === "blocked") seen.blocked++
    if (traffic!.tippedAfterMs !== null && text.includes("it is tipped on its way")) seen.tipped++
    if (traffic!.seenMs === null || traffic!.seenMs === 0) continue
    seen.hidden++
    expect(text).toMatch(/comes into sight from behind the screen|was hidden from the goalie all the way/)
    expect(text).not.toContain("not set, the goalie reads")
  }
  expect(Math.min(seen.tipped, seen.hidden, seen.blocked)).toBeGreaterThan(0)
})
