import { measuredKeys } from "../../models/reference/measured.ts"
import { THIS_RINK } from "../../models/reference/parameters.ts"
import { chosenRink, measuredRink, type RinkMeasures } from "../../models/rink/chosen-rink.ts"
import { RINK_NAMES, RINK_PRESETS, type RinkName } from "../../models/rink/presets.ts"
import { QUANTITIES, type Settings } from "../../models/settings.ts"
import type { Problem } from "../read/problem.ts"
import { fail, readName, readQuantity, type Setting } from "../read/setting.ts"
import { type Found, show } from "../read/source.ts"
import { joinOr } from "../wording.ts"
import type { NamedRink } from "./request.ts"
import { HOME_MEASURES } from "./survey-fields.ts"

type Leaves = ReadonlyMap<string, Found>

/** The sheet here as a setting: `rink: international`, or `rink: { preset: international, … }`. */
export function readSheet(root: Found, leaves: Leaves, problems: Problem[]): Setting[] {
  const found = onlyOne(leaves, "rink", "rink.preset", problems)
  if (found === null) return missing(root, "rink", RINK_NAMES, problems)
  const name = readName(found, RINK_NAMES, problems)
  return name === null ? [] : [{ kind: "choice", key: "rink.preset", value: name, found }]
}

/** The sheet of the settings, and the home sheet or the word for playing at home. */
export function readHome(
  root: Found,
  leaves: Leaves,
  settings: Settings,
  problems: Problem[],
): { readonly here: NamedRink; readonly home: NamedRink | typeof THIS_RINK } {
  const sheet = settings.choices["rink.preset"]
  const here: NamedRink = { sheet, rink: chosenRink(settings), measured: measuredKeys(settings) }
  const names = [THIS_RINK, ...RINK_NAMES]
  const found = onlyOne(leaves, "home", "home.preset", problems)
  const measures = readMeasures(leaves, problems)
  if (found === null) missing(root, "home", names, problems)
  const name = found === null ? null : readName(found, names, problems)
  if (name === null) return { here, home: THIS_RINK }
  if (name === THIS_RINK) {
    reportIdleMeasures(leaves, problems)
    return { here, home: THIS_RINK }
  }
  const rink = measuredRink(RINK_PRESETS[name as RinkName], measures)
  return { here, home: { sheet: name, rink, measured: new Set(Object.keys(measures) as (keyof RinkMeasures)[]) } }
}

function readMeasures(leaves: Leaves, problems: Problem[]): Partial<RinkMeasures> {
  const measures: { -readonly [Name in keyof RinkMeasures]?: number } = {}
  for (const { key, measure, setting } of HOME_MEASURES) {
    const leaf = leaves.get(key)
    const measured = leaf === undefined ? null : readQuantity(leaf, QUANTITIES[setting], problems)
    if (measured !== null) measures[measure] = measured.value
  }
  return measures
}

/** At home the marks are those of this rink, measured as such. */
function reportIdleMeasures(leaves: Leaves, problems: Problem[]): void {
  for (const { key, setting } of HOME_MEASURES) {
    const leaf = leaves.get(key)
    if (leaf === undefined) continue
    const facts = { key, rule: `left out where home is ${THIS_RINK}`, current: show(leaf), remedy: `write ${setting}` }
    fail(leaf, problems, { kind: "contradiction", ...facts })
  }
}

/** A key that has a short form and a long one; null where neither is written. */
function onlyOne(leaves: Leaves, short: string, long: string, problems: Problem[]): Found | null {
  const [first, second] = [leaves.get(short), leaves.get(long)]
  if (first !== undefined && second !== undefined) {
    const facts = { key: long, rule: "given once", current: `${show(second)} as well as ${short}: ${show(first)}` }
    fail(second, problems, { kind: "contradiction", ...facts, remedy: "keep one of the two" })
  }
  return first ?? second ?? null
}

function missing(root: Found, key: string, names: readonly string[], problems: Problem[]): [] {
  const rule = `given as one of ${joinOr(names)}`
  fail(root, problems, { kind: "missing key", key, rule, current: "nothing" })
  return []
}
