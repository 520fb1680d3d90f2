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
import { builtKernel } from "../../engine/both-kernels.ts"

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

// seen to fail: the read of the release left out of what the compiled kernel is handed
test("the compiled kernel finds the same milliseconds to spare, to the last bit, in one goalie after another", () => {
  const kernel = builtKernel()
  for (const depth of [0.4, 1.3, 0.4])
    for (const read of [0, 0.05]) {
      const settings = withSettings(defaultSettings(), {
        quantities: { "play.distance": 7, "play.angle": 0.3, "goalie.depth": depth, "shooter.early_read": read },
      })
      const { spare } = reachOf(settings, 22, 15, false)
      expect(reachOf(settings, 22, 15, false, kernel).spare).toEqual(spare)
      expect(spare.filter((seconds) => Number.isFinite(seconds)).length).toBeGreaterThan(50)
    }
})
