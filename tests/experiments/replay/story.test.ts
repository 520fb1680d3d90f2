import { describe, expect, test } from "vitest"
import { FIND_WORDS, findShot, MOST_SCANNED } from "../../../src/experiments/replay/find.ts"
import { fireShot, type Replay } from "../../../src/experiments/replay/replay.ts"
import { type Telling, tellingOf } from "../../../src/experiments/replay/sections.ts"
import type { Story } from "../../../src/experiments/replay/story.ts"
import { tellShot } from "../../../src/experiments/replay/tell.ts"
import { cm, feetAndInches, ms, partDoes, placeText, span } from "../../../src/experiments/replay/words.ts"
import { isOnGoal } from "../../../src/sim/fate.ts"
import { replayOf } from "./runs.ts"

const FIRST = { replicate: 0, index: 0 }

/** The first shot that is one of these, told. */
function found(replay: Replay, find: (typeof FIND_WORDS)[number]): Story {
  const { name } = findShot(replay, find, FIRST)
  expect(name, find).not.toBeNull()
  return tellShot(replay, name!)
}

function textOf({ title, headline, sections }: Telling): string {
  return [title, headline, ...sections.flatMap(({ rows }) => rows.map(({ label, text }) => `${label} ${text}`))].join(
    "\n",
  )
}

describe("a story", () => {
  const replay = replayOf("play.distance: 8 m", "shots: 20000")

  test("runs in order of time: read, release, hands, puck at the body, goal line", () => {
    const { reading, flight, limbs } = found(replay, "goal")
    expect(reading!.readFromMs).toBeLessThan(0)
    expect(reading!.handsStartMs).toBeCloseTo(reading!.readFromMs + reading!.reactionMs, 1)
    expect(limbs[0]!.startMs).toBeGreaterThanOrEqual(reading!.handsStartMs! - 0.01)
    expect(limbs.map(({ startMs }) => startMs)).toEqual(limbs.map(({ startMs }) => startMs).toSorted((a, b) => a - b))
    expect(flight.atBody!.timeMs).toBeGreaterThan(0)
    expect(flight.atLine!.timeMs).toBeGreaterThan(flight.atBody!.timeMs)
  })

  // mutation seen red: the sort of the events left out
  test("is told in that order too", () => {
    const { sections } = tellingOf(found(replay, "save"))
    const steps = sections.find(({ title }) => title.startsWith("Step by step"))!.rows
    const times = steps.map(({ label }) => Number(label.replace(" ms", "").replace("−", "-")))
    expect(times).toEqual(times.toSorted((a, b) => a - b))
    expect(times.length).toBeGreaterThan(5)
  })

  test("gives the same numbers every time and holds nothing that JSON loses", () => {
    const story = found(replay, "close")
    expect(tellShot(replay, { replicate: 0, index: Number(story.shot.slice(2)) })).toEqual(story)
    expect(JSON.parse(JSON.stringify(story))).toEqual(story)
  })

  test("says where: metres and feet, the angle to the goalie's left, cases and swept values of the point", () => {
    const swept = replayOf("play.distance: 6 m", "play.angle: 30 deg", "sweep: { goalie.depth: [1 m, 1.4 m] }")
    const story = tellShot(swept, FIRST)
    expect(story.release).toMatchObject({ distanceM: 6, angleDegrees: 30, distanceFt: 19.685 })
    expect(story.stand!.askedM).toBe(1)
    expect(story.stand!.netCovered).toBeGreaterThan(0.3)
    const text = textOf(tellingOf(story))
    expect(text).toContain("6.0 m (19 ft 8 in) from the middle of the goal line, 30° to the goalie's left")
    expect(text).toContain("depth 1.0 m")
  })

  test("of a miss and of a shot off the iron is told without saves", () => {
    for (const find of ["miss", "iron"] as const) {
      const story = found(replay, find)
      if (story.flight.fate === "iron, in") continue
      expect(story).toMatchObject({ passes: [], reactions: null, standing: null, block: null })
      expect(story.stand).not.toBeNull()
      expect(story.verdict.iron).not.toBeNull()
      expect(textOf(tellingOf(story))).toMatch(find === "miss" ? /Misses (wide|over)/ : /Off the .* and out/)
    }
  })

  test("of an empty net is a goal with nobody in it", () => {
    const story = found(replayOf("play.goalie: none", "shots: 20000"), "goal")
    expect(story).toMatchObject({ stand: null, reading: null, limbs: [], passes: [], reactions: null })
    expect(textOf(tellingOf(story))).toContain("Nobody is in the net")
  })

  test("of a frozen goalie has no hands, no drop and no limbs", () => {
    const frozen = replayOf("goalie.answer: frozen", "shots: 20000", "play.distance: 8 m")
    for (const find of ["goal", "save"] as const) {
      const story = found(frozen, find)
      expect(story.reading).toMatchObject({ answer: "frozen", handsStartMs: null, dropStartMs: null })
      expect(story.limbs).toEqual([])
      expect(story.standing!.stops).toBe(find === "save")
      expect(textOf(tellingOf(story))).not.toMatch(/NaN|Infinity|null|undefined/)
    }
  })

  test("never shows a number that is none, over shots of every answer", () => {
    for (const answer of ["react", "by distance", "block"]) {
      const each = replayOf(`goalie.answer: ${answer}`, "play.distance: 9 m", "shooter.aim: corners", "shots: 640")
      for (let index = 0; index < 8; index++)
        expect(textOf(tellingOf(tellShot(each, { replicate: 1, index })))).not.toMatch(/NaN|Infinity|null|undefined/)
    }
  })
})

