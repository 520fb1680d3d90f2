import seedrandom from "seedrandom"
import { expect, test } from "vitest"
import { angleBetweenPosts, solidAngleOfMouth } from "../../../src/models/goal/angles.ts"
import { chosenFrame } from "../../../src/models/goal/chosen-frame.ts"
import { FRAME_NAMES, GOAL_FRAMES } from "../../../src/models/goal/frames.ts"
import { worldOf } from "../../../src/models/plays/world.ts"
import { defaultSettings, withSettings } from "../../../src/models/settings.ts"
import { SOURCES } from "../../../src/models/sources.ts"
import { BAR_RADIUS, MOUTH_HALF_WIDTH, MOUTH_HEIGHT, POST_RADIUS } from "../../../src/sim/world.ts"

// seen to fail: diameters written where radii belong
test("worldOf() holds the opening and iron of the chosen frame", () => {
  for (const name of FRAME_NAMES) {
    const frame = GOAL_FRAMES[name]
    const world = worldOf(withSettings(defaultSettings(), { choices: { "goal.frame": name } }))
    expect(world[MOUTH_HALF_WIDTH]!).toBe(frame.width / 2)
    expect(world[MOUTH_HEIGHT]!).toBe(frame.height)
    expect(world[POST_RADIUS]!).toBe(frame.postDiameter / 2)
    expect(world[BAR_RADIUS]!).toBe(frame.barDiameter / 2)
    for (const key of Object.values(frame.sources)) expect(key === "assumption" || key in SOURCES).toBe(true)
  }
})

// seen to fail: a measured width ignored
test("chosenFrame() puts measured openings before the rule's", () => {
  const settings = withSettings(defaultSettings(), {
    quantities: { "goal.mouth_width": 1.5, "goal.mouth_height": 1, "goal.post_diameter": 0.04 },
  })
  expect(chosenFrame(settings)).toEqual({ width: 1.5, height: 1, postDiameter: 0.04, barDiameter: 0.04 })
  const narrow = withSettings(defaultSettings(), { quantities: { "goal.mouth_width": 1.5 } })
  expect(chosenFrame(narrow).height).toBe(1.2192)
})

// seed "solid angle", n = 40,000 directions a place, |z| < 4: about 1 in 16,000 by chance for each of the three
// seen to fail: the ice-level corners added instead of subtracted
test("solidAngleOfMouth() is the share of random directions that go through the mouth", () => {
  const random = seedrandom("solid angle")
  const n = 40_000
  for (const [x, y, z] of [
    [2, 0, 0.02],
    [1.5, 2.5, 0.3],
    [4, -1, 1.6],
  ] as const) {
    let hits = 0
    for (let i = 0; i < n; i++) {
      // uniform over the half sphere toward the goal
      const dx = -random()
      const turn = 2 * Math.PI * random()
      const side = Math.sqrt(1 - dx * dx)
      const atY = y - (x / dx) * side * Math.cos(turn)
      const atZ = z - (x / dx) * side * Math.sin(turn)
      if (Math.abs(atY) < 0.9144 && atZ > 0 && atZ < 1.2192) hits++
    }
    const share = solidAngleOfMouth(x, y, z, 1.8288, 1.2192) / (2 * Math.PI)
    expect(Math.abs(hits / n - share) / Math.sqrt((share * (1 - share)) / n)).toBeLessThan(4)
  }
})

// seen to fail: the right post's bearing from the left one's
test("angleBetweenPosts() is the same from both sides and grows without bound to pi on the goal line", () => {
  expect(angleBetweenPosts(5, 2, 1.83)).toBeCloseTo(angleBetweenPosts(5, -2, 1.83), 14)
  expect(angleBetweenPosts(1e-9, 0, 1.83)).toBeCloseTo(Math.PI, 6)
  expect(angleBetweenPosts(1e-9, 3, 1.83)).toBeCloseTo(0, 6)
})
