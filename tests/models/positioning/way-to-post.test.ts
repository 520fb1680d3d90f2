import { expect, test } from "vitest"
import { wayToPost } from "../../../src/models/positioning/way-to-post.ts"
import { defaultSettings, withSettings } from "../../../src/models/settings.ts"

const settingsOf = (stance: string, depth: number, degrees: number, nearPost = "puck side") =>
  withSettings(defaultSettings(), {
    quantities: { "goalie.depth": depth, "play.angle": (degrees * Math.PI) / 180, "play.distance": 4 },
    choices: { "goalie.stance": stance, "goalie.near_post": nearPost },
  })

test("only a stance that seals a post has a way to it", () => {
  expect(wayToPost(settingsOf("set", 0.4, 75))).toBeNull()
  expect(wayToPost(settingsOf("butterfly", 0.4, 75))).toBeNull()
})

// seen to fail with the skate on the other side of the body
test("the near skate is away from the post on the goal line, and at it where depth runs along the post", () => {
  for (const stance of ["overlap", "lean", "VH", "RVH"]) {
    expect(wayToPost(settingsOf(stance, 0.4, 75))!).toBeGreaterThan(0.4)
    expect(wayToPost(settingsOf(stance, 0.95, 75))!).toBeLessThan(0.13)
  }
})

// seen to fail with the left post whatever the side
test("it is the same from the other side, and for the post that is chosen", () => {
  for (const depth of [0.4, 0.95]) {
    const way = wayToPost(settingsOf("VH", depth, 75))!
    expect(wayToPost(settingsOf("VH", depth, -75))!).toBeCloseTo(way, 12)
    expect(wayToPost(settingsOf("VH", depth, 75, "right"))!).toBeGreaterThan(1)
  }
})
