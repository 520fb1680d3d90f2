import { describe, expect, test } from "vitest"
import { measurePasses, standingStory } from "../../../src/experiments/replay/passes.ts"
import { fireShot } from "../../../src/experiments/replay/replay.ts"
import { type Cover, savingStretches, spareOf } from "../../../src/experiments/replay/stretches.ts"
import { stretchesOf, tellShot } from "../../../src/experiments/replay/tell.ts"
import { standForShot } from "../../../src/sim/answer.ts"
import { emptyOutcome } from "../../../src/sim/conditional.ts"
import { NO_LIMB } from "../../../src/sim/parts.ts"
import { PATH_STRIDE } from "../../../src/sim/path.ts"
import * as P from "../../../src/sim/pose.ts"
import { decidePlain } from "../../../src/sim/referee.ts"
import { addStretch, noSaves, probabilityOf, REGION_COUNT } from "../../../src/sim/saves.ts"
import { eachOnGoal, replayOf } from "./runs.ts"

/** Nearer than this to an end of the saving starts, or to the edge of what stops the puck, is a knife-edge: ms and m. */
const EDGE_MS = 2
const EDGE_M = 0.005
/** A block's lead, ms: a place on a knife-edge of it as well. */
const EDGE_LEAD_MS = 2

describe("the verdict on the drawn reaction", () => {
  // seed "northlake replay", 220 shots on goal; no knife-edge among them when written.
  // Mutations seen red: the drawn reaction without the early read; the limb lag left out of the measured reach
  test("agrees with the plain referee on 220 shots, and with the measured passes on 74, but for knife-edges", () => {
    let edges = 0
    let shots = 0
    for (const lines of [
      ["play.distance: 7 m", "goalie.answer: react"],
      ["play.distance: 11 m", "goalie.answer: react"],
      ["play.distance: 5 m", "goalie.answer: block"],
      ["play.kind: cross-ice pass", "play.distance: 7 m", "goalie.answer: react"],
    ]) {
      const replay = replayOf("shots: 20000", ...lines)
      const { batch, goalkeeping: g } = replay.engine
      const pose = g.scene.poses[0]!
      const outcome = emptyOutcome()
      eachOnGoal(replay, 55, (fired) => {
        const saved = fired.by >= 0
        const spare = spareOf(stretchesOf(replay), fired.start, -g.now.read)
        standForShot(g, pose, batch, fired.i)
        decidePlain(g, pose, batch, fired.i, fired.i * PATH_STRIDE, outcome)
        expect(spare.saved).toBe(saved)
        // the steps of the story are slower: every third shot, and each that the referee sees otherwise
        const agrees = (outcome.saved === 1) === saved
        if (agrees && shots++ % 3 > 0) return
        const passes = measurePasses(replay, fired)
        if (agrees && passes[0]!.stops === saved) return
        edges++
        const margin = Math.min(Math.abs(passes[0]!.margin), Math.abs(passes[0]!.pass.clearance))
        const lead = tellShot(replay, fired.name).block?.byMs ?? Infinity
        const onEdge = margin < EDGE_M || spare.by * 1000 < EDGE_MS || lead < EDGE_LEAD_MS
        expect(onEdge, `${fired.name.index}: ${margin} m, ${spare.by} s, ${lead} ms`).toBe(true)
      })
    }
    expect(edges).toBeLessThanOrEqual(5)
  })

  test("of the standing body is the referee's on 60 shots", () => {
    const replay = replayOf("shots: 20000", "play.distance: 6 m")
    const { batch, goalkeeping: g } = replay.engine
    const outcome = emptyOutcome()
    let differ = 0
    eachOnGoal(replay, 60, (fired) => {
      const { stops } = standingStory(replay, fired)
      decidePlain(g, g.scene.poses[0]!, batch, fired.i, fired.i * PATH_STRIDE, outcome)
      if (stops !== (outcome.stood === 1)) differ++
    })
    expect(differ).toBeLessThanOrEqual(1)
  })

  test("names the part and the limb of the stretch that holds the drawn reaction", () => {
    const replay = replayOf("shots: 20000", "play.distance: 9 m", "goalie.answer: react")
    const limbs = new Set<string | null>()
    let denied = 0
    eachOnGoal(replay, 16, (fired) => {
      const { verdict, reactions, passes } = tellShot(replay, fired.name)
      const held = reactions!.saving.filter(({ drawn }) => drawn)
      expect(held.length).toBe(verdict.outcome === "save" ? 1 : 0)
      if (verdict.outcome !== "save") return
      const named = passes.filter(({ region, stops }) => stops && region === held[0]!.region)
      if (named.length > 0) expect(verdict.by).toMatchObject({ region: held[0]!.region, limb: held[0]!.limb })
      else denied++
      expect(passes.find(({ part }) => part === verdict.by!.part)!.region).toBe(verdict.by!.region)
      limbs.add(verdict.by!.limb)
    })
    expect(limbs.size).toBeGreaterThan(1)
    expect(denied).toBeLessThanOrEqual(1)
  })
})

