import type { Settings } from "../settings.ts"
import type { PlayBranch } from "./branch.ts"
import { carrierSpot, passOrShot } from "./pass-or-shot.ts"

/** A carrier on one side, in place, who shoots or passes to a receiver at the far post. */
export function backDoorPass(settings: Settings): PlayBranch[] {
  const passLost = settings.quantities["play.pass_lost"]
  return passOrShot(settings, { start: carrierSpot(settings), legs: [], shotLost: 0, passLost })
}
