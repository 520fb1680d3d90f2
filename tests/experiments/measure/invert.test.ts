import { describe, expect, test } from "vitest"
import { timingOf, WATCH_ERROR } from "../../../src/experiments/measure/instruments.ts"
import { fromDrop, fromPassing, passingLimits, usualPassing } from "../../../src/experiments/measure/invert.ts"
import { TIMED } from "../../../src/experiments/measure/timed.ts"
import { defaultSettings, QUANTITIES } from "../../../src/models/settings.ts"
import { restToPassing } from "../../../src/sim/motion/mode.ts"
import { invertNormal } from "../../../src/sim/random/normal.ts"
import { fillUniforms, PLAY } from "../../../src/sim/random/streams.ts"

const timing = (mean: number, standardError: number) => ({ n: 4, mean, standardError, varies: false })

describe("several readings", () => {
  test("give their mean, and an error that shrinks with the root of their number", () => {
    const one = timingOf([{ seconds: 0.9, error: 0.1 }])
    expect(one).toEqual({ n: 1, mean: 0.9, standardError: 0.1, varies: false })
    const four = timingOf([0.88, 0.92, 0.9, 0.9].map((seconds) => ({ seconds, error: 0.1 })))
    expect(four.mean).toBeCloseTo(0.9, 12)
    expect(four.standardError).toBeCloseTo(0.05, 12)
  })

  // seen to fail: the instrument's error taken where the readings show more
  test("err by what they show when that is more than their instrument, and say that the goalie varied", () => {
    const { standardError, varies } = timingOf([0.6, 0.9, 1.2].map((seconds) => ({ seconds, error: 0.1 })))
    expect(standardError).toBeCloseTo(0.3 / Math.sqrt(3), 12)
    expect(varies).toBe(true)
  })

  test("of watch and video weigh as one over the square of their errors", () => {
    const both = timingOf([
      { seconds: 1, error: 0.1 },
      { seconds: 0.9, error: 1 / 60 },
    ])
    const weights = [100, 3600]
    expect(both.mean).toBeCloseTo((weights[0]! * 1 + weights[1]! * 0.9) / 3700, 12)
    expect(both.standardError).toBeCloseTo(1 / Math.sqrt(3700), 12)
  })
})

describe("what a time to pass a mark gives", () => {
  // seen to fail: acceleration in proportion to the pace in place of its square
  test("plays back in exactly the time that was read, in every mode", () => {
    for (const { mode } of TIMED)
      for (const [distance, time] of [
        [1.83, 0.9],
        [0.5, 0.6],
        [3, 1.6],
      ] as const) {
        const [speed, gain] = fromPassing(mode, distance, timing(time, 0.05))
        expect(restToPassing(gain!.value, speed!.value, distance)).toBeCloseTo(time, 12)
      }
  })

  test("is the usual goalie for the usual time", () => {
    const [speed, gain] = fromPassing("T-push", 1.83, timing(usualPassing("T-push", 1.83), 0.02))
    const q = defaultSettings().quantities
    expect(speed!.value).toBeCloseTo(q["movement.t_push_speed"], 12)
    expect(gain!.value).toBeCloseTo(q["movement.t_push_acceleration"], 12)
  })

  // n = 20000 times, seed (7, 1), normal; the delta method drops terms of relative size 3 (sd/T)², here 1 %, beside a
  // sampling error of the spread of 0.5 %: the two must agree within 4 %
  // seen to fail: the factor 2 of the acceleration left out
  test("has the spread that seeded Monte Carlo of the readings has", () => {
    const n = 20_000
    const draws = new Float64Array(n)
    fillUniforms([7, 1], 0, PLAY, 0, n, 1, draws)
    const error = WATCH_ERROR / 2
    const values = [0, 1].map(() => new Float64Array(n))
    for (let i = 0; i < n; i++) {
      const rows = fromPassing("T-push", 1.83, timing(0.9 + error * invertNormal(draws[i]!), error))
      rows.forEach((row, column) => {
        values[column]![i] = row.value
      })
    }
    fromPassing("T-push", 1.83, timing(0.9, error)).forEach((row, column) => {
      const drawn = values[column]!
      const mean = drawn.reduce((sum, value) => sum + value, 0) / n
      const sd = Math.sqrt(drawn.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1))
      expect(Math.abs(sd / row.standardError - 1)).toBeLessThan(0.04)
      expect(row.high - row.low).toBeCloseTo(4 * row.standardError, 12)
    })
  })

  test("is within what a file may hold at the limits of its time, low and high included", () => {
    for (const { mode } of TIMED) {
      const { least, most } = passingLimits(mode, 2)
      expect(least).toBeLessThan(usualPassing(mode, 2))
      for (const time of [least, most])
        for (const row of fromPassing(mode, 2, timing(time, time))) {
          const quantity = QUANTITIES[row.key]
          expect(row.value).toBeGreaterThan(quantity.least * (1 - 1e-9))
          expect(row.value).toBeLessThan(quantity.most * (1 + 1e-9))
          expect(row.low).toBeGreaterThanOrEqual(quantity.least)
          expect(row.high).toBeLessThanOrEqual(quantity.most)
        }
    }
  })
})

test("the drop is the time that was read", () => {
  const { key, value, low, high } = fromDrop(timing(0.3, 0.01))
  expect([key, value]).toEqual(["goalie.drop_time", 0.3])
  expect([low, high].map((end) => Number(end.toFixed(6)))).toEqual([0.28, 0.32])
})
