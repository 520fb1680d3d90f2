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
    const { before, stand } = story
    const { state } = replay.engine.goalkeeping.moves
    expect(stand!.xM).toBeCloseTo(state[0]!, 3)
    expect(stand!.yM).toBeCloseTo(state[1]!, 3)
    expect(before!.legs[0]!.startMs).toBeLessThan(before!.firstMoveMs!)
    expect(before!.firstMoveMs!).toBeLessThan(before!.setMs!)
    expect(stand!.notSet).toBe(before!.setMs! > 0)
    const text = tellingOf(story).sections.flatMap(({ rows }) => rows.map((row) => row.text))
    expect(text.join("\n")).toContain("the pass leaves the passer's stick")
    if (before!.speedAtReleaseMS < 0.05) continue
    moving++
    expect(text.join("\n")).toMatch(/leaves the stick, the goalie moving at \d\.\d m\/s/)
    expect(text.join("\n")).toContain("; not set")
  }
  expect(moving).toBeGreaterThan(3)
})

test("a straight shot has no pass before it", () => {
  expect(tellShot(replayOf("shots: 640"), { replicate: 0, index: 0 })).toMatchObject({
    before: null,
    stand: { notSet: false },
  })
})

// mutation seen red: legs counted from the release of the shot before
test("a play of timed events is told leg by leg, in the order and at the times that were written", () => {
  const replay = replayOf(
    "play:",
    "  players: { wing: { distance: 20 m, angle: 20 deg }, trailer: { distance: 10 m, angle: -5 deg } }",
    "  pass_speed_spread: 0 %",
    "  receive_spread: 0",
    "  events:",
    "    - { at: 1 s, puck: wing }",
    "    - { at: 1 s, carry: { distance: 9 m, angle: 40 deg }, arrives: 2.5 s }",
    "    - { at: 2.6 s, pass: trailer, speed: 15 m/s }",
    "    - { at: 3.4 s, shot: one-timer }",
    "shots: 640",
  )
  const { before } = tellShot(replay, { replicate: 0, index: 0 })
  const [carry, pass] = before!.legs
  expect(carry).toMatchObject({ does: "carry", startMs: -2400, endMs: -900 })
  expect(pass!.does).toBe("pass")
  expect(pass!.startMs).toBeCloseTo(-800, 6)
  expect(Math.hypot(pass!.toXM, pass!.toYM)).toBeCloseTo(10, 3)
})

// mutation seen red: the depth asked for told as the depth at the release
test("a rush tells where its end finds the goalie: still out and backing, or out from the net and slow", () => {
  const told = (path: string) => {
    const rush = "play: { kind: rush, distance: 9 m, angle: 0 deg, carry_speed: 8 m/s }"
    const goalie = `goalie: { depth: 1.5 m, leaves_start_at: 21 m, depth_path: ${path} }`
    const story = tellShot(replayOf(rush, goalie, "shots: 640"), { replicate: 0, index: 0 })
    return {
      story,
      text: tellingOf(story)
        .sections.flatMap(({ rows }) => rows.map((row) => row.text))
        .join("\n"),
    }
  }
  const [back, out] = [told("outside in"), told("inside out")]
  expect(back.story.before!.legs[0]!.goalieOutM).toBeGreaterThan(2)
  expect(back.story.stand!.depthM).toBeCloseTo(back.story.before!.legs[0]!.goalieOutM, 2)
  expect(back.text).toMatch(/leaves the stick, the goalie moving at 1\.\d m\/s/)
  expect(out.story.before!.legs[0]!.goalieOutM).toBeLessThan(1.8)
  const late =
    "play: { kind: late pass, pass_from_distance: 9 m, pass_from_angle: -35 deg, distance: 7 m, angle: 35 deg }"
  const passed = tellShot(replayOf(late, "shots: 640"), { replicate: 0, index: 0 })
  const rows = tellingOf(passed).sections.flatMap((section) => section.rows.map((row) => row.text))
  expect(rows.join("\n")).toMatch(/the carry ends, the goalie \d\.\d m out, (standing still|moving at \d\.\d m\/s)/)
})

// mutation seen red: the verdict of a lost pass told as a miss
test("a play whose pass is lost is told as no shot, and nothing of a shot is told", () => {
  const replay = replayOf("play: { kind: cross-ice pass, pass_lost: 99 % }", "shots: 640")
  const told = tellingOf(tellShot(replay, { replicate: 0, index: 0 }))
  expect(told.headline).toBe("No shot: a pass is missed or cut off.")
  expect(told.sections).toEqual([])
})

// mutation seen red: the share told of another mode, and the opening told of a goalie who is set
test("a story tells what the movement has left open, and of a slide since when the goalie is down", () => {
  const told = (across: string, receives = "120 ms") => {
    const replay = replayOf(
      `movement: { across: ${across} }`,
      `play: { kind: cross-ice pass, distance: 9 m, angle: 45 deg, pass_from_angle: -45 deg, receive_time: ${receives} }`,
      "shots: 640",
    )
    return Array.from({ length: 16 }, (_, index) => tellShot(replay, { replicate: 0, index }))
  }
  for (const { stand } of told("T-push", "3 s")) expect(stand!.opened).toBeNull()
  const open = told("T-push").find(({ stand }) => stand!.opened?.share === 1)!
  expect(open.stand!.opened!.legsCm).toBeCloseTo(14, 6)
  const text = tellingOf(open).sections.flatMap(({ rows }) => rows.map((row) => row.text))
  expect(text).toContain(
    "by the T-push, 100 % of the way: five-hole and feet 14 cm wider, blade 3.0 cm off the ice and trunk 5.0° further forward",
  )
  const down = told("butterfly slide").find(({ stand }) => stand!.opened !== null)!
  const slid = tellingOf(down).sections.flatMap(({ rows }) => rows.map((row) => row.text))
  expect(slid.join("\n")).toMatch(/on the knees, going down since \d+ ms before the release; by the butterfly slide/)
  expect(slid.join("\n")).toContain("the slide takes the goalie down")
})
