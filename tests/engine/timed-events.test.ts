import { describe, expect, test } from "vitest"
import type { TimedEvent } from "../../src/models/plays/timed-event.ts"
import { arrivalOf } from "../../src/models/plays/timed-events.ts"
import { type Settings, withSettings } from "../../src/models/settings.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import * as T from "../../src/sim/tally.ts"
import { apart, compileScene, EXACT, fired, playing, saveRate, sum } from "./scenes.ts"

const at = (distance: number, angle: number) => ({ x: distance * Math.cos(angle), y: distance * Math.sin(angle) })
const PASSER = at(8.8, -0.82)
const SHOOTER = at(8.8, 0.82)

function events(list: readonly TimedEvent[], quantities: Parameters<typeof playing>[0] = {}): Settings {
  const spot = list.at(-2) as Extract<TimedEvent, { x: number }>
  const place = { "play.distance": Math.hypot(spot.x, spot.y), "play.angle": Math.atan2(spot.y, spot.x) }
  const base = playing({ ...place, ...quantities }, { "play.kind": "timed events" })
  return withSettings(base, { events: list })
}

describe("a play of timed events", () => {
  // seed KEY, n = 1,024 on the same draws; seen to fail with the wait counted from the start of the pass
  test("that is a pass and a shot on its arrival equals the cross-ice pass", () => {
    const places = {
      "play.distance": 8.8,
      "play.angle": 0.82,
      "play.pass_from_distance": 8.8,
      "play.pass_from_angle": -0.82,
    }
    const settings = playing(places, { "play.kind": "cross-ice pass", "shooter.shot": "one-timer" })
    const pass: TimedEvent = { does: "pass", at: 2, ...SHOOTER, speed: null, flies: 0 }
    const arrives = arrivalOf(pass as Extract<TimedEvent, { does: "pass" }>, PASSER, settings)
    const written = events([
      { does: "puck", at: 0, ...PASSER },
      pass,
      { does: "shot", at: arrives + settings.quantities["play.receive_time"], type: "one-timer" },
    ])
    const a = fired(compileScene([settings]), 1024)
    const b = fired(compileScene([written]), 1024)
    for (const column of [T.SAVED, T.ON_GOAL_SUM, T.NOT_SET, T.MARGIN_SUM])
      expect(sum(b, column)).toBeCloseTo(sum(a, column), 6)
  })

  // seen to fail with the goalie kept on the start of the carry
  test("in which the puck is carried slowly and then kept a while equals the straight shot from where it ends", () => {
    const written = events(
      [
        { does: "puck", at: 0, ...at(12, 0.5) },
        { does: "carry", at: 0, arrives: 8, ...at(8, 0.1) },
        { does: "shot", at: 12, type: null },
      ],
      { ...EXACT, "goalie.depth": 1.2 },
    )
    const straight = playing({ ...EXACT, "goalie.depth": 1.2, "play.distance": 8, "play.angle": 0.1 })
    const a = fired(compileScene([written]), 1024)
    const b = fired(compileScene([straight]), 1024)
    expect(sum(a, T.NOT_SET)).toBe(0)
    expect(sum(a, T.SAVED)).toBeCloseTo(sum(b, T.SAVED), 2)
    expect(sum(a, T.STOOD)).toBe(sum(b, T.STOOD))
  })

  // seed KEY, n = 2,048 an arm, |z| < 4 on independent errors though the shots are shared; seen to fail with the
  // referee's goalie left where the release found them
  test("with a carry, a cut aside and a drop pass is decided alike by the referee and the conditional estimator", () => {
    const written = events(
      [
        { does: "puck", at: 0, ...at(18, 0.6) },
        { does: "carry", at: 0, arrives: 1.3, ...at(8, 0.9) },
        { does: "cut", at: 1.3, arrives: 1.7, ...at(7, 0.4) },
        { does: "pass", at: 1.8, ...at(9, -0.2), speed: 14, flies: 0 },
        { does: "shot", at: 2.3, type: "snap" },
      ],
      { "goalie.depth": 1.1, "goalie.start_depth": 0.2, "goalie.leaves_start_at": 15 },
    )
    const scene = compileScene([written])
    const a = saveRate(fired(scene, 2048))
    const b = saveRate(fired(scene, 2048, decidePlain))
    expect(apart(a, b)).toBeLessThan(4)
  })
})
