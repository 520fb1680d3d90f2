import { describe, expect, test } from "vitest"
import type { Quantity } from "../../../src/models/parameter.ts"
import { LEVELS } from "../../../src/models/shooter/levels.ts"
import { shooterQuantities } from "../../../src/models/shooter/parameters.ts"
import { PUBLISHED_SHOTS } from "../../../src/models/shooter/published.ts"
import { SHOT_TYPES } from "../../../src/models/shooter/shot-types.ts"
import { shooterSources } from "../../../src/models/shooter/sources.ts"
import { SPEED_KNOTS } from "../../../src/models/shooter/speed.ts"

const RECORDS: Quantity[] = [
  ...Object.values(shooterQuantities),
  ...Object.values(SHOT_TYPES).flatMap((type) => Object.values(type)),
  ...Object.values(LEVELS).flatMap((level) => Object.values(level)),
  ...SPEED_KNOTS.map((knot) => knot.distance),
]

describe("every number of the shooter", () => {
  test("lies within its plausible range, and that within the hard limits, unless it follows from the type", () => {
    // mutation seen to fail: low and high of one record swapped
    for (const { value, low, high, least, most, why } of RECORDS) {
      if (Number.isNaN(value)) expect([low, high]).toEqual([Number.NaN, Number.NaN])
      else expect(least <= low && low <= value && value <= high && high <= most, why).toBe(true)
    }
  })

  test("names a source that exists, and every source is named", () => {
    const keys = [...RECORDS, ...PUBLISHED_SHOTS].map((record) => record.source)
    const named = new Set(keys.filter((key) => key !== "assumption" && key !== "choice"))
    expect([...named].sort()).toEqual(Object.keys(shooterSources).sort())
  })
})
