import { isMap, isSeq } from "yaml"
import { NEAREST_X } from "../../models/plays/origin-cells.ts"
import { playsQuantities } from "../../models/plays/parameters.ts"
import type { TimedEvent } from "../../models/plays/timed-event.ts"
import { arrivalOf } from "../../models/plays/timed-events.ts"
import { type Settings, withSettings } from "../../models/settings.ts"
import { SHOT_NAMES } from "../../models/shooter/shot-types.ts"
import { MOST_LEGS } from "../../sim/play/course.ts"
import type { Metres, Seconds } from "../../sim/units.ts"
import { EVENT_FIELDS, keysOf } from "../grammar.ts"
import { joinOr } from "../wording.ts"
import { partsOf } from "./flatten.ts"
import { suggestion } from "./nearest.ts"
import { type Player, readPlayers, readSpotOf } from "./players.ts"
import type { Problem } from "./problem.ts"
import { fail, readName, readQuantity } from "./setting.ts"
import { type Found, isNothing, itemsOf, scalarText, show } from "./source.ts"
import { SPOT_RULE, spotIsPlayable } from "./spot.ts"

/** A play that a person wrote down: its events, and where each was written. */
export interface WrittenPlay {
  readonly events: readonly TimedEvent[]
  readonly found: readonly Found[]
}

/** What an event may say it is; exactly one of them. */
const DEEDS = ["puck", "carry", "cut", "pass", "shot"] as const
type Deed = (typeof DEEDS)[number]
/** Which other keys each may have. */
const BESIDE: Readonly<Record<Deed, readonly string[]>> = {
  puck: [],
  carry: ["arrives"],
  cut: ["arrives"],
  pass: ["speed", "flies"],
  shot: [],
}
const TIME = { dimension: "time", least: 0, most: 60 } as const
/** Keys that the events decide. */
const DECIDED = ["play.from", "play.distance", "play.angle"] as const
/** Times nearer than this are one, s. */
const SAME: Seconds = 1e-6

/** Reads `play.events` with `play.players`; null where neither is there, or with problems. */
export function readEvents(leaves: ReadonlyMap<string, Found>, problems: Problem[]): WrittenPlay | null {
  const found = leaves.get("play.events")
  const kind = leaves.get("play.kind")
  const named = kind !== undefined && scalarText(kind)?.toLowerCase() === "timed events"
  if (found === undefined) {
    const players = leaves.get("play.players")
    const idle = named ? kind : players
    if (idle === undefined) return null
    const facts = { key: idle.key, rule: "beside play.events, which says what happens", current: show(idle) }
    return fail(idle, problems, { kind: "missing key", ...facts })
  }
  for (const key of DECIDED) contradict(leaves.get(key), key, problems)
  if (kind !== undefined && !named) contradict(kind, "play.kind", problems)
  const players = readPlayers(leaves.get("play.players"), found, problems)
  const items = itemsOf(found)
  if (!isSeq(found.node) || items.length < 2) {
    const rule = "a list of timed events, from who has the puck to the shot"
    return fail(found, problems, { kind: "wrong type", key: found.key, rule, current: show(found) })
  }
  const before = problems.length
  const events = items.map((item) => readEvent(item, players, problems))
  if (problems.length > before || events.some((event) => event === null)) return null
  const play = { events: events as TimedEvent[], found: items }
  return inOrder(play, found, problems) ? play : null
}

function contradict(found: Found | undefined, key: string, problems: Problem[]): void {
  if (found === undefined) return
  const facts = { key, rule: "left out where play.events says what happens", current: show(found) }
  fail(found, problems, { kind: "contradiction", ...facts, remedy: "keep one of the two" })
}

function readEvent(item: Found, players: ReadonlyMap<string, Player>, problems: Problem[]): TimedEvent | null {
  if (!isMap(item.node)) {
    const rule = "a mapping such as { at: 1.2 s, pass: left wing }"
    return fail(item, problems, { kind: "wrong type", key: item.key, rule, current: show(item) })
  }
  const parts = partsOf(item, keysOf(EVENT_FIELDS), problems)
  const deeds = DEEDS.filter((deed) => parts.has(deed))
  const at = parts.get("at")
  const time = at === undefined ? null : (readQuantity(at, TIME, problems)?.value ?? null)
  if (at === undefined)
    fail(item, problems, {
      kind: "missing key",
      key: `${item.key}.at`,
      rule: "given",
      current: "an event without a time",
    })
  if (deeds.length !== 1) {
    const current = deeds.length === 0 ? "none of them" : deeds.join(" and ")
    const rule = `an event with one of ${joinOr([...DEEDS])}`
    return fail(item, problems, { kind: "contradiction", key: item.key, rule, current })
  }
  const [deed] = deeds as [Deed]
  for (const [key, part] of parts)
    if (key !== "at" && key !== deed && !BESIDE[deed].includes(key)) {
      const facts = { key: part.key, rule: `left out of a ${deed}`, current: show(part) }
      fail(part, problems, { kind: "contradiction", ...facts })
    }
  return readDeed(deed, time, item, parts, players, problems)
}

