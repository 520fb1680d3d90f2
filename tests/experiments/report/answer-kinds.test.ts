import { describe, expect, test } from "vitest"
import { axisOf, casesAreAlternatives, isDecision } from "../../../src/experiments/decision.ts"
import { answerOf } from "../../../src/experiments/report/answer.ts"
import { isEdge } from "../../../src/experiments/report/answer-best.ts"
import { alikeTogether, fitted, fittedList, LONGEST } from "../../../src/experiments/report/finding.ts"
import { doubtsOf } from "../../../src/experiments/report/warnings.ts"
import type { Rival, RunResults, Shift } from "../../../src/experiments/results.ts"
import {
  boxByDepth,
  DEPTH,
  DISTANCE,
  depthAlone,
  depthByDistance,
  estimate,
  handsByDistance,
  PASS_SPEED,
  STANCE,
  stanceByCase,
} from "../fixture-results.ts"

describe("what the goalie decides", () => {
  test("isDecision() is true of depth and flare, not of traits, nor of what lies outside the goalie", () => {
    expect(["goalie.depth", "goalie.pad_flare", "goalie.hands_out"].every(isDecision)).toBe(true)
    // mutation seen red: every key of the goalie taken for a decision
    expect(["goalie.stature", "goalie.reaction_median", "play.distance", "shooter.speed"].some(isDecision)).toBe(false)
  })

  test("axisOf() prefers a decision to the quantity listed first, and knows a sweep without any", () => {
    expect(axisOf([PASS_SPEED, DEPTH])).toBe(1)
    expect(axisOf([STANCE, PASS_SPEED])).toBe(1)
    expect(axisOf([STANCE])).toBe(-1)
  })

  test("casesAreAlternatives() tells cases compared with one of them from cases with baselines of their own", () => {
    expect(casesAreAlternatives(handsByDistance().experiment)).toBe(true)
    expect(casesAreAlternatives(depthByDistance().experiment)).toBe(false)
  })
})

describe("an answer over circumstances", () => {
  test("compares the alternatives at each distance with both spreads, and names no best distance", () => {
    const answer = answerOf(handsByDistance())
    // 10 points at 5 m, 7 at 8 m, 3 at 12 m; half-width 0.105 points
    expect(answer.findings[0]!.sentence).toBe(
      "More is saved with hands beside than with hands tucked: 10.0 points [9.9, 10.1; assumptions 3.8 to 15.2] from 5 m, 7.0 points [6.9, 7.1; assumptions 2.6 to 10.7] from 8 m, 3.0 points [2.9, 3.1; assumptions 1.0 to 4.7] from 12 m",
    )
    // mutation seen red: the middle distance kept in the headline
    expect(answer.headline).toContain("from 5 m, 3.0 points [2.9, 3.1; assumptions 1.0 to 4.7] from 12 m")
    expect(answer.headline).not.toContain("best distance")
    expect(doubtsOf(handsByDistance()).map(({ kind }) => kind)).not.toContain("BestAtEdge")
  })

  test("signs every difference where the better one changes, and calls half a point everywhere alike", () => {
    const changing = answerOf(handsByDistance((distance) => (distance - 8) / 100))
    expect(changing.headline).toMatch(
      /^Hands tucked against hands beside: \u22123\.0 points .* from 5 m, \+4\.0 points .* from 12 m$/,
    )
    const alike = answerOf(handsByDistance(() => 0.003))
    expect(alike.headline).toMatch(
      /^Hands tucked and hands beside differ by less than half a point everywhere: \+0\.3 /,
    )
    expect(alike.findings[0]!.verdict).toBe("flat")
  })

  test("says when a difference is not told apart", () => {
    const results = handsByDistance()
    const points = results.points.map((point) => ({ ...point, differences: { save_rate: estimate(-0.006, 0.01) } }))
    expect(answerOf({ ...results, points }).headline).toContain("[\u22120.4, 1.6; assumptions")
    expect(answerOf({ ...results, points }).headline).toContain("from 5 m (not told apart)")
  })

  test("gives the save rate from end to end where nothing is compared", () => {
    const { experiment, ...results } = handsByDistance()
    const points = results.points
      .filter((point) => point.case === "hands beside")
      .map((point) => ({ ...point, case: "" }))
    const lone = {
      ...experiment,
      cases: [],
      points: experiment.points.slice(0, 3).map((point) => ({ ...point, case: "" })),
    }
    expect(answerOf({ ...results, experiment: lone, points }).headline).toMatch(
      /^Save rate: 8\d\.\d % \[.*\] from 5 m, 9\d\.\d % \[.*\] from 12 m$/,
    )
  })
})

