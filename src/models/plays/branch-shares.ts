import type { Settings } from "../settings.ts"
import type { PlayBranch } from "./branch.ts"

/** How often each branch is played against each pose. [poses x branches], each row sums to 1 */
export function branchShares(settingsOfPoses: readonly Settings[], branches: readonly PlayBranch[]): Float64Array {
  const shares = new Float64Array(settingsOfPoses.length * branches.length)
  for (const pose of settingsOfPoses.keys())
    for (const [index, { share }] of branches.entries()) shares[pose * branches.length + index] = share
  return shares
}
