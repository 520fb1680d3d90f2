import { expect, test } from "vitest"
import { puckEyeChart } from "../../../src/experiments/charts/puck-eye.ts"
import { readExperimentText } from "../../../src/experiments/read/read-experiment.ts"
import { puckEyeOf } from "../../../src/models/positioning/box-of.ts"
import { reachOf } from "../../../src/models/positioning/reach-of.ts"
import { inventedPanels } from "../fixture-pictures.ts"
import { depthAlone } from "../fixture-results.ts"

/** Milliseconds to spare in the middle of the fourth of thirty rows, and the top of the stick blade as drawn. */
function behindBlade(speed: string): { readonly spare: number; readonly z: number; readonly bladeTop: number } {
  const text = `question: x\ngoalie: { depth: 3 m }\nplay: { kind: straight shot, distance: 5 m }\nshooter: { speed: ${speed} }`
  const result = readExperimentText("one.yaml", text)
  if ("problems" in result) throw new Error(result.problems[0]!.text)
  const { settings } = result.experiment.points[0]!
  const { grid, spare } = reachOf(settings, 7, 30, false)
  const blade = puckEyeOf(settings).outlines.find(({ part }) => part === "stick blade")!
  return {
    spare: spare[3 * 7 + 3]!,
    z: 0.5 * (grid.z[3]! + grid.z[4]!),
    bladeTop: Math.max(...blade.points.map(([, z]) => z)),
  }
}

// a straight line there meets the blade at any speed
test("a slow shot drops in behind the drawn stick blade, and one that hardly drops is covered by it", () => {
  const [slow, fast] = [behindBlade("70 km/h"), behindBlade("190 km/h")]
  for (const { z, bladeTop } of [slow, fast]) expect(z).toBeLessThan(bladeTop - 0.0127)
  expect(slow.spare).toBeLessThan(0)
  expect(fast.spare).toBe(Number.POSITIVE_INFINITY)
})

// seen to fail: the subtitle without it
test("the puck's eye says why a number can stand on a limb", () => {
  const chart = puckEyeChart({ ...depthAlone(), puckEye: inventedPanels(2) })!
  expect(JSON.stringify(chart.spec)).toContain("a shot that drops can pass over a limb")
})
