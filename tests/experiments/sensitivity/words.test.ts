import { describe, expect, test } from "vitest"
import { withSensitivity } from "../../../src/experiments/sensitivity/answer.ts"
import type { SensitivityFinding } from "../../../src/experiments/sensitivity/finding.ts"
import { sensitivitySection } from "../../../src/experiments/sensitivity/section.ts"
import { sensitivityTable } from "../../../src/experiments/sensitivity/table.ts"
import {
  behindText,
  effectText,
  sensitivityHeadline,
  sensitivityNotes,
} from "../../../src/experiments/sensitivity/words.ts"
import { csvOf } from "../../../src/experiments/write/csv.ts"
import { depthAlone, estimate } from "../fixture-results.ts"
import { INVENTED } from "./finding-fixture.ts"

describe("sensitivityHeadline()", () => {
  // seen red: ties taken from those that can be told apart
  test("names what is worth most, what cannot be told apart from it, and what gains most for a tenth better", () => {
    expect(sensitivityHeadline(INVENTED)).toBe(
      "Of what can be trained, reaction is worth most: it decides 42 % [37, 47] of the spread in save rate; placing the hands cannot be told apart from it; for 10 % better drop gains most, +1.20 [1.15, 1.25] goals saved in 100 shots",
    )
  })

  test("speaks of what matters where nothing is trained, and of nothing where nothing changes", () => {
    const effects = INVENTED.effects.map((effect) => ({ ...effect, gain: null }))
    expect(sensitivityHeadline({ ...INVENTED, over: "assumptions", effects })).toBe(
      "Of what is assumed, reaction matters most: it decides 42 % [37, 47] of the spread in save rate; placing the hands cannot be told apart from it",
    )
    const none = { ...INVENTED.effects[0]!.total, mean: Number.NaN }
    const idle: SensitivityFinding = { ...INVENTED, effects: effects.map((effect) => ({ ...effect, total: none })) }
    expect(sensitivityHeadline(idle)).toBe(
      "Nothing that was varied changes the save rate here, so nothing can be ranked",
    )
    expect(sensitivityNotes(idle)).toEqual([])
  })
})

// seen red: 67 % [37, 117]
test("a share of the spread is held between nothing and the whole, how far one is behind may be less than nothing", () => {
  expect(effectText(estimate(0.67, 0.5))).toBe("67 % [17, 100]")
  expect(effectText(estimate(-0.01, 0.05))).toBe("0.0 % [0.0, 4.0]")
  expect(effectText(estimate(Number.NaN, 0))).toBe("not known")
  expect(behindText(estimate(0.6, 0.7))).toBe("60 % [\u221210, 100]")
})

describe("sensitivityNotes()", () => {
  // seen red: gains in the order of the effects; gains that may be nothing kept
  test("order what to practise by what it saves, without what cannot be told from nothing, and name the idle", () => {
    const notes = sensitivityNotes(INVENTED)
    expect(notes[1]).toBe(
      "What to practise first, goals saved in 100 shots on goal for 10 % better: drop +1.20 [1.15, 1.25], reaction +0.90 [0.85, 0.95], placing the hands +0.40 [0.35, 0.45]",
    )
    expect(notes.at(-1)).toBe("Top speed of the legs decides less than 1 % here")
  })
})

describe("the answer", () => {
  test("opens with it where one point is all there is, and holds it below the answer of a sweep", () => {
    const swept = depthAlone()
    const answer = { headline: "Best depth 1 m", findings: [], notes: ["a note"] }
    const below = withSensitivity({ ...swept, sensitivity: INVENTED }, answer)
    expect(below.headline).toBe("Best depth 1 m")
    expect(below.notes[0]).toMatch(/^(Depth|The goal line).*: Of what can be trained/)
    const experiment = { ...swept.experiment, points: swept.experiment.points.slice(0, 1) }
    expect(withSensitivity({ ...swept, experiment, sensitivity: INVENTED }, answer).headline).toMatch(/^Of what can/)
    expect(withSensitivity(swept, answer)).toBe(answer)
  })
})

describe("tables", () => {
  test("sensitivity.csv has a row for each quantity in its own unit, nothing where there is nothing", () => {
    const [header, first, , third] = csvOf(sensitivityTable(INVENTED)).split("\r\n")
    expect(header?.split(",").slice(0, 9)).toEqual([
      ...["quantity", "name", "unit", "from", "to", "measure"],
      ...["total_effect", "total_effect_low", "total_effect_high"],
    ])
    expect(first).toMatch(/^goalie.reaction_median,reaction,ms,100,200,save_rate,0.42,0.37,0.47,.*,,,,185,166.5,0.009,/)
    expect(third).toMatch(/^goalie.drop_time,/)
  })

  test("the report's section says how it was found and what each quantity is trained by", () => {
    const { html } = sensitivitySection(INVENTED)
    expect(html).toContain("What training is worth most")
    expect(html).toContain("448 values")
    expect(html).toContain("185 ms to 166.5 ms")
    expect(html).toContain("Driving the knees down")
    expect(html.match(/cannot be told apart/g)?.length).toBe(1)
    expect(sensitivitySection(undefined).html).toBe("")
  })
})
