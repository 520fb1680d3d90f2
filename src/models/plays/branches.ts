import type { ChoiceName, Settings } from "../settings.ts"
import { backDoorPass } from "./back-door-pass.ts"
import type { PlayBranch } from "./branch.ts"
import { breakaway } from "./breakaway.ts"
import { crossCreaseWalk } from "./cross-crease-walk.ts"
import { crossIcePass } from "./cross-ice-pass.ts"
import { latePass } from "./late-pass.ts"
import { lowToHighPass } from "./low-to-high-pass.ts"
import { netDrive } from "./net-drive.ts"
import { rush } from "./rush.ts"
import { screenedShot } from "./screened-shot.ts"
import { straightShot } from "./straight-shot.ts"
import { timedEvents } from "./timed-events.ts"
import { twoOnOne } from "./two-on-one.ts"
import { wrapAround } from "./wrap-around.ts"

/** How each play goes, by its name: one file each. */
const PLAYS: Readonly<Record<ChoiceName<"play.kind">, (settings: Settings) => PlayBranch[]>> = {
  "straight shot": straightShot,
  "cross-ice pass": crossIcePass,
  rush,
  "late pass": latePass,
  "back-door pass": backDoorPass,
  "two-on-one": twoOnOne,
  breakaway,
  "cross-crease walk": crossCreaseWalk,
  "net drive": netDrive,
  "low-to-high pass": lowToHighPass,
  "wrap-around": wrapAround,
  "timed events": timedEvents,
  "screened shot": screenedShot,
}

/** The ways the play of these settings can go; their shares sum to 1. */
export function branchesOf(settings: Settings): PlayBranch[] {
  return PLAYS[settings.choices["play.kind"] as ChoiceName<"play.kind">](settings)
}

/** Whether anything goes before the shot in any branch. */
export function movesBefore(branches: readonly PlayBranch[], settings: Settings): boolean {
  return branches.some(({ legs }) => legs.length > 0) || settings.quantities["goalie.cheat"] > 0
}
