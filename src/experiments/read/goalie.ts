import { basename, join, resolve } from "node:path"
import { isMap } from "yaml"
import { GOALIE_FILE_FIELDS, keysOf, SETTING_KEYS } from "../grammar.ts"
import { pathFrom, readTextFile } from "./file.ts"
import { flatten, notAMapping } from "./flatten.ts"
import type { Problem } from "./problem.ts"
import { fail, readSetting, readText, type Setting } from "./setting.ts"
import { type Found, parseSource, placeOf } from "./source.ts"

/** Who stands in the net: what a goalie file says, or nobody. */
export interface GoalieSlot {
  readonly name: string
  readonly present: boolean
  readonly settings: readonly Setting[]
}

/** The word that leaves the net empty. */
export const NO_GOALIE = "none"

const GOALIE_KEYS = SETTING_KEYS.filter((key) => key.startsWith("goalie."))
/** How the goalie moves belongs to the goalie: `movement:` in the file, `goalie.movement.` where it stands. */
const MOVEMENT_KEYS = SETTING_KEYS.filter((key) => key.startsWith("movement."))
const KNOWN = [
  ...GOALIE_KEYS,
  ...MOVEMENT_KEYS.map((key) => `goalie.${key}`),
  ...keysOf(GOALIE_FILE_FIELDS).map((key) => `goalie.${key}`),
]

/** Reads `goalie: none`, or the goalie file that a value names, starting from the folder of the file that names it. */
export function readGoalie(found: Found, problems: Problem[]): GoalieSlot | null {
  const text = readText(found, problems)
  if (text === null) return null
  if (text === NO_GOALIE) return { name: "no goalie", present: false, settings: [] }
  return readGoalieFile(found, text, [], problems)
}

function readGoalieFile(found: Found, name: string, open: readonly string[], problems: Problem[]): GoalieSlot | null {
  const path = pathFrom(found.source.folder, name)
  if (open.includes(resolve(path))) {
    const facts = { key: found.key, rule: "a goalie file that does not lead back to itself", current: path }
    return fail(found, problems, { kind: "circular", ...facts, remedy: "remove file: from one of them" })
  }
  const text = readTextFile(path, { place: placeOf(found), key: found.key }, problems)
  if (text === null) return null
  const source = parseSource(path, join(path, ".."), text, problems)
  if (source === null) return null
  const root: Found = { source, key: "goalie", node: source.document?.contents ?? null, offset: 0 }
  if (!isMap(root.node)) {
    problems.push(notAMapping({ ...root, key: "the goalie file" }))
    return null
  }
  return readGoalieKeys(root, path, [...open, resolve(path)], problems)
}

function readGoalieKeys(root: Found, path: string, open: readonly string[], problems: Problem[]): GoalieSlot {
  const leaves = flatten(root, KNOWN, problems)
  const parent = leaves.get("goalie.file")
  const parentName = parent === undefined ? null : readText(parent, problems)
  const base = parent === undefined || parentName === null ? null : readGoalieFile(parent, parentName, open, problems)
  const nameFound = leaves.get("goalie.name")
  const name = nameFound === undefined ? null : readText(nameFound, problems)
  const about = leaves.get("goalie.about")
  if (about !== undefined) readText(about, problems)
  const settings = [...(base?.settings ?? [])]
  for (const key of GOALIE_KEYS) {
    const leaf = leaves.get(key)
    const setting = leaf === undefined ? null : readSetting(leaf, problems)
    if (setting !== null) settings.push(setting)
  }
  for (const key of MOVEMENT_KEYS) {
    const leaf = leaves.get(`goalie.${key}`)
    const setting = leaf === undefined ? null : readSetting({ ...leaf, key }, problems)
    if (setting !== null) settings.push(setting)
  }
  return { name: name ?? basename(path).replace(/\.ya?ml$/, ""), present: true, settings }
}
