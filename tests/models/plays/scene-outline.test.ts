import { expect, test } from "vitest"
import { compileScene, outlineScene } from "../../../src/models/plays/scene.ts"
import { defaultSettings, type Settings, withSettings } from "../../../src/models/settings.ts"

const base = defaultSettings()
const places: Settings = {
  ...base,
  origins: [
    { kind: "spot", label: "slot", weight: 2, x: 6, y: 0 },
    { kind: "spot", label: "left circle", weight: 1, x: 7, y: 6 },
  ],
}
const PLAYS: readonly (readonly [string, Settings])[] = [
  ["a clear shot", base],
  ["a clear shot from two places", places],
  ["a cross-ice pass", withSettings(base, { choices: { "play.kind": "cross-ice pass" } })],
  ["a pass or a shot", withSettings(base, { choices: { "play.kind": "two-on-one" } })],
  ["a screened shot", withSettings(base, { choices: { "play.kind": "screened shot" } })],
]

// Seen to fail with the branches of one name counted apart.
test.each(PLAYS)("the outline of %s is what its scene comes to", (_, settings) => {
  const poses = [settings, withSettings(settings, { quantities: { "goalie.depth": 0.5 } })]
  const { play, traffic, rebound, spots, poses: compiled } = compileScene(poses)
  const outline = outlineScene(poses)
  expect(outline).toMatchObject({ play, traffic, rebound, spots })
  expect(outline.poses.length).toBe(compiled.length)
})

test("an outline of no poses is refused as a scene of none is", () => {
  for (const made of [outlineScene, compileScene])
    expect(() => made([])).toThrow("Cannot compile a scene as the number of poses must be > 0")
})
