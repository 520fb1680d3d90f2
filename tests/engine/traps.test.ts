import { describe, expect, test } from "vitest"
import { answerShot, goalkeeping, standForShot } from "../../src/sim/answer.ts"
import { ON_GOAL } from "../../src/sim/fate.ts"
import { PATH_STRIDE } from "../../src/sim/path.ts"
import * as P from "../../src/sim/pose.ts"
import { fastCumulativeLognormal } from "../../src/sim/random/lognormal.ts"
import { addStretch, latestSavingStart, noSaves, probabilityOf, REGION_COUNT } from "../../src/sim/saves.ts"
import { makeShots, shotBatch } from "../../src/sim/shots.ts"
import * as T from "../../src/sim/tally.ts"
import { compileScene, EXACT, fired, KEY, playing, saveRate, sum } from "./scenes.ts"

/** Mistakes that a model of this kind is easily built on; each test fails when one is made again. */
describe("known mistakes", () => {
  // n = 32 batches of 64; the gap is a bound on a mean, no statistics: the same shots on both sides
  test("saving reactions are a union of stretches: 'all up to the latest' would save too much in tight", () => {
    const excess = (distance: number) => {
      const scene = compileScene([
        playing({ "play.distance": distance, "goalie.depth": 1.1 }, { "goalie.answer": "react" }),
      ])
      const keeper = goalkeeping(scene)
      const pose = scene.poses[0]!
      const batch = shotBatch(scene, 64)
      const byRegion = new Float64Array(REGION_COUNT)
      const { [P.REACTION_MEDIAN]: median, [P.REACTION_SPREAD]: spread } = pose.numbers
      let union = 0
      let upToLatest = 0
      let several = 0
      for (let b = 0; b < 32; b++) {
        makeShots(scene, KEY, 0, 64 * b, 64, batch)
        for (let i = 0; i < 64; i++) {
          if (batch.fate[i] !== ON_GOAL) continue
          standForShot(keeper, pose, batch, i)
          answerShot(keeper, pose, batch, i, i * PATH_STRIDE)
          union += probabilityOf(keeper.saves, median!, spread!, keeper.now.read, 1, byRegion, 0)
          const latest = latestSavingStart(keeper.saves)
          upToLatest += latest === -Infinity ? 0 : fastCumulativeLognormal(latest + keeper.now.read, median!, spread!)
          if (keeper.saves.count > 1) several++
        }
      }
      expect(several).toBeGreaterThan(0)
      return (upToLatest - union) / union
    }
    expect(excess(4)).toBeGreaterThan(0.005)
    expect(excess(12)).toBeLessThan(excess(4))
  })

  test("the best stopper counts, never the sum of body and limbs", () => {
    const saves = noSaves()
    addStretch(saves, -Infinity, 0.1, 0.2, 5, 255)
    addStretch(saves, -Infinity, 0.08, 0.15, 0, 0)
    const byRegion = new Float64Array(REGION_COUNT)
    const p = probabilityOf(saves, 0.185, 0.22, 0.08, 1, byRegion, 0)
    expect(p).toBeCloseTo(fastCumulativeLognormal(0.18, 0.185, 0.22), 12)
    // the limb is met first and takes what it reaches; the body only the rest
    expect(byRegion[0]).toBeCloseTo(fastCumulativeLognormal(0.16, 0.185, 0.22), 12)
    expect(byRegion[0]! + byRegion[5]!).toBeCloseTo(p, 12)
  })

  test("no shot of any estimator is ever saved more than once, and regions add up to the saves", () => {
    const tallies = fired(compileScene([playing({ "play.distance": 5, "goalie.depth": 1 })]), 1024)
    const saved = sum(tallies, T.SAVED)
    let byRegion = 0
    for (let region = 0; region < REGION_COUNT; region++) byRegion += sum(tallies, T.BY_REGION + region)
    expect(saved).toBeLessThanOrEqual(sum(tallies, T.ON_GOAL_SUM))
    expect(byRegion).toBeCloseTo(saved, 4)
  })

  test("a puck that starts within a stride of the body saves nothing by itself: the depth is cut, and said to be", () => {
    const scene = compileScene([playing({ "play.distance": 2.2, "goalie.depth": 2 })])
    const tallies = fired(scene, 512)
    expect(sum(tallies, T.DEPTH_CUT)).toBeCloseTo(sum(tallies, T.ON_GOAL_SUM), 6)
    const farther = sum(tallies, T.DEPTH_SUM) / sum(tallies, T.ON_GOAL_SUM)
    expect(farther).toBeLessThan(2.2 - scene.postures[0]!.foremost)
  })

  // seed KEY, n = 4,096: paired on the same shots; the bound is four standard errors of the larger arm
  test("the five-hole opens while the knees fall: slower drops let more in along the ice in the middle", () => {
    const aim = { "shooter.aim_y": 0, "shooter.aim_z": 0.15, "shooter.hurried_share": 0 }
    const quick = playing(
      { ...aim, "play.distance": 6, "goalie.depth": 1.2, "goalie.drop_time": 0.2 },
      { "shooter.aim": "point", "goalie.answer": "react" },
    )
    const slow = playing(
      { ...aim, "play.distance": 6, "goalie.depth": 1.2, "goalie.drop_time": 0.4 },
      { "shooter.aim": "point", "goalie.answer": "react" },
    )
    const tallies = fired(compileScene([quick, slow]), 4096)
    const a = saveRate(tallies, 0)
    const b = saveRate(tallies, 1)
    expect(a.mean - b.mean).toBeGreaterThan(4 * Math.max(a.se, b.se))
  })

  test("a reading shooter reads the goalie, never this shot's reaction: the shares do not move with it", () => {
    const sharp = compileScene([playing({ "goalie.reaction_median": 0.1, ...EXACT })])
    const dull = compileScene([playing({ "goalie.reaction_median": 0.5, ...EXACT })])
    expect([...sharp.strata.share]).toEqual([...dull.strata.share])
  })

  // seed KEY, n = 4,096 on the same shots
  test("an error of position costs saves: 10 cm off the line costs several points at 6 m", () => {
    const on = playing({ "play.distance": 6, "goalie.depth": 1.2, ...EXACT })
    const off = playing({ "play.distance": 6, "goalie.depth": 1.2, ...EXACT, "goalie.off_line_error": 0.2 })
    const tallies = fired(compileScene([on, off]), 4096)
    const a = saveRate(tallies, 0)
    const b = saveRate(tallies, 1)
    expect(a.mean - b.mean).toBeGreaterThan(4 * Math.max(a.se, b.se))
  })
})
