import { describe, expect, test } from "vitest"
import type { QuantityKey, Settings } from "../../src/models/settings.ts"
import { faceFrame, setMoment, standForShot } from "../../src/sim/answer.ts"
import { BLOCKED } from "../../src/sim/fate.ts"
import { heightAt, PATH_DX, PATH_DY, PATH_STRIDE, PATH_X, PATH_Y } from "../../src/sim/path.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import { engine } from "../../src/sim/sampling.ts"
import { makeShots, SHOT_STRIDE, SHOT_X, SHOT_Y } from "../../src/sim/shots.ts"
import * as T from "../../src/sim/tally.ts"
import { sightFrom } from "../../src/sim/traffic/sight.ts"
import { steppedSight } from "../../src/sim/traffic/stepped-sight.ts"
import { apart, compileScene, fired, KEY, playing, saveRate, sum } from "./scenes.ts"

type Numbers = Partial<Record<QuantityKey, number>>
const POINT: Numbers = { "play.distance": 15, "play.angle": 0.3, "goalie.depth": 1.3 }

function screened(quantities: Numbers): Settings {
  return playing({ ...POINT, ...quantities }, { "play.kind": "screened shot" })
}

describe("a screen", () => {
  // seen to fail with boxes of no size kept in the table
  test("of no size is the straight shot, bit for bit", () => {
    const straight = fired(compileScene([playing(POINT)]), 512)
    for (const none of [{ "play.screen_width": 0 }, { "play.screen_height": 0 }])
      expect(fired(compileScene([screened(none)]), 512)).toEqual(straight)
  })

  // seen to fail with a line of sight that enters a box after it leaves it
  test("as wide as the rink hides the whole flight of every shot that gets through", () => {
    const wide = { "play.screen_width": 60, "play.screen_gap": 0, "play.screen_height": 3, "play.screen_stops": 0 }
    const tallies = fired(compileScene([screened({ ...wide, "play.screen_distance": 2.2 })]), 512)
    const onGoal = sum(tallies, T.ON_GOAL_SUM)
    expect(onGoal).toBeGreaterThan(100)
    // all but the last stride before the body, where the puck is on the goalie's side of it
    const near = fired(compileScene([screened({ ...wide, "play.screen_distance": 1.95 })]), 512)
    expect(sum(tallies, T.HIDDEN_SUM) / onGoal).toBeGreaterThan(0.9)
    expect(sum(near, T.HIDDEN_SUM)).toBeGreaterThan(sum(tallies, T.HIDDEN_SUM))
    expect(sum(fired(compileScene([screened({ ...wide, "play.screen_stops": 1 })]), 512), T.ON_GOAL_SUM)).toBe(0)
  })

  // seed KEY, n = 2,048 an arm: 8 in 100 stopped before a shooter who looks and 26 before a blind one, each known to one;
  // seen to fail with the bodies left out of what the shooter sees: 22 in 100
  test("stops fewer pucks of a shooter who looks for a lane than of one who does not", () => {
    const beside = { "play.distance": 12, "play.angle": 0, "play.screen_distance": 6, "play.screen_offset": 0.3 }
    const aimed = { ...beside, "play.screen_strays": 0.05, "shooter.hurried_share": 0, "shooter.temperature": 0.03 }
    const [looks, blind] = [1, 0].map((reading) => {
      const tallies = fired(compileScene([screened({ ...aimed, "shooter.reading": reading })]), 2048)
      return sum(tallies, T.BLOCKED_SUM) / sum(tallies, T.SHOTS_COUNTED)
    })
    expect(looks).toBeLessThan(0.5 * blind!)
  })

  // seen to fail with the line of sight drawn on behind the eyes
  test("behind the goalie's eyes hides nothing", () => {
    const behind = { "play.screen_distance": 0.3, "goalie.depth": 2.2, "play.screen_stops": 0, "play.screen_strays": 0 }
    const tallies = fired(compileScene([screened(behind)]), 512)
    expect(sum(tallies, T.HIDDEN_SUM)).toBe(0)
    expect(sum(tallies, T.SAVED)).toBe(sum(fired(compileScene([playing({ ...POINT, ...behind })]), 512), T.SAVED))
  })

  // 256 shots, each moment within the millisecond of the referee's step; seen to fail with a single halving
  test("comes out of the way at the same moment by halving as by a look every millisecond", () => {
    const scene = compileScene([screened({ "play.second_screen_width": 0.5, "play.screen_offset": 0.15 })])
    const e = engine(scene, 256)
    const g = e.goalkeeping
    makeShots(scene, KEY, 0, 0, 256, e.batch)
    let apart = 0
    let hidden = 0
    for (let i = 0; i < 256; i++) {
      standForShot(g, scene.poses[0]!, e.batch, i)
      faceFrame(g, e.batch, i, i * PATH_STRIDE)
      setMoment(g, scene.poses[0]!, e.batch, i, i * PATH_STRIDE, sightFrom)
      const { sight, flight } = g.now
      setMoment(g, scene.poses[0]!, e.batch, i, i * PATH_STRIDE, steppedSight)
      if (Math.abs(g.now.sight - sight) > 0.0011) apart++
      if (sight > 0.02 && sight < 0.98 * flight) hidden++
    }
    expect(hidden).toBeGreaterThan(60)
    // a glimpse between two looks
    expect(apart).toBeLessThan(5)
  })

  // seen to fail with the puck's radius left out
  test("stops exactly the pucks whose disc comes into one of its boxes", () => {
    const only = { "play.screen_stops": 1, "play.screen_strays": 0, "play.screen_gap": 0, "play.screen_offset": 0.3 }
    const scene = compileScene([screened({ ...only, "play.screen_height": 0.6, "play.screen_legs": 0.6 })])
    const e = engine(scene, 256)
    makeShots(scene, KEY, 0, 0, 256, e.batch)
    let blocked = 0
    for (let i = 0; i < 256; i++) {
      const { path, shot } = e.batch
      const at = i * PATH_STRIDE
      const away = Math.hypot(shot[i * SHOT_STRIDE + SHOT_X]!, shot[i * SHOT_STRIDE + SHOT_Y]!)
      const c = shot[i * SHOT_STRIDE + SHOT_X]! / away
      const s = shot[i * SHOT_STRIDE + SHOT_Y]! / away
      let inside = false
      for (let D = 0; D < 14.5; D += 0.002) {
        const x = path[at + PATH_X]! + D * path[at + PATH_DX]!
        const y = path[at + PATH_Y]! + D * path[at + PATH_DY]!
        const beside = Math.max(0, Math.abs(c * y - s * x - 0.3) - 0.275)
        const before = Math.max(0, Math.abs(c * x + s * y - 2.2) - 0.175)
        const over = heightAt(path, at, D) - 0.6
        if (beside < 0.0381 && before < 0.0381 && over < 0.0127) inside = true
      }
      expect(e.batch.fate[i] === BLOCKED, `shot ${i}`).toBe(inside)
      if (inside) blocked++
    }
    expect(blocked).toBeGreaterThan(20)
  })

  // seed KEY, n = 1,024 an arm, |z| < 4 on independent errors: false alarms under 1 in 16,000; seen to fail with a
  // hidden release read early by the conditional estimator alone
  test("leaves the plain referee and the conditional estimator agreed, peeking and tipped or not", () => {
    const scene = compileScene([0, 0.4].map((peek) => screened({ "goalie.peek": peek, "play.tip_share": 0.4 })))
    const conditional = fired(scene, 1024)
    const plain = fired(scene, 1024, decidePlain)
    for (const pose of [0, 1]) {
      const a = saveRate(conditional, pose)
      const b = saveRate(plain, pose)
      expect(apart(a, b)).toBeLessThan(4)
      expect(sum(plain, T.TIPPED_SUM, pose)).toBe(sum(conditional, T.TIPPED_SUM, pose))
    }
  })

  // seed KEY, n = 2,048 on the same shots; seen to fail with the peek left out of the station
  test("shows more to a goalie who steps out of its shadow", () => {
    const still = { "play.screen_strays": 0 }
    const tallies = fired(compileScene([0, 0.25, 0.5].map((peek) => screened({ ...still, "goalie.peek": peek }))), 2048)
    expect(sum(tallies, T.SEEN_SUM, 1)).toBeGreaterThan(1.5 * sum(tallies, T.SEEN_SUM, 0))
    expect(sum(tallies, T.SEEN_SUM, 2)).toBeGreaterThan(sum(tallies, T.SEEN_SUM, 1))
  })

  // seen to fail with the peek to the same side wherever the puck is
  test("is the same play in a mirror, with the goalie's peek, hands and all on the other side", () => {
    const left = screened({ "goalie.peek": 0.3, "play.screen_offset": 0.2, "play.screen_strays": 0 })
    const mirrored = playing(
      { ...left.quantities, "play.angle": -0.3, "play.screen_offset": -0.2 },
      { "play.kind": "screened shot", "goalie.catches": "right" },
    )
    const a = saveRate(fired(compileScene([left]), 4096))
    const b = saveRate(fired(compileScene([mirrored]), 4096))
    expect(apart(a, b)).toBeLessThan(4)
  })
})
