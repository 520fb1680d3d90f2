import { describe, expect, test } from "vitest"
import { readExperimentText } from "../../../src/experiments/read/read-experiment.ts"

const PLAYERS = "  players: { wing: { distance: 9 m, angle: 40 deg }, trailer: { x: 10 m, y: -1 m } }"

/** A file whose play has these events, from line 5 on. */
function fileOf(events: readonly string[], players = PLAYERS): string {
  return ["question: Where to stand?", "play:", players, "  events:", ...events.map((event) => `    - ${event}`)].join(
    "\n",
  )
}

function messagesOf(events: readonly string[], players?: string): string[] {
  const result = readExperimentText("ours.yaml", fileOf(events, players))
  return "problems" in result ? result.problems.map(({ text }) => text) : []
}

describe("play.events", () => {
  test("are read into a play whose shot is taken where the puck was last brought", () => {
    const text = fileOf(["{ at: 0 s, puck: wing }", "{ at: 0.5 s, pass: trailer }", "{ at: 1.4 s, shot: snap }"])
    const result = readExperimentText("ours.yaml", text)
    if ("problems" in result) throw new Error(result.problems[0]!.text)
    const { choices, events, quantities } = result.experiment.points[0]!.settings
    expect(choices["play.kind"]).toBe("timed events")
    expect(events.map(({ does, at }) => [does, at])).toEqual([
      ["puck", 0],
      ["pass", 0.5],
      ["shot", 1.4],
    ])
    expect(quantities["play.distance"]).toBeCloseTo(Math.hypot(10, 1), 12)
  })

  // mutations seen red: the list taken as it is, and arrival counted without friction
  test.each<[string, string[], string]>([
    [
      "events out of order",
      ["{ at: 1 s, puck: wing }", "{ at: 0.5 s, pass: trailer }", "{ at: 2 s, shot: snap }"],
      "Cannot read ours.yaml:6:7 as play.events.at must be in order of time: current value is 0.5 s after 1 s",
    ],
    [
      "a pass to nobody",
      ["{ at: 0 s, puck: wing }", "{ at: 0.5 s, pass: trailr }", "{ at: 2 s, shot: snap }"],
      "Cannot read ours.yaml:6:20 as play.events.pass must be one of play.players: wing or trailer: current value is trailr (did you mean trailer?)",
    ],
    [
      "a shot before the puck arrives",
      ["{ at: 0 s, puck: wing }", "{ at: 0.5 s, pass: trailer, speed: 7 m/s }", "{ at: 1.4 s, shot: snap }"],
      "Cannot read ours.yaml:7:7 as play.events.at must be no earlier than the puck arrives: current value is 1.4 s, the puck arrives at 1.691 s (a shot needs the puck)",
    ],
    [
      "a play without a shot",
      ["{ at: 0 s, puck: wing }", "{ at: 0.5 s, pass: trailer }"],
      "Cannot read ours.yaml:6:7 as play.events must be a list that begins with puck, ends with shot and has neither in between: current value is pass where shot is due",
    ],
    [
      "two deeds in one event",
      ["{ at: 0 s, puck: wing }", "{ at: 0.5 s, pass: trailer, shot: snap }", "{ at: 2 s, shot: snap }"],
      "Cannot read ours.yaml:6:7 as play.events must be an event with one of puck, carry, cut, pass or shot: current value is pass and shot",
    ],
    [
      "a carry that says no time of arrival",
      ["{ at: 0 s, puck: wing }", "{ at: 0.5 s, carry: { x: 7 m, y: 1 m } }", "{ at: 2 s, shot: snap }"],
      "Cannot read ours.yaml:6:7 as play.events.arrives must be given: current value is a carry without the time it gets there",
    ],
    [
      "a speed of a shot",
      ["{ at: 0 s, puck: wing }", "{ at: 2 s, shot: snap, speed: 30 m/s }"],
      "Cannot read ours.yaml:6:30 as play.events.speed must be left out of a shot: current value is 30 m/s",
    ],
    [
      "a shot from behind the goal line",
      ["{ at: 0 s, puck: wing }", "{ at: 0 s, carry: { x: -1 m, y: 2 m }, arrives: 3 s }", "{ at: 3 s, shot: snap }"],
      "Cannot read ours.yaml:6:7 as play.events must be an event that brings the puck 1 m to 55 m from the centre of the goal line and not behind it, as the shot is next: current value is (-1 m, 2 m)",
    ],
  ])("refuse %s in one message", (_, list, message) => {
    expect(messagesOf(list)).toEqual([message])
  })

  test("refuse a pass too slow to arrive", () => {
    const far = "  players: { wing: { distance: 30 m, angle: 40 deg }, trailer: { x: 10 m, y: -1 m } }"
    const events = ["{ at: 0 s, puck: wing }", "{ at: 0 s, pass: trailer, speed: 4 m/s }", "{ at: 9 s, shot: snap }"]
    expect(messagesOf(events, far)).toEqual([
      "Cannot read ours.yaml:7:7 as play.events.at must be no earlier than the puck arrives: current value is a pass that stops on its way (a shot needs the puck)",
    ])
  })

  test("need players, and leave no say to a spot or another kind of play", () => {
    const sound = ["{ at: 0 s, puck: wing }", "{ at: 2 s, shot: snap }"]
    expect(messagesOf(sound, "  kind: timed events")).toEqual([
      "Cannot read ours.yaml:4:3 as play.players must be a mapping of names to places such as { left wing: { distance: 9 m, angle: 40 deg } }: current value is nothing",
    ])
    expect(messagesOf(sound, `${PLAYERS}\n  kind: cross-ice pass`)).toEqual([
      "Cannot read ours.yaml:4:3 as play.kind must be left out where play.events says what happens: current value is cross-ice pass (keep one of the two)",
    ])
    expect(messagesOf(sound, `${PLAYERS}\n  distance: 8 m`)).toEqual([
      "Cannot read ours.yaml:4:3 as play.distance must be left out where play.events says what happens: current value is 8 m (keep one of the two)",
    ])
  })
})
