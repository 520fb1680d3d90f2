import { expect, test } from "vitest"
import { placeBody } from "../../../src/sim/box/placed.ts"
import { puckFrom } from "../../../src/sim/box/sight.ts"
import { closePlace } from "../../../src/sim/box/travel.ts"
import {
  GREATEST_V,
  LAG,
  LEAST_V,
  LIMB_STRIDE,
  LIMBS,
  type Limb,
  LONGEST_REACH,
  NO_LIMB,
  PART_STRIDE,
  PEAK_ACCELERATION,
  PEAK_SPEED,
  type Posture,
  ROOT_LENGTH,
} from "../../../src/sim/parts.ts"
import { partAt } from "../bodies.ts"

const STANDING = { gx: 1, gy: 0, heading: 0, phase: 0 }
const PUCK = puckFrom(9, 0, 0.6, 0.0381, 0.0127)

/** A glove at the left, a pad at the right, and a trunk no limb carries; limbs as `row` says. */
function posture(row: Partial<Record<Limb, Record<number, number>>>): Posture {
  const parts = new Float64Array(3 * PART_STRIDE)
  parts.set(partAt([0, 0.4, 0.6], undefined, [0, 0, 0], 0.1), 0)
  parts.set(partAt([0, -0.4, 0.3], undefined, [0, 0.05, 0.2], 0.05), PART_STRIDE)
  parts.set(partAt([0, 0, 0.6], undefined, [0, 0, 0], 0.2), 2 * PART_STRIDE)
  const limbs = new Float64Array(LIMBS.length * LIMB_STRIDE)
  for (const [i, limb] of LIMBS.entries()) {
    const columns = {
      [LONGEST_REACH]: 1,
      [PEAK_SPEED]: 4,
      [PEAK_ACCELERATION]: 60,
      [LEAST_V]: Number.NEGATIVE_INFINITY,
      [GREATEST_V]: Number.POSITIVE_INFINITY,
      [ROOT_LENGTH]: Number.POSITIVE_INFINITY,
      ...row[limb],
    }
    for (const [column, value] of Object.entries(columns)) limbs[i * LIMB_STRIDE + Number(column)] = value
  }
  const roots = new Float64Array(LIMBS.length * 3)
  roots.set([0, 0.2, 1.1], 0)
  return {
    phases: 1,
    count: 3,
    parts,
    region: new Uint8Array(3),
    carrier: Uint8Array.from([LIMBS.indexOf("glove hand"), LIMBS.indexOf("right leg"), NO_LIMB]),
    restitution: new Float64Array(3),
    limbs,
    roots,
    halfStance: 0.4,
    foremost: 0.3,
    leak: 0,
  }
}

function close(p: Posture, y: number, z: number, standing = STANDING, puck = PUCK) {
  return closePlace(p, placeBody(p, standing.phase, standing.gx, standing.gy, standing.heading), standing, puck, y, z)
}

// Seen to fail with the puck's radius left out of the clearance.
test("the glove travels the way from its surface to the puck's path", () => {
  // at the goalie's plane the path to y = 0.9 is at y = 0.8: the ball of 0.1 at 0.4 misses it sideways
  const { limb, travel, time } = close(posture({}), 0.9, 0.6)
  const slant = Math.cos(Math.atan2(0.9, 9))
  expect(limb).toBe("glove hand")
  // the disc's rim is met along the level normal of the path
  expect(travel).toBeCloseTo((0.8 - 0.4) * slant - 0.1 - 0.0381, 10)
  expect(time).toBeCloseTo(Math.max((1.875 * travel) / 4, Math.sqrt((5.773502691896258 * travel) / 60)), 12)
})

// Seen to fail with the limb of least travel taken.
test("the limb that is there soonest closes, not the one with the least way", () => {
  const slowGlove = posture({ "glove hand": { [LAG]: 0.5 } })
  const { limb, travel } = close(slowGlove, 0.3, 0.3)
  const quick = close(posture({}), 0.3, 0.3)
  expect(quick.limb).toBe("glove hand")
  expect(limb).toBe("right leg")
  expect(travel).toBeGreaterThan(quick.travel)
})

// Seen to fail with the heading left out of the goalie's frame.
test("a limb that may not cross the middle does not close the other side, also when the goalie is turned", () => {
  const kept = posture({ "glove hand": { [LEAST_V]: -0.1 }, "right leg": { [LONGEST_REACH]: 0 } })
  expect(close(kept, 0.5, 0.5).limb).toBe("glove hand")
  expect(close(kept, -0.8, 0.5).limb).toBe("none")
  // facing a puck 60 degrees to the left from the middle of the goal line, its left is at the near post
  const turned = { gx: 0.5, gy: 0.866, heading: Math.PI / 3, phase: 0 }
  const aside = puckFrom(4, 4 * Math.sqrt(3), 0.6, 0.0381, 0.0127)
  expect(close(kept, 0.9, 0.6, turned, aside).limb).toBe("glove hand")
  expect(close(kept, -0.9, 0.6, turned, aside).limb).toBe("none")
})

// Seen to fail with the ball about the root twice as wide.
test("a hand closes only what its arm's length from the shoulder reaches", () => {
  const far = { "right leg": { [LONGEST_REACH]: 0 } }
  expect(close(posture(far), 0.9, 0.1).limb).toBe("glove hand")
  expect(close(posture({ ...far, "glove hand": { [ROOT_LENGTH]: 0.6 } }), 0.9, 0.1).limb).toBe("none")
  const straight = close(posture({ ...far, "glove hand": { [ROOT_LENGTH]: 0.6 } }), 0.6, 0.9)
  expect(straight.limb).toBe("glove hand")
  expect(straight.travel).toBeLessThan(0.6)
})

// Seen to fail with the longest reach ignored.
test("a limb closes nothing beyond its longest reach", () => {
  const short = posture({ "glove hand": { [LONGEST_REACH]: 0.2 }, "right leg": { [LONGEST_REACH]: 0.2 } })
  expect(close(short, 0.9, 0.6)).toEqual({
    limb: "none",
    travel: Number.POSITIVE_INFINITY,
    time: Number.POSITIVE_INFINITY,
  })
})
