import { expect, test } from "vitest"
import { angleBetweenPosts, solidAngleOfMouth } from "../../src/models/goal/angles.ts"
import { GOAL_FRAMES } from "../../src/models/goal/frames.ts"

const FOOT = 0.3048
const { "north-american": northAmerican, international, youth } = GOAL_FRAMES

// seen to fail: the post's far side in place of its inside
test("the posts of a 6-ft mouth subtend the angles of plane trigonometry", () => {
  // source: arithmetic, 2 atan(w / 2D) on the axis and a difference of two arctangents off it
  const table = [
    [20, 0, 17.0615],
    [30, 0, 11.4212],
    [54, 0, 6.3597],
    [20, 22, 7.809],
    [10, 15, 10.751],
    [5, 10, 14.5002],
  ] as const
  for (const [out, side, degrees] of table) {
    const angle = angleBetweenPosts(out * FOOT, side * FOOT, 6 * FOOT)
    expect((angle * 180) / Math.PI).toBeCloseTo(degrees, 4)
  }
})

// seen to fail: the root without the distance
test("the solid angle of a centred rectangle is 4 atan(WH / (2D sqrt(4D² + W² + H²)))", () => {
  // source: closed form for a right pyramid; a cube's face from its centre fills 2 pi / 3 = 2.094395102
  expect(solidAngleOfMouth(0.5, 0, 0.5, 1, 1)).toBeCloseTo(2.094395102, 9)
  for (const D of [1, 5, 20]) {
    const [W, H] = [1.8288, 1.2192]
    const closed = 4 * Math.atan((W * H) / (2 * D * Math.sqrt(4 * D * D + W * W + H * H)))
    expect(solidAngleOfMouth(D, 0, H / 2, W, H)).toBeCloseTo(closed, 12)
  }
})

// seen to fail: the puck at half the height of the mouth for both
test("the mouth fills the published solid angles from a puck on the ice and from mid-height", () => {
  // source: arithmetic for a net of 1.8288 by 1.2192 m
  const table = [
    [5, 0.08526, 0.087094],
    [9.144, 0.026302, 0.026476],
    [10, 0.022041, 0.022163],
    [18.288, 0.006644, 0.006655],
  ] as const
  for (const [D, onIce, centred] of table) {
    expect(solidAngleOfMouth(D, 0, 0, 1.8288, 1.2192)).toBeCloseTo(onIce, 6)
    expect(solidAngleOfMouth(D, 0, 0.6096, 1.8288, 1.2192)).toBeCloseTo(centred, 6)
  }
})

// seen to fail: the pipe's radius in place of its diameter
test("the goals measure what the rule books print", () => {
  // source: [GoalECHL2021] rule 2.1 and drawing: 72 in inside, 48 in high, pipe of 2 3/8 in, 74 3/8 in between centres
  expect(northAmerican.width).toBeCloseTo(72 * 0.0254, 10)
  expect(northAmerican.height).toBeCloseTo(48 * 0.0254, 10)
  expect(northAmerican.postDiameter).toBeCloseTo(2.375 * 0.0254, 4)
  expect(northAmerican.width + northAmerican.postDiameter).toBeCloseTo(74.375 * 0.0254, 4)
  expect(northAmerican.width * northAmerican.height).toBeCloseTo(2.2297, 4)
  // source: [GoalIIHF2023] rule 2.1: 1.83 by 1.22 m; [GoalRule130] posts and bar of 50 mm
  expect([international.width, international.height]).toEqual([1.83, 1.22])
  expect([international.postDiameter, international.barDiameter]).toEqual([0.05, 0.05])
  // source: assumption, 4.5 by 3 ft from memory
  expect(youth.width).toBeCloseTo(4.5 * FOOT, 10)
  expect(youth.height).toBeCloseTo(3 * FOOT, 10)
})
