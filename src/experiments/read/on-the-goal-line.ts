import { branchesOf } from "../../models/plays/branches.ts"
import { NEAREST_X, nearestToLine, originsOf } from "../../models/plays/origin-cells.ts"
import type { Settings } from "../../models/settings.ts"
import type { Metres } from "../../sim/units.ts"
import type { DesignPoint } from "../experiment.ts"
import { formatQuantity } from "../quantity.ts"
import { trimNumber } from "../wording.ts"
import type { Problem } from "./problem.ts"
import { fail } from "./setting.ts"
import type { Found } from "./source.ts"

const FRONT = `${formatQuantity(NEAREST_X, "length", "cm")} or more in front of the goal line`

/** A point's shots that are taken from the goal line or from behind it: the place's name, and how far in front it is. */
interface Sightless {
  readonly label: string
  readonly x: Metres
  /** Distance of a single spot from the centre of the goal line; null for places that the file lists. */
  readonly distance: Metres | null
}

/**
 * Places on the goal line, each where it was written once: within the limits of an angle and of a distance, and yet the
 * puck sees no mouth from there. `foundAt` gives where a key of a point was written.
 */
export function reportOnGoalLine(
  points: readonly DesignPoint[],
  foundAt: (key: string, point: DesignPoint) => Found | undefined,
  problems: Problem[],
): void {
  // the branches of a play are made from settings that are sound
  if (problems.length > 0) return
  const told = new Set<Found>()
  for (const point of points) {
    const listed = point.settings.origins.length > 0
    const found = listed || isSteep(point.settings) ? foundAt(listed ? "play.from" : "play.angle", point) : undefined
    if (found === undefined || told.has(found)) continue
    const sightless = sightlessOf(point.settings)
    if (sightless === null) continue
    told.add(found)
    reportSightless(found, sightless, point.settings.quantities["play.angle"], problems)
  }
}

/** No shot is nearer than 1 m, so at smaller angles the puck is in front of the goal line. */
function isSteep({ quantities }: Settings): boolean {
  return Math.cos(quantities["play.angle"]) < NEAREST_X
}

function sightlessOf(settings: Settings): Sightless | null {
  for (const branch of branchesOf(settings)) {
    const origin = originsOf(branch.settings).find((one) => nearestToLine(one) < NEAREST_X)
    if (origin === undefined) continue
    const isListed = branch.settings.origins.length > 0
    const distance = isListed ? null : branch.settings.quantities["play.distance"]
    return { label: origin.label, x: nearestToLine(origin), distance }
  }
  return null
}

function reportSightless(found: Found, { label, x, distance }: Sightless, angle: number, problems: Problem[]): void {
  const { key } = found
  if (distance === null) {
    const current = `${label}, ${trimNumber(Number(x.toFixed(3)), 3)} m in front of it`
    fail(found, problems, { kind: "bad spot", key, rule: `places ${FRONT}`, current, remedy: "move it out" })
    return
  }
  const rule = `an angle at which the puck is ${FRONT}`
  const most = Math.floor((Math.acos(NEAREST_X / distance) * 1800) / Math.PI) / 10
  const limit = angle < 0 ? `${-most} deg or more` : `${most} deg or less`
  const remedy = `from ${formatQuantity(distance, "length", "m")} write ${limit}`
  fail(found, problems, { kind: "bad spot", key, rule, current: formatQuantity(angle, "angle", "deg"), remedy })
}