describe("an answer about another measure", () => {
  test("speaks of the first measure the file lists, exactly and without an interval, with what each step brings", () => {
    const answer = answerOf(boxByDepth())
    // net covered is 45 % + 13 points for each metre
    expect(answer.headline).toBe(
      "Net covered: from 8 m 45.0 % on the goal line, 64.5 % at depth 1.5 m, +6.5 points for each 0.5 m; from 15 m 45.0 % on the goal line, 64.5 % at depth 1.5 m, +6.5 points for each 0.5 m",
    )
    expect(answer.findings[0]!.sentence).toContain("; step by step, to 0.5 m +6.5, to 1 m +6.5, to 1.5 m +6.5")
    // mutation seen red: the save rate before the second exact measure
    expect(answer.findings.map(({ measure }) => measure)).toEqual([
      "net_covered",
      "net_covered",
      "box_area_m2",
      "box_area_m2",
      "save_rate",
      "save_rate",
    ])
  })

  test("gives a sampled measure its interval", () => {
    expect(answerOf(handsByDistance(undefined, ["position_rate"])).headline).toMatch(
      /^Saved by position: \(hands beside\) \d\d\.\d % \[\d\d\.\d, \d\d\.\d\] from 5 m, /,
    )
  })
})

describe("an answer about second shots", () => {
  const TOLD = 0.00002
  function secondShots(lows: readonly number[]): RunResults {
    const results = handsByDistance(undefined, ["second_goal_rate"])
    const points = results.points.map((point) => {
      const low = lows[point.index % 3]!
      return { ...point, differences: { second_goal_rate: estimate(0.0012, 0.0012 - low) } }
    })
    return { ...results, points }
  }

  // seen red: one told somewhere listed with those told nowhere, and its interval printed from 0.00
  test("says by the unrounded interval, in headline and finding alike, where a rival is told apart", () => {
    const somewhere = answerOf(secondShots([TOLD, -TOLD, -TOLD]))
    expect(somewhere.headline).toBe(
      "Goals on second shots in 100 attempts, against hands beside: told apart somewhere: hands tucked",
    )
    expect(somewhere.findings[0]!.sentence).toBe(
      "hands tucked against hands beside: 0.120 more [0.002, 0.238] from 5 m, 0.12 more [0.00, 0.24] from 8 m (not told apart), 0.12 more [0.00, 0.24] from 12 m (not told apart)",
    )
    expect(answerOf(secondShots([-TOLD, -TOLD, -TOLD])).headline).toMatch(/: not told apart: hands tucked$/)
    expect(answerOf(secondShots([TOLD, TOLD, TOLD])).headline).toMatch(
      /: hands tucked 0\.120 more \[0\.002, 0\.238\] from 5 m, 0\.120 more \[0\.002, 0\.238\] from 12 m$/,
    )
  })
})

describe("an answer about a trait", () => {
  const shift = (best: number, half: number): Shift => ({
    case: "",
    key: "goalie.stature",
    from: 1.7,
    to: 2.04,
    along: "goalie.depth",
    best: estimate(best, half),
    bestAssumptions: { low: -0.6, high: 0, sets: 64 },
    rate: estimate(0.021, 0.004),
    rateAssumptions: { low: 0.01, high: 0.03, sets: 64 },
  })
  const stature = { ...DEPTH, key: "goalie.stature", values: [1.7, 2.04] } as unknown as typeof DEPTH
  const withShift = (one: Shift): RunResults => {
    const results = depthAlone()
    return { ...results, shifts: [one], experiment: { ...results.experiment, sweep: [DEPTH, stature] } }
  }

  test("says what size saves at the best depth, and how much further out the smaller stands", () => {
    // mutation seen red: the interval not turned over with its sign
    expect(answerOf(withShift(shift(-0.3, 0.08))).headline).toBe(
      "Each at the best depth, stature 2.04 m saves 2.1 points more than stature 1.70 m [1.7, 2.5; assumptions 1.0 to 3.0]; stature 1.70 m is best 0.30 m further out than stature 2.04 m [0.22, 0.38; assumptions 0.00 to 0.60]",
    )
  })

  test("says when the two best depths cannot be told apart", () => {
    expect(answerOf(withShift(shift(-0.05, 0.08))).headline).toContain(
      "the best depth is not told apart: 0.05 m further out for stature 1.70 m [\u22120.03, 0.13",
    )
  })
})

test("alikeTogether() says once what holds in several places, with the places behind it", () => {
  const said = [
    ["1.0 m", "at speed 2 m/s"],
    ["0.6 m", "(slow)"],
    ["1.0 m", "at speed 3 m/s"],
    ["0.6 m", "(slower)"],
    ["2.0 m", ""],
  ] as const
  // mutation seen red: every place a part of its own
  expect(alikeTogether(said)).toEqual(["1.0 m at speed 2 m/s and at speed 3 m/s", "0.6 m (slow and slower)", "2.0 m"])
})