describe("the words of a story", () => {
  // mutations seen red: seconds from 100 ms on; every part with "stops"
  test("are those of a trade that reckons in feet and inches, milliseconds and centimetres", () => {
    expect(feetAndInches(26.26)).toBe("26 ft 3 in")
    expect(feetAndInches(4.99)).toBe("5 ft 0 in")
    expect([ms(-14.2), ms(3.14), span(999), span(1579)]).toEqual(["−14 ms", "3.1 ms", "999 ms", "1.6 s"])
    expect([cm(0.01), cm(4.21), cm(31.4)]).toEqual(["less than 1 mm", "4.2 cm", "31 cm"])
    expect(placeText(-41.2, 88)).toBe("41 cm right of the middle, 88 cm up")
    expect(placeText(0.2, 1.27)).toBe("in the middle, along the ice")
    expect([partDoes("mask", "stops", "stop"), partDoes("pants", "stops", "stop")]).toEqual([
      "the mask stops",
      "the pants stop",
    ])
  })
})

describe("finding", () => {
  const replay = replayOf("play.distance: 8 m", "shots: 20000")

  test.each(FIND_WORDS)("%s gives a shot that is one, and none before it", (find) => {
    const { name, scanned } = findShot(replay, find, FIRST)
    if (name === null) return expect(scanned).toBe(MOST_SCANNED)
    expect(scanned).toBe(name.index + 1)
    const { verdict, reading, standing, flight } = tellShot(replay, name)
    const is = {
      goal: verdict.outcome === "goal",
      save: verdict.outcome === "save",
      close: (verdict.byMs ?? Infinity) <= 10,
      late: verdict.way === "late",
      opened: verdict.outcome === "goal" && standing?.stops === true,
      block: reading!.answer === "block",
      iron: flight.fate.startsWith("iron"),
      miss: verdict.outcome === "miss" || verdict.outcome === "short",
    }
    expect(is[find]).toBe(true)
  })

  test("goes on from a given shot, through the replicates, and ends with the run", () => {
    const few = replayOf("goalie.answer: react", "shots: 512", "play.distance: 8 m")
    const last = { replicate: 31, index: few.plan.batches * few.plan.batch - 1 }
    expect(findShot(few, "block", FIRST)).toEqual({ name: null, scanned: few.plan.shots })
    expect(findShot(few, "block", last)).toEqual({ name: null, scanned: 1 })
    const goal = findShot(few, "goal", { replicate: 1, index: 5 }).name!
    expect(goal.replicate).toBeGreaterThanOrEqual(1)
    const shot = fireShot(few, goal)
    expect(isOnGoal(few.engine.batch.fate[shot.i]!) && shot.by < 0).toBe(true)
  })
})