describe("the saving reactions", () => {
  // mutation seen red: the early read left out of the probability
  test("add up to the probability of a save with the drawn answer", () => {
    const replay = replayOf("shots: 20000", "play.distance: 6 m", "goalie.answer: react")
    const { numbers } = replay.engine.goalkeeping.scene.poses[0]!
    eachOnGoal(replay, 80, ({ saved }) => {
      const { saves, now } = replay.engine.goalkeeping
      const sum = stretchesOf(replay).reduce((all, { probability }) => all + probability, 0)
      const byRegion = new Float64Array(REGION_COUNT)
      const whole = probabilityOf(
        saves,
        numbers[P.REACTION_MEDIAN]!,
        numbers[P.REACTION_SPREAD]!,
        now.read,
        1,
        byRegion,
        0,
      )
      expect(sum).toBeCloseTo(whole, 9)
      // a goalie who only reacts leaves nothing else to weigh
      expect(sum).toBeCloseTo(saved, 9)
    })
  })

  // mutation seen red: ends before the earliest start kept
  test("are cut where another part takes the save, and joined where the same part goes on", () => {
    const saves = noSaves()
    addStretch(saves, -Infinity, 0.1, 0.3, 3, NO_LIMB)
    addStretch(saves, -0.5, -0.1, 0.1, 0, NO_LIMB)
    addStretch(saves, 0.05, 0.2, 0.2, 1, 1)
    addStretch(saves, 0.2, 0.25, 0.2, 1, 1)
    const found = savingStretches(saves, { median: 0.2, spread: 0.2, read: 0.08 })
    expect(found.map(({ from, to, region, limb }) => [from, to, region, limb])).toEqual([
      [-0.08, 0.05, "left pad", null],
      [0.05, 0.25, "blocker", "blocker hand"],
    ])
  })

  test("say how far a start is from the nearest end: neighbours are one, the earliest start has no end", () => {
    const cover: Cover[] = [
      { from: -0.08, to: 0.05, region: "body" },
      { from: 0.05, to: 0.1, region: "mask" },
      { from: 0.2, to: 0.3, region: "body" },
    ]
    const at = (start: number) => {
      const { saved, by, way } = spareOf(cover, start, -0.08)
      return [saved, Math.round(by * 1e6) / 1e6, way]
    }
    expect(at(0.04)).toEqual([true, 0.06, null])
    expect(at(0.21)).toEqual([true, 0.01, null])
    expect(at(0.12)).toEqual([false, 0.02, "late"])
    expect(at(0.19)).toEqual([false, 0.01, "early"])
    expect(at(0.5)).toEqual([false, 0.2, "late"])
    expect(spareOf([], 0.1, -0.08)).toEqual({ saved: false, by: Infinity, way: null })
    expect(spareOf([{ from: -0.08, to: Infinity, region: "body" }], 0.1, -0.08).by).toBe(Infinity)
  })
})

describe("the starts of a block", () => {
  test("that cover the path are where the measured body covers it", () => {
    const replay = replayOf("shots: 20000", "play.distance: 5 m", "goalie.answer: block")
    let covered = 0
    eachOnGoal(replay, 20, (fired) => {
      const { block, reading } = tellShot(replay, fired.name)
      if (block === null) return
      const start = reading!.dropStartMs!
      const says = block.covering.some(({ fromMs, toMs }) => fromMs < start && start <= toMs)
      fireShot(replay, fired.name)
      const passes = measurePasses(replay, fired)
      const nearest = Math.min(...passes.map(({ pass }) => pass.clearance))
      if (Math.abs(nearest) > EDGE_M && (block.byMs ?? Infinity) > EDGE_LEAD_MS) expect(nearest <= 0).toBe(says)
      if (says) covered++
    })
    expect(covered).toBeGreaterThan(5)
    expect(covered).toBeLessThan(20)
  })
})
