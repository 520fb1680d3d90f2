import type { Openness } from "../../sim/mouth-grid.ts"
import type { Probability } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { promisedGoals } from "../shooter/promise.ts"
import type { PlayBranch } from "./branch.ts"
import { originCells } from "./origin-cells.ts"
import { scoringMouth } from "./strata.ts"

/**
 * What each branch promises a carrier against each pose: the chance that a shot comes of it, times what that shot
 * promises from where it is taken. `openness` is what is expected to be open there. [poses][branches]
 */
export function branchPromises(
  settingsOfPoses: readonly Settings[],
  branches: readonly PlayBranch[],
  openness: (branch: number) => Openness,
): Probability[][] {
  const catches = settingsOfPoses.map((pose) => pose.choices["goalie.catches"])
  const ofBranches = branches.map(({ settings, lost }, index) => {
    const scene = { settings, mouthFrom: scoringMouth(settings), catches, openness: openness(index) }
    const promises = new Float64Array(catches.length)
    for (const { x, y, weight } of originCells(settings).cells)
      for (const [pose, promise] of promisedGoals(scene, x, y).entries())
        promises[pose]! += (1 - lost) * weight * promise
    return promises
  })
  return settingsOfPoses.map((_, pose) => ofBranches.map((promises) => promises[pose]!))
}
