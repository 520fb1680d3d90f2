import type { Settings } from "../settings.ts"
import type { PlayBranch } from "./branch.ts"
import { carrierSpot, passOrShot } from "./pass-or-shot.ts"
import { carryIn, carryStart } from "./rush.ts"

/**
 * A carrier who comes in at speed and shoots or passes to a team-mate beside them, and one defender who takes part of
 * either away: passes are cut off, shots blocked.
 */
export function twoOnOne(settings: Settings): PlayBranch[] {
  const q = settings.quantities
  const carrier = carrierSpot(settings)
  const onPass = q["play.defender_on_pass"]
  const cutOff = onPass * q["play.defender_cuts_off"]
  return passOrShot(settings, {
    start: carryStart(settings, carrier),
    legs: [carryIn(settings, carrier)],
    shotLost: (1 - onPass) * q["play.defender_blocks"],
    passLost: 1 - (1 - cutOff) * (1 - q["play.pass_lost"]),
  })
}