function readDeed(
  deed: Deed,
  at: Seconds | null,
  item: Found,
  parts: ReadonlyMap<string, Found>,
  players: ReadonlyMap<string, Player>,
  problems: Problem[],
): TimedEvent | null {
  const what = parts.get(deed)!
  switch (deed) {
    case "puck": {
      const player = readPlayer(what, players, problems)
      return player === null || at === null ? null : { does: "puck", at, x: player.x, y: player.y }
    }
    case "pass": {
      const player = readPlayer(what, players, problems)
      const speed = optional(parts.get("speed"), playsQuantities["play.pass_speed"], problems)
      const flies = optional(parts.get("flies"), playsQuantities["play.pass_carry"], problems)
      if (player === null || at === null || speed === undefined || flies === undefined) return null
      return { does: "pass", at, x: player.x, y: player.y, speed, flies: flies ?? 0 }
    }
    case "shot": {
      const type = isNothing(what) ? null : readName(what, SHOT_NAMES, problems)
      return at === null || (type === null && !isNothing(what)) ? null : { does: "shot", at, type }
    }
    default: {
      const spot = readSpotOf(what, problems)
      const arrives = parts.get("arrives")
      if (arrives === undefined) {
        const facts = { key: `${item.key}.arrives`, rule: "given", current: `a ${deed} without the time it gets there` }
        return fail(item, problems, { kind: "missing key", ...facts })
      }
      const when = readQuantity(arrives, TIME, problems)?.value
      return spot === null || when === undefined || at === null ? null : { does: deed, at, arrives: when, ...spot }
    }
  }
}

/** Undefined with a problem for a value that is wrong, null for none. */
function optional(
  found: Found | undefined,
  quantity: Parameters<typeof readQuantity>[1],
  problems: Problem[],
): number | null | undefined {
  return found === undefined ? null : readQuantity(found, quantity, problems)?.value
}

function readPlayer(found: Found, players: ReadonlyMap<string, Player>, problems: Problem[]): Player | null {
  const name = scalarText(found) ?? ""
  const player = players.get(name)
  if (player !== undefined) return player
  const names = [...players.keys()]
  // where the players themselves are wrong, that is the one problem
  if (names.length === 0) return null
  const facts = { key: found.key, rule: `one of play.players: ${joinOr(names)}`, current: show(found) }
  return fail(found, problems, { kind: "unknown name", ...facts, remedy: suggestion(name, names) })
}

/** Events that begin with the puck, end with the one shot, follow one another in time, and are few enough. */
function inOrder({ events, found }: WrittenPlay, list: Found, problems: Problem[]): boolean {
  const before = problems.length
  for (const [i, event] of events.entries()) {
    const key = list.key
    const at = found[i]!
    const due = i === 0 ? "puck" : i === events.length - 1 ? "shot" : null
    if ((event.does === "puck") !== (i === 0) || (event.does === "shot") !== (i === events.length - 1)) {
      const rule = "a list that begins with puck, ends with shot and has neither in between"
      fail(at, problems, {
        kind: "contradiction",
        key,
        rule,
        current: `${event.does} where ${due ?? "a carry, a cut or a pass"} is due`,
      })
    }
    const last = events[i - 1]
    if (last !== undefined && event.at < last.at - SAME) {
      const current = `${seconds(event.at)} after ${seconds(last.at)}`
      fail(at, problems, { kind: "contradiction", key: `${key}.at`, rule: "in order of time", current })
    }
    if ((event.does === "carry" || event.does === "cut") && !(event.arrives > event.at + SAME)) {
      const current = `${seconds(event.arrives)} for a ${event.does} that starts at ${seconds(event.at)}`
      fail(at, problems, { kind: "contradiction", key: `${key}.arrives`, rule: "later than at", current })
    }
  }
  if (events.length - 2 > MOST_LEGS) {
    const rule = `at most ${MOST_LEGS} carries, cuts and passes`
    fail(list, problems, { kind: "out of range", key: list.key, rule, current: `${events.length - 2} of them` })
  }
  const shot = events.at(-2)
  if (problems.length === before && shot !== undefined && shot.does !== "shot" && !inFront(shot)) {
    const rule = `an event that brings the puck ${SPOT_RULE}, as the shot is next`
    const current = `(${metres(shot.x)}, ${metres(shot.y)})`
    fail(found.at(-2)!, problems, { kind: "bad spot", key: list.key, rule, current })
  }
  return problems.length === before
}

/** Whether a shot can be taken from here: nearer than this to the goal line it sees no mouth. */
function inFront({ x, y }: { readonly x: Metres; readonly y: Metres }): boolean {
  return x >= NEAREST_X && spotIsPlayable(x, y)
}

/** Reports, for one resolved scene, each event that would happen before the puck is there. */
export function reportTooEarly({ events, found }: WrittenPlay, settings: Settings, problems: Problem[]): void {
  let from: { x: Metres; y: Metres } | null = null
  let there = Number.NEGATIVE_INFINITY
  for (const [i, event] of events.entries()) {
    if (event.at < there - SAME) {
      const current =
        there === Number.POSITIVE_INFINITY
          ? "a pass that stops on its way"
          : `${seconds(event.at)}, the puck arrives at ${seconds(there)}`
      const facts = { key: "play.events.at", rule: "no earlier than the puck arrives", current }
      fail(found[i]!, problems, { kind: "contradiction", ...facts, remedy: `a ${event.does} needs the puck` })
      return
    }
    if (event.does === "shot") return
    if (event.does !== "puck" && from !== null) there = arrivalOf(event, from, settings)
    from = event
  }
}

/** Settings with the events, and with the place of their shot wherever one place stands for the play. */
export function withEvents(settings: Settings, { events }: WrittenPlay): Settings {
  const shot = events.findLast((event) => event.does !== "shot") as Exclude<TimedEvent, { does: "shot" }>
  const quantities = { "play.distance": Math.hypot(shot.x, shot.y), "play.angle": Math.atan2(shot.y, shot.x) }
  return withSettings(settings, { quantities, choices: { "play.kind": "timed events" }, origins: [], events })
}

function metres(length: Metres): string {
  return `${Number(length.toFixed(2))} m`
}

function seconds(time: Seconds): string {
  return `${Number(time.toFixed(3))} s`
}
