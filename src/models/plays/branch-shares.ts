import type { Metres, Probability } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { softmax } from "../shooter/reading.ts"
import type { PlayBranch, Rung } from "./branch.ts"
import { branchesOf } from "./branches.ts"
import { keepsOffAt } from "./keep-off.ts"

/** What each branch promises against each pose. [poses][branches]; asked only where some carrier chooses. */
export type Promised = () => readonly (readonly Probability[])[]

/**
 * How often each branch is played against each pose: as by a carrier who does not look, mixed by the carrier's skill with
 * a softmax of what the branches promise. With skill 0 the promises have no part in the result. Of the places that one
 * ending may be played from, each pose meets those that keep off the goalie. [poses x branches], each row sums to 1
 */
export function branchShares(settingsOfPoses: readonly Settings[], promised: Promised): Float64Array {
  const branches = settingsOfPoses.map(branchesOf)
  const parts = settingsOfPoses.map((settings, pose) => rungParts(settings, branches[pose]!))
  const chooses = settingsOfPoses.some(({ quantities }) => quantities["shooter.choice_skill"] > 0)
  const promises = chooses && branches[0]!.length > 1 ? promised() : null
  const rows = settingsOfPoses.map(({ quantities }, pose) => {
    const skill = quantities["shooter.choice_skill"]
    const part = parts[pose]!
    const blind = branches[pose]!.map(({ share }, branch) => share * part[branch]!)
    if (promises === null || skill === 0) return blind
    const chosen = chosenShares(branches[pose]!, part, promises[pose]!, quantities["shooter.choice_temperature"])
    return blind.map((share, branch) => skill * chosen[branch]! + (1 - skill) * share)
  })
  return Float64Array.from(rows.flat())
}

/** How often each branch is played against a goalie by a carrier who does not look. */
export function blindShares(settings: Settings): Probability[] {
  const branches = branchesOf(settings)
  const part = rungParts(settings, branches)
  return branches.map(({ share }, branch) => share * part[branch]!)
}

/** Softmax of what the endings promise, by name; the places of one ending share it by their parts. */
function chosenShares(
  branches: readonly PlayBranch[],
  part: readonly Probability[],
  promise: readonly Probability[],
  temperature: number,
): Probability[] {
  const names = [...new Set(branches.map(({ name }) => name))]
  const expected = new Float64Array(names.length)
  for (const [branch, { name }] of branches.entries())
    expected[names.indexOf(name)]! += part[branch]! * promise[branch]!
  const chosen = softmax(expected, temperature, new Uint8Array(expected.length).fill(1))
  return branches.map(({ name }, branch) => chosen[names.indexOf(name)]! * part[branch]!)
}

/** Part of each branch among those of its name: 1 where there is one place to play it from. */
function rungParts(settings: Settings, branches: readonly PlayBranch[]): Probability[] {
  // one look along the way for all the places on it
  const kept = new Map<Metres, Metres>()
  return branches.map(({ rung }) => {
    if (rung === undefined) return 1
    const wanted = kept.get(rung.nearest) ?? keepsOffAt(settings, rung.start, rung.nearest)
    kept.set(rung.nearest, wanted)
    return rungShare(rung, wanted)
  })
}

/** How often a rung is taken when the attacker has to keep off at `wanted`: the two rungs around it share it evenly. */
export function rungShare({ nearest, step, at, of }: Rung, wanted: Metres): Probability {
  const place = Math.min(of - 1, Math.max(0, (wanted - nearest) / step))
  return Math.max(0, 1 - Math.abs(at - place))
}
