import type { Origin } from "../../models/plays/origin.ts"
import type { Rink } from "../../models/rink/rink.ts"
import type { Metres } from "../../sim/units.ts"
import { readOrigins } from "../read/origins.ts"
import type { Problem } from "../read/problem.ts"
import { fail } from "../read/setting.ts"
import { type Found, itemsOf } from "../read/source.ts"
import { trimNumber } from "../wording.ts"
import type { ShootingSpot } from "./request.ts"
import { usualSpots } from "./usual-spots.ts"

/** More spots than this are no survey that a person reads. */
const MOST_SPOTS = 40

/** Reads `spots:`; the usual ones where a file names none. Each must be farther out than the goalie is deep. */
export function readSpots(
  found: Found | undefined,
  rink: Rink,
  depthAt: (x: Metres, y: Metres) => Metres,
  problems: Problem[],
): readonly ShootingSpot[] {
  const origins = found === undefined ? usualSpots(rink).map(asOrigin) : readOrigins(found, problems)
  if (origins === null) return []
  if (origins.length > MOST_SPOTS) {
    const facts = { key: "spots", rule: `at most ${MOST_SPOTS} spots`, current: `${origins.length} of them` }
    fail(found!, problems, { kind: "too many points", ...facts })
    return []
  }
  const items = found === undefined ? [] : itemsOf(found)
  return origins.flatMap((origin, i) => {
    const place = items[i] ?? found
    if (origin.kind !== "spot") {
      const facts = { key: "spots", rule: "made of single spots", current: `a ${origin.kind}` }
      fail(place!, problems, { kind: "bad spot", ...facts, remedy: "write distance and angle, or x and y" })
      return []
    }
    const distance = Math.hypot(origin.x, origin.y)
    const depth = depthAt(origin.x, origin.y)
    if (distance > depth || place === undefined) return [{ label: origin.label, x: origin.x, y: origin.y }]
    const rule = `farther from the net than the goalie, who is ${trimNumber(depth, 3)} m out`
    const facts = { key: "spots", rule, current: `${trimNumber(distance, 3)} m (${origin.label})` }
    fail(place, problems, { kind: "bad spot", ...facts })
    return []
  })
}

function asOrigin(spot: ShootingSpot): Origin {
  return { kind: "spot", weight: 1, ...spot }
}
