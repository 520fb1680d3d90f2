import type { Probability } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { softmax } from "../shooter/reading.ts"
import { branchesOf } from "./branches.ts"

/** What each branch promises against each pose. [poses][branches]; asked only where some carrier chooses. */
export type Promised = () => readonly (readonly Probability[])[]

/**
 * How often each branch is played against each pose: as by a carrier who does not look, mixed by the carrier's skill with
 * a softmax of what the branches promise. With skill 0 the promises have no part in the result. [poses x branches], each
 * row sums to 1
 */
export function branchShares(settingsOfPoses: readonly Settings[], promised: Promised): Float64Array {
  const blind = settingsOfPoses.map((settings) => branchesOf(settings).map(({ share }) => share))
  const chooses = settingsOfPoses.some(({ quantities }) => quantities["shooter.choice_skill"] > 0)
  const promises = chooses && blind[0]!.length > 1 ? promised() : null
  const rows = settingsOfPoses.map(({ quantities }, pose) => {
    const skill = quantities["shooter.choice_skill"]
    if (promises === null || skill === 0) return blind[pose]!
    const expected = Float64Array.from(promises[pose]!)
    const chosen = softmax(expected, quantities["shooter.choice_temperature"], new Uint8Array(expected.length).fill(1))
    return blind[pose]!.map((share, branch) => skill * chosen[branch]! + (1 - skill) * share)
  })
  return Float64Array.from(rows.flat())
}
