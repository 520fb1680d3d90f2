import { expect, test } from "vitest"
import { worldOf } from "../../../src/models/plays/world.ts"
import { reachOf } from "../../../src/models/positioning/reach-of.ts"
import { defaultSettings, withSettings } from "../../../src/models/settings.ts"
import { ON_GOAL } from "../../../src/sim/fate.ts"
import { fly } from "../../../src/sim/flight.ts"
import { crossMouth } from "../../../src/sim/iron.ts"
import { aimAt, LAUNCH_AZIMUTH, LAUNCH_TANGENT } from "../../../src/sim/launch.ts"
import { PATH_STRIDE } from "../../../src/sim/path.ts"
import { eachCell } from "../../../src/sim/reach-map.ts"

// seen to fail: every cell of the map told clear, as from straight ahead
test("at 80 degrees the reach map is clear where pucks get past the iron, counted one by one", () => {
  const settings = withSettings(defaultSettings(), {
    quantities: { "play.distance": 6, "play.angle": (80 * Math.PI) / 180 },
  })
  const world = worldOf(settings)
  const { grid, shot, clear } = reachOf(settings, 44, 30, false)
  const [path, aimed, crossing] = [new Float64Array(PATH_STRIDE), new Float64Array(2), new Float64Array(3)]
  let counted = 0
  eachCell(grid, (cell, y, z) => {
    aimAt(world, shot.x, shot.y, shot.z, y, z, shot.speed, 10, path, 0, aimed, 0)
    const elevation = Math.atan(aimed[LAUNCH_TANGENT]!)
    fly(world, shot.x, shot.y, shot.z, aimed[LAUNCH_AZIMUTH]!, elevation, shot.speed, 8, path, 0)
    const clears = crossMouth(world, path, 0, crossing) === ON_GOAL
    expect(clear[cell]).toBe(clears ? 1 : 0)
    if (clears) counted++
  })
  expect(counted / (44 * 30)).toBeGreaterThan(0.5)
  expect(counted / (44 * 30)).toBeLessThan(0.75)
})
