import { expect, test } from "vitest"
import { tellingOf } from "../../../src/experiments/replay/sections.ts"
import { tellShot } from "../../../src/experiments/replay/tell.ts"
import { replayOf } from "./runs.ts"

// mutation seen red: the goalie's place taken when the puck comes level instead of at the release
test("a story with a pass tells when it left, when the goalie went and was set, and stands the goalie at the release", () => {
  const replay = replayOf("play: { kind: cross-ice pass, distance: 7 m, angle: 25 deg }", "shots: 20000")
  let moving = 0
  for (let index = 0; index < 12; index++) {
    const story = tellShot(replay, { replicate: 0, index })
    const { pass, stand } = story
    const { state } = replay.engine.goalkeeping.moves
    expect(stand!.xM).toBeCloseTo(state[0]!, 3)
    expect(stand!.yM).toBeCloseTo(state[1]!, 3)
    expect(pass!.startMs!).toBeLessThan(pass!.firstMoveMs!)
    expect(pass!.firstMoveMs!).toBeLessThan(pass!.setMs!)
    expect(stand!.notSet).toBe(pass!.setMs! > 0)
    const text = tellingOf(story).sections.flatMap(({ rows }) => rows.map((row) => row.text))
    expect(text).toContain("the pass leaves the passer's stick")
    if (pass!.speedAtReleaseMS < 0.05) continue
    moving++
    expect(text.join("\n")).toMatch(/leaves the stick, the goalie moving at \d\.\d m\/s/)
    expect(text.join("\n")).toContain("; not set")
  }
  expect(moving).toBeGreaterThan(3)
})

test("a straight shot has no pass before it", () => {
  expect(tellShot(replayOf("shots: 640"), { replicate: 0, index: 0 })).toMatchObject({
    pass: null,
    stand: { notSet: false },
  })
})
