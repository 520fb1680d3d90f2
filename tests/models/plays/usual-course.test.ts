import { describe, expect, test } from "vitest"
import { usualCourses } from "../../../src/models/plays/usual-course.ts"
import { worldOf } from "../../../src/models/plays/world.ts"
import { defaultSettings, withSettings } from "../../../src/models/settings.ts"
import { slidingArrival } from "../../../src/sim/motion/pass.ts"
import { DRAG, GRAVITY, ICE_FRICTION } from "../../../src/sim/world.ts"

const PLACES = { "play.distance": 8, "play.angle": 0.7, "play.pass_from_distance": 9, "play.pass_from_angle": -0.7 }

describe("usualCourses()", () => {
  test("a straight shot has no leg, and the goalie stands still on the line to the puck", () => {
    const settings = withSettings(defaultSettings(), { quantities: { ...PLACES, "goalie.depth": 1 } })
    const [course, ...others] = usualCourses(settings)
    expect(others).toEqual([])
    expect(course!.legs).toEqual([])
    for (const { x, y, isSet } of course!.goalie) {
      expect(Math.atan2(y, x)).toBeCloseTo(0.7, 12)
      expect(isSet).toBe(true)
    }
    expect(course!.leavesSet).toBeNull()
  })

  // seen to fail with a draw of 0.5 in place of the middle of every normal
  test("a pass takes its closed form's time at its usual speed, and the goalie leaves a reading time after it", () => {
    const settings = withSettings(defaultSettings(), {
      quantities: { ...PLACES, "goalie.depth": 1 },
      choices: { "play.kind": "cross-ice pass" },
    })
    const { quantities: q } = settings
    const [course] = usualCourses(settings)
    const [leg] = course!.legs
    const world = worldOf(settings)
    const way = Math.hypot(leg!.to.x - leg!.from.x, leg!.to.y - leg!.from.y)
    const takes = slidingArrival(world[ICE_FRICTION]! * world[GRAVITY]!, world[DRAG]!, q["play.pass_speed"], way)
    expect(leg!.ends - leg!.starts).toBeCloseTo(takes, 12)
    expect(leg!.ends).toBeCloseTo(-q["play.receive_time"], 12)
    expect(course!.leavesSet! - leg!.starts).toBeGreaterThan(q["movement.pass_reading"])
    expect(course!.goalie[0]!.at).toBeCloseTo(leg!.starts, 12)
  })
})
