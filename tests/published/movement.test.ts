import { expect, test } from "vitest"
import { pathAcross } from "../../src/models/movement/path-across.ts"
import { defaultSettings, QUANTITIES, withSettings } from "../../src/models/settings.ts"
import { limbMargin } from "../../src/sim/limb.ts"
import { fallSpeed, fallTime } from "../../src/sim/motion/fall.ts"
import { restToPassing } from "../../src/sim/motion/mode.ts"
import { saucerArrival, slidingArrival, slidingSpeed } from "../../src/sim/motion/pass.ts"
import { CATCH_RADIUS, LIMB_STRIDE, LONGEST_REACH, PEAK_ACCELERATION, PEAK_SPEED } from "../../src/sim/parts.ts"

const DEGREES = Math.PI / 180
/** End-zone dots of a North American sheet, 20 ft out and 22 ft to either side. */
const RIGHT_DOT = { x: 6.096, y: -6.7056 }
const LEFT_DOT = { x: 6.096, y: 6.7056 }
/** Nothing but the lines: no stance to keep inside the posts. */
const LINES_ALONE = { halfStance: 0, mouthHalfWidth: 0.9144, nearest: 0.1, outward: 0 }

// source: arithmetic on the rule book's dots: a dot-to-dot pass turns the goalie 95.5 degrees
test("a pass from dot to dot turns the goalie 95.5 degrees", () => {
  // seen to fail: the angle between the dots seen from 1 m out
  const { turn } = pathAcross(defaultSettings(), RIGHT_DOT, LEFT_DOT, 1, 1, LINES_ALONE)
  expect(turn / DEGREES).toBeCloseTo(95.5, 1)
})

// source: arithmetic on the rule book's dots: 0.89, 1.48, 2.03, 2.71 m at depth 0.60, 1.00, 1.37, 1.83 m
test.each([
  [0.6, 0.89],
  [1, 1.48],
  [1.37, 2.03],
  [1.83, 2.71],
])("at a depth of %d m a pass from dot to dot asks for %d m straight across", (depth, distance) => {
  const path = pathAcross(defaultSettings(), RIGHT_DOT, LEFT_DOT, depth, depth, LINES_ALONE)
  expect(Math.abs(path.distance - distance)).toBeLessThan(0.005)
})

// source: arithmetic on the rule book's dots, 13.41 m apart: 0.89 s at 15 m/s, 0.61 s at 22 m/s
test("a pass from dot to dot takes 0.89 s at 15 m/s and 0.61 s at 22 m/s", () => {
  const apart = LEFT_DOT.y - RIGHT_DOT.y
  expect(Math.abs(slidingArrival(0, 0, 15, apart) - 0.89)).toBeLessThan(0.005)
  expect(Math.abs(slidingArrival(0, 0, 22, apart) - 0.61)).toBeLessThan(0.005)
})

// source: textbook problem, v² = 2 mu g d: 10 m/s stops in 40 m with mu 0.127 (g = 9.8), at 1.25 m/s2 after 8 s
test("a puck that friction stops in 40 m from 10 m/s slides for 8 s", () => {
  const friction = 0.127 * 9.8
  expect(Math.abs(friction - 1.25)).toBeLessThan(0.01)
  expect(slidingSpeed(1.25, 0, 10, 40)).toBeCloseTo(0, 9)
  expect(slidingArrival(1.25, 0, 10, 39.999)).toBeCloseTo(8, 1)
  expect(slidingArrival(1.25, 0, 10, 30)).toBeCloseTo(4, 12)
})

// source: closed form, drag alone with k = 0.006, v0 = 30, x = 10: v = 28.2529 m/s after 0.343536 s
test("a slide without friction keeps the speed and takes the time of flight through the air", () => {
  expect(slidingSpeed(0, 0.006, 30, 10)).toBeCloseTo(28.2529, 4)
  expect(slidingArrival(0, 0.006, 30, 10)).toBeCloseTo(0.343536, 6)
  // a pass that barely leaves the ice flies as long
  expect(saucerArrival(1e-9, 0, 0.006, 30, 10, 10)).toBeCloseTo(0.343536, 6)
})

// source: [FlashHogan1985] closed form: s(.1) .00856, s(.25) .103515625, s(.5) .5, s(.75) .896484375, peak speed 15/8
test.each([
  [0.1, 0.00856],
  [0.25, 0.103515625],
  [0.5, 0.5],
  [0.75, 0.896484375],
  [1, 1],
])("a minimum-jerk reach is after %d of its time %d of the way", (time, share) => {
  // 0.4 m in 0.5 s asks for a peak of 1.5 m/s, 15/8 of the mean; without errors the margin is what is left of the way
  const limb = new Float64Array(LIMB_STRIDE)
  limb[CATCH_RADIUS] = 0.1
  limb[LONGEST_REACH] = 1
  limb[PEAK_SPEED] = 1.5
  limb[PEAK_ACCELERATION] = 1e9
  const margin = limbMargin(limb, 0, 0.3, 0.5 * time, 0)
  expect(1 - (0.1 - margin) / 0.4).toBeCloseTo(share, 9)
})

// source: closed form of a free fall, h = 0.45 m: 0.302891 s and 2.971363 m/s
test("a fall of the knees over 0.45 m takes 0.302891 s and ends at 2.971363 m/s", () => {
  expect(fallTime(9.81, 0.45)).toBeCloseTo(0.302891, 6)
  expect(fallSpeed(9.81, 0.45)).toBeCloseTo(2.971363, 6)
})

// source: [ButterflyDrop] peaks of 2.82, 3.00, 3.05 m/s are free falls of 0.287, 0.306, 0.311 s from 0.405, 0.459, 0.474 m
test.each([
  [2.82, 0.405, 0.287],
  [3, 0.459, 0.306],
  [3.05, 0.474, 0.311],
])(
  "a drop that peaks at %d m/s is a free fall of %d m in %d s, and the default drop is among them",
  (speed, height, time) => {
    expect(Math.abs(fallSpeed(9.81, height) - speed)).toBeLessThan(0.003)
    expect(Math.abs(fallTime(9.81, height) - time)).toBeLessThan(0.001)
    const { low, high } = QUANTITIES["goalie.drop_time"]
    expect(time).toBeGreaterThan(low)
    expect(time).toBeLessThan(high)
  },
)

// source: from memory, no study was found: post to post, 1.83 m, in 0.7 to 1.0 s
test("a T-push at the defaults passes the far post 1.83 m away within 0.7 to 1.0 s, and so over its range of speeds", () => {
  for (const key of ["value", "low", "high"] as const) {
    const speed = QUANTITIES["movement.t_push_speed"][key]
    const q = withSettings(defaultSettings(), { quantities: { "movement.t_push_speed": speed } }).quantities
    const time = restToPassing(q["movement.t_push_acceleration"], q["movement.t_push_speed"], 1.8288)
    expect(time).toBeGreaterThan(0.7)
    expect(time).toBeLessThan(1)
  }
})
