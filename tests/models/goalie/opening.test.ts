import { describe, expect, test } from "vitest"
import type { Opening } from "../../../src/models/goalie/opening.ts"
import { extentOf } from "../../../src/models/goalie/part-extent.ts"
import { buildPosture, PHASES } from "../../../src/models/goalie/posture.ts"
import { defaultSettings, withSettings } from "../../../src/models/settings.ts"
import type { Posture } from "../../../src/sim/parts.ts"
import { axisOf, centreOf, fiveHoleArea, rowOf } from "./bodies.ts"

const NONE: Opening = { legs: 0, hands: 0, blade: 0, lean: 0, leftWhenDown: 0 }
const LAST = PHASES - 1

function opened(opening: Partial<Opening>, stature = 1.88): Posture {
  const settings = withSettings(defaultSettings(), { quantities: { "goalie.stature": stature } })
  return buildPosture(settings, { ...NONE, ...opening })
}
const SET = buildPosture(defaultSettings())

/** Gap between the pads' middles across, m. */
function padsApart(posture: Posture, phase: number): number {
  return centreOf(posture, "left pad", phase)[1]! - centreOf(posture, "right pad", phase)[1]!
}

describe("an opened body", () => {
  test("with nothing opened is the set one to the last bit", () => {
    expect(buildPosture(defaultSettings(), NONE)).toEqual(SET)
  })

  // seen to fail: with the feet left where they were, and with the legs going together
  test("has its legs apart by as much as is said, feet and knees, and a larger five-hole", () => {
    const wide = opened({ legs: 0.14 })
    expect(padsApart(wide, 0) - padsApart(SET, 0)).toBeCloseTo(0.14, 2)
    const outer = (posture: Posture) => extentOf(posture.parts, rowOf(posture, "left skate"), 1).most
    expect(outer(wide) - outer(SET)).toBeCloseTo(0.07, 6)
    expect(fiveHoleArea(wide)).toBeGreaterThan(fiveHoleArea(SET) + 0.02)
  })

  test("has its gloves further out, its blade off the ice and its trunk further forward", () => {
    const open = opened({ hands: 0.05, blade: 0.04, lean: 0.1 })
    expect(centreOf(open, "catching glove")[1]! - centreOf(SET, "catching glove")[1]!).toBeCloseTo(0.05, 2)
    expect(centreOf(open, "blocker")[1]! - centreOf(SET, "blocker")[1]!).toBeCloseTo(-0.05, 2)
    expect(centreOf(open, "stick blade")[2]! - centreOf(SET, "stick blade")[2]!).toBeCloseTo(0.04, 12)
    expect(Math.asin(axisOf(open, "torso", 0)[0]!) - Math.asin(axisOf(SET, "torso", 0)[0]!)).toBeCloseTo(0.1, 9)
  })

  // seen to fail: with the drop ending sealed whatever is left open
  test("drops into the usual butterfly, or into one as open as is left", () => {
    const sealed = opened({ legs: 0.14, hands: 0.05, blade: 0.04, lean: 0.1 })
    for (let at = (SET.parts.length / PHASES) * LAST; at < SET.parts.length; at++)
      expect(sealed.parts[at]).toBeCloseTo(SET.parts[at]!, 12)
    const left = opened({ legs: 0.14, leftWhenDown: 0.5 })
    expect(padsApart(left, LAST) - padsApart(SET, LAST)).toBeCloseTo(0.07, 9)
  })

  test("of a small goalie opens by less: widths go with the gear, arms with the stature", () => {
    const small = opened({ legs: 0.14, leftWhenDown: 1 }, 1.4)
    expect(padsApart(small, LAST) - padsApart(opened({}, 1.4), LAST)).toBeCloseTo((0.14 * 1.4) / 1.6, 9)
  })
})
