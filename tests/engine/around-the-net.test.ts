import { describe, expect, test } from "vitest"
import { branchesOf } from "../../src/models/plays/branches.ts"
import { usualCourses } from "../../src/models/plays/usual-course.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import * as T from "../../src/sim/tally.ts"
import { apart, compileScene, fired, playing, saveRate, sum } from "./scenes.ts"

const KINDS = ["cross-crease walk", "net drive", "low-to-high pass", "wrap-around"]

function play(kind: string, quantities: Parameters<typeof playing>[0] = {}, side = "left") {
  const slot = { "play.distance": 6, "goalie.depth": 0.8 }
  return playing({ ...slot, ...quantities }, { "play.kind": kind, "play.from_side": side })
}

describe.each(KINDS)("a %s", (kind) => {
  // seed KEY, n = 256 an arm, |z| < 4 on independent errors though the shots are shared; seen to fail, in the wrap-around,
  // with the motion of one moment kept while the puck passes
  test("is decided alike by the referee and the conditional estimator", () => {
    const scene = compileScene([play(kind)])
    const [conditional, plain] = [fired(scene, 256), fired(scene, 256, decidePlain)]
    const [a, b] = [saveRate(conditional), saveRate(plain)]
    expect(apart(a, b)).toBeLessThan(4)
    const stood = Math.abs(sum(conditional, T.STOOD) - sum(plain, T.STOOD))
    expect(stood / sum(plain, T.ON_GOAL_SUM)).toBeLessThan(0.012)
  })

  test("from the right is the mirror of the one from the left, places and the goalie's way", () => {
    const [left, right] = [branchesOf(play(kind)), branchesOf(play(kind, {}, "right"))]
    for (const [i, { start, legs, share }] of left.entries()) {
      const other = right[i]!
      expect([other.start.x, -other.start.y, other.share]).toEqual([start.x, start.y, share])
      // the last leg ends where the shot is taken
      for (const [k, leg] of legs.slice(0, -1).entries()) expect(other.legs[k]!.y).toBeCloseTo(-leg.y, 12)
    }
    const straight = { "play.angle": 0 }
    const [a, b] = [usualCourses(play(kind, straight)), usualCourses(play(kind, straight, "right"))]
    for (const [i, { goalie }] of a.entries())
      for (const [k, { x, y, heading }] of goalie.entries()) {
        const there = b[i]!.goalie[k]!
        for (const [one, other] of [
          [x, there.x],
          [y, -there.y],
          [heading, -there.heading],
        ])
          expect(other).toBeCloseTo(one!, 9)
      }
  })
})

describe("around the net", () => {
  // seen to fail: each of them counted as out of reach
  test("a wrap-around is pushed along the ice on purpose: no place aimed at is out of reach", () => {
    const tallies = fired(compileScene([play("wrap-around")]), 256)
    expect(sum(tallies, T.ON_GOAL_SUM)).toBeGreaterThan(0)
    expect(sum(tallies, T.UNREACHABLE)).toBe(0)
  })

  test("a pass out from below the goal line finds the goalie on the post, and off it at the release", () => {
    const [course] = usualCourses(play("low-to-high pass"))
    const first = course!.goalie[0]!
    const release = course!.goalie.findLast(({ at }) => at <= 0)!
    expect(first.y).toBeGreaterThan(0.4)
    expect(first.heading).toBeCloseTo(0.8, 9)
    expect(Math.abs(release.y)).toBeLessThan(first.y - 0.1)
    expect(release.isSet).toBe(false)
  })

  test("a wrap-around sends the goalie from post to post, whatever depth they like", () => {
    const ways = [0.3, 1.6].map((depth) => usualCourses(play("wrap-around", { "goalie.depth": depth }))[0]!.goalie)
    expect(ways[0]![0]).toEqual(ways[1]![0])
    expect(ways[0]![0]!.y).toBeGreaterThan(0.4)
    expect(ways[0]!.at(-1)!.y).toBeLessThan(-0.2)
  })

  test("a wrap-around is shot along the ice", () => {
    const tallies = fired(compileScene([play("wrap-around")]), 512)
    // goals go in low: nothing above the pads' height
    let high = 0
    for (const { maps } of tallies)
      for (let row = 4; row < T.MAP_ROWS; row++)
        for (let column = 0; column < T.MAP_COLUMNS; column++) high += maps[row * T.MAP_COLUMNS + column]!
    expect(high).toBeLessThan(0.02 * (sum(tallies, T.ON_GOAL_SUM) - sum(tallies, T.SAVED)))
  })

  // the same shots, n = 2,048: only the speed of the carry differs, so that the errors of the two are near each other's
  test("a slower walk across the crease leaves the goalie more often set", () => {
    const set = [1.2, 5].map((speed) => {
      const tallies = fired(compileScene([play("cross-crease walk", { "play.walk_speed": speed })]), 2048)
      return sum(tallies, T.NOT_SET) / sum(tallies, T.ON_GOAL_SUM)
    })
    expect(set[0]!).toBeLessThan(set[1]! - 0.2)
  })
})