describe("an answer about ways of the goalie, each with a best depth of its own", () => {
  const rival = (mean: number, others: readonly number[] = []): Rival => ({
    case: "the slide",
    against: "the feet",
    along: "goalie.depth",
    others,
    rate: estimate(mean, 0.004),
    rateAssumptions: { low: mean - 0.03, high: mean + 0.05, sets: 64 },
  })

  test("says first which way saves more and how surely, then where each is best", () => {
    // mutation seen red: the sign of a way that is behind not turned over
    const behind = answerOf({ ...depthAlone(), rivals: [rival(-0.021)] })
    expect(behind.headline).toMatch(
      /^Each at its best depth, the feet saves 2\.1 points more than the slide \[1\.7, 2\.5; assumptions \u22122\.9 to 5\.1\]; best depth /,
    )
    const alike = answerOf({ ...depthAlone(), rivals: [rival(0.002)] })
    expect(alike.headline).toContain(
      "more than the feet [\u22120.2, 0.6; assumptions \u22122.8 to 5.2] (not told apart)",
    )
  })

  test("says it once of the same way at several values of what nobody chooses", () => {
    const results = depthByDistance()
    const experiment = { ...results.experiment, sweep: [DEPTH, DISTANCE] }
    const { headline, notes } = answerOf({ ...results, experiment, rivals: [rival(0.02, [5]), rival(0.03, [8])] })
    expect(headline).toMatch(
      /the slide saves 2\.0 points more than the feet.* from 5 m, 3\.0 points.* from 8 m; best depth/,
    )
    expect(notes.filter((note) => note.startsWith("Each at its best depth, the slide saves"))).toHaveLength(2)
  })
})

describe("an answer of one point", () => {
  test("gives the rate of the whole with both spreads, and every place beside it", () => {
    const { experiment, ...results } = stanceByCase()
    const whole = results.points[1]!
    const places = [0.84, 0.91, 0.98].map((mean, at) => ({
      ...whole,
      spot: ["low slot", "slot", "point"][at]!,
      estimates: { save_rate: estimate(mean, 0.01) },
    }))
    const answer = answerOf({
      ...results,
      experiment: { ...experiment, sweep: [], cases: [], points: [{ ...experiment.points[1]!, index: 1 }] },
      points: [{ ...whole, estimates: { save_rate: estimate(0.93, 0.004) } }, ...places],
    })
    expect(answer.headline).toMatch(
      /^Save rate 93\.0 % \[92\.6, 93\.4; assumptions .*\] over all 3 places; lowest from the low slot, 84\.0 % \[83\.0, 85\.0\], highest from the point, 98\.0 %/,
    )
    expect(answer.notes).toContain(
      "By place: low slot 84.0 % [83.0, 85.0]; slot 91.0 % [90.0, 92.0]; point 98.0 % [97.0, 99.0]",
    )
  })
})

describe("headlines", () => {
  test("fitted() takes the fullest form that can be said in one breath", () => {
    const form = (detail: string): string =>
      detail === "none" ? "short" : detail === "both" ? "x".repeat(400) : "y".repeat(300)
    expect(fitted(form)).toBe("y".repeat(LONGEST))
    expect(fitted((detail) => `${detail}${"z".repeat(400)}`)).toMatch(/^none/)
  })

  test("fittedList() keeps what fits and says how many parts are left", () => {
    const parts = Array.from({ length: 9 }, (_, at) => `${at}`.repeat(60))
    const text = fittedList("Best: ", parts)
    expect(text.length).toBeLessThanOrEqual(LONGEST)
    expect(text).toMatch(/; 5 more below$/)
    expect(fittedList("Best: ", ["a", "b"])).toBe("Best: a; b")
  })

  test("curves that cross carry both spreads, and a crossing that only the assumptions make is told", () => {
    const results = handsByDistance()
    const pair = ["hands beside", "hands tucked"] as const
    const note = (at: number | null, sets: boolean): string =>
      answerOf({
        ...results,
        crossings: [
          {
            cases: pair,
            key: "play.distance",
            at: at === null ? null : estimate(at, 0.5),
            assumptions: sets ? { low: 6, high: 11, sets: 60 } : null,
          },
        ],
      }).notes[0]!
    expect(note(8.2, true)).toBe(
      "Hands beside and hands tucked cross at distance 8.2 m (sampling 7.7 to 8.7; assumptions 6.0 to 11.0)",
    )
    expect(note(null, false)).toBe("Hands beside and hands tucked do not cross in this range")
    expect(note(null, true)).toContain("though within the assumptions they may, at distance 6.0 to 11.0 m")
  })

  test("isEdge() is true of both ends of a sweep in any order", () => {
    const swept = { ...DISTANCE, values: [12, 5, 8] } as typeof DISTANCE & { readonly kind: "quantity" }
    expect([5, 8, 12].map((value) => isEdge(swept, value))).toEqual([true, false, true])
  })
})
