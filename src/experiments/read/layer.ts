import type { Origin } from "../../models/plays/origin.ts"
import type { ChoiceKey, QuantityKey, Settings } from "../../models/settings.ts"
import { withSettings } from "../../models/settings.ts"
import { keysOf, SETTING_FIELDS, SETTING_KEYS } from "../grammar.ts"
import { readEvents, type WrittenPlay, withEvents } from "./events.ts"
import { type GoalieSlot, readGoalie } from "./goalie.ts"
import { readOrigins } from "./origins.ts"
import type { Problem } from "./problem.ts"
import { fail, readSetting, readText, type Setting } from "./setting.ts"
import { type Found, show } from "./source.ts"

/** Keys of the place a single spot is given by; a list of places stands in for both. */
export const SPOT_KEYS: readonly string[] = ["play.distance", "play.angle"]

/** Every key that may set something about the scene: in the file, in a compared case, or by a flag. */
export const LAYER_KEYS: readonly string[] = [...SETTING_KEYS, ...keysOf(SETTING_FIELDS)]

/** What one place of writing says about the scene; later layers win over earlier ones. */
export interface Layer {
  readonly goalie: GoalieSlot | null
  readonly goalieName: string | null
  readonly settings: readonly Setting[]
  /** Null: this layer does not speak of places. */
  readonly origins: readonly Origin[] | null
  /** Null: this layer does not speak of timed events. */
  readonly events: WrittenPlay | null
}

export const EMPTY_LAYER: Layer = { goalie: null, goalieName: null, settings: [], origins: null, events: null }

/** Reads the settings among flattened keys; anything else among them is left alone. */
export function readLayer(leaves: ReadonlyMap<string, Found>, problems: Problem[]): Layer {
  const word = leaves.get("goalie")
  const file = leaves.get("goalie.file")
  if (word !== undefined && file !== undefined) {
    const facts = { key: "goalie", rule: "given once", current: `${show(word)} as well as file: ${show(file)}` }
    fail(word, problems, { kind: "contradiction", ...facts, remedy: "keep one of the two" })
  }
  const goalieFound = word ?? file
  const nameFound = leaves.get("goalie.name")
  const about = leaves.get("goalie.about")
  if (about !== undefined) readText(about, problems)
  const settings: Setting[] = []
  for (const key of SETTING_KEYS) {
    const leaf = leaves.get(key)
    const setting = leaf === undefined ? null : readSetting(leaf, problems)
    if (setting !== null) settings.push(setting)
  }
  return {
    goalie: goalieFound === undefined ? null : readGoalie(goalieFound, problems),
    goalieName: nameFound === undefined ? null : readText(nameFound, problems),
    settings,
    origins: readPlaces(leaves, problems),
    events: readEvents(leaves, problems),
  }
}

/**
 * Settings of a scene: the defaults, then the goalie of the last layer that names one, then each layer's own settings
 * in order. So a compared case may change the goalie and keep what the file sets for every goalie.
 */
export function resolveLayers(defaults: Settings, layers: readonly Layer[]): Settings {
  const goalie = layers.findLast((layer) => layer.goalie !== null)?.goalie ?? null
  let settings = goalie === null ? defaults : apply(defaults, goalie.settings)
  if (goalie !== null)
    settings = withSettings(settings, { choices: { "play.goalie": goalie.present ? "present" : "none" } })
  for (const layer of layers) {
    settings = apply(settings, layer.settings)
    const isSpot = layer.settings.some((setting) => SPOT_KEYS.includes(setting.key))
    if (layer.origins !== null || isSpot) settings = withSettings(settings, { origins: layer.origins ?? [] })
    if (layer.events !== null) settings = withEvents(settings, layer.events)
  }
  return settings
}

/** What the report calls the goalie of these layers. */
export function goalieNameOf(layers: readonly Layer[]): string {
  const named = layers.findLast((layer) => layer.goalieName !== null || layer.goalie !== null)
  return named?.goalieName ?? named?.goalie?.name ?? "the default goalie"
}

/** Keys that these layers set, a goalie file's included. */
export function keysSet(layers: readonly Layer[]): string[] {
  const keys = new Set<string>()
  for (const layer of layers) {
    for (const setting of [...(layer.goalie?.settings ?? []), ...layer.settings]) keys.add(setting.key)
    if (layer.goalie !== null) keys.add("play.goalie")
    if (layer.origins !== null) keys.add("play.from")
    if (layer.events !== null) keys.add("play.events")
  }
  return [...keys]
}

/** A copy of settings with some of them replaced. */
export function apply(settings: Settings, changes: readonly Setting[]): Settings {
  const quantities: Partial<Record<QuantityKey, number>> = {}
  const choices: Partial<Record<ChoiceKey, string>> = {}
  for (const change of changes) {
    if (change.kind === "quantity") quantities[change.key] = change.measured.value
    else choices[change.key] = change.value
  }
  return withSettings(settings, { quantities, choices })
}

function readPlaces(leaves: ReadonlyMap<string, Found>, problems: Problem[]): Origin[] | null {
  const from = leaves.get("play.from")
  if (from === undefined) return null
  for (const key of SPOT_KEYS) {
    const spot = leaves.get(key)
    if (spot === undefined) continue
    const facts = { key, rule: "left out where play.from lists the places", current: show(spot) }
    fail(spot, problems, { kind: "contradiction", ...facts, remedy: "keep one of the two" })
  }
  return readOrigins(from, problems)
}
