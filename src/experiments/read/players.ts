import { isMap } from "yaml"
import type { Metres } from "../../sim/units.ts"
import { keysOf, SPOT_FIELDS } from "../grammar.ts"
import { partsOf } from "./flatten.ts"
import type { Problem } from "./problem.ts"
import { fail, readQuantity } from "./setting.ts"
import { type Found, isNothing, pairsOf, show } from "./source.ts"
import { DISTANCE } from "./spot.ts"

/** Someone who takes part in a play of timed events, and where. */
export interface Player {
  readonly x: Metres
  readonly y: Metres
}

/** Players may stand behind the goal line too. */
const FROM_GOAL = { dimension: "length", least: 0.3, most: DISTANCE.most } as const
const ROUND = { dimension: "angle", least: -Math.PI, most: Math.PI } as const
const ALONG = { dimension: "length", least: -4, most: DISTANCE.most } as const
const ACROSS = { dimension: "length", least: -30, most: 30 } as const

/** Reads `play.players`: a mapping of names to places; empty with a problem when there are none. */
export function readPlayers(found: Found | undefined, events: Found, problems: Problem[]): Map<string, Player> {
  const players = new Map<string, Player>()
  if (found === undefined || isNothing(found) || !isMap(found.node)) {
    const at = found ?? events
    const rule = "a mapping of names to places such as { left wing: { distance: 9 m, angle: 40 deg } }"
    fail(at, problems, {
      kind: "missing key",
      key: "play.players",
      rule,
      current: found === undefined ? "nothing" : show(found),
    })
    return players
  }
  for (const pair of pairsOf(found)) {
    const name = pair.key.slice(found.key.length + 1)
    const spot = readSpotOf(pair, problems)
    if (players.has(name)) {
      fail(pair, problems, { kind: "duplicate key", key: pair.key, rule: "written once", current: `${name} again` })
    } else if (spot !== null) players.set(name, spot)
  }
  return players
}

/** A place given by distance and angle, or by x and y. */
export function readSpotOf(found: Found, problems: Problem[]): Player | null {
  const rule = "a place such as { distance: 9 m, angle: 40 deg } or { x: 4 m, y: -3 m }"
  if (!isMap(found.node))
    return fail(found, problems, { kind: "wrong type", key: found.key, rule, current: show(found) })
  const parts = partsOf(found, keysOf(SPOT_FIELDS), problems)
  const given = [...parts.keys()].sort().join(" ")
  if (given === "angle distance") {
    const distance = readQuantity(parts.get("distance")!, FROM_GOAL, problems)
    const angle = readQuantity(parts.get("angle")!, ROUND, problems)
    if (distance === null || angle === null) return null
    return { x: distance.value * Math.cos(angle.value), y: distance.value * Math.sin(angle.value) }
  }
  if (given === "x y") {
    const x = readQuantity(parts.get("x")!, ALONG, problems)
    const y = readQuantity(parts.get("y")!, ACROSS, problems)
    return x === null || y === null ? null : { x: x.value, y: y.value }
  }
  const current = given === "" ? "none of them" : given.split(" ").join(" and ")
  return fail(found, problems, { kind: "bad spot", key: found.key, rule, current })
}
