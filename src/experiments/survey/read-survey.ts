import { basename, dirname } from "node:path"
import { isMap } from "yaml"
import { THIS_RINK } from "../../models/reference/parameters.ts"
import { defaultSettings, type Settings } from "../../models/settings.ts"
import { SETTING_KEYS } from "../grammar.ts"
import { formatQuantity } from "../quantity.ts"
import { readTextFile } from "../read/file.ts"
import { flatten, notAMapping } from "../read/flatten.ts"
import { apply } from "../read/layer.ts"
import type { Problem } from "../read/problem.ts"
import { fail, readSetting, readText, type Setting } from "../read/setting.ts"
import { type Found, parseSource, show } from "../read/source.ts"
import { readHome, readSheet } from "./read-sheets.ts"
import { readSpots } from "./read-spots.ts"
import type { SurveyRequest } from "./request.ts"
import { depthAt } from "./survey.ts"
import { SURVEY_KEYS } from "./survey-fields.ts"

/** A survey ready to be worked out, or everything that is wrong with its file. */
export type SurveyRead = { readonly request: SurveyRequest } | { readonly problems: readonly Problem[] }

/** Reads a rink file. Never throws for what a person wrote: every problem comes back at once. */
export function readSurvey(path: string): SurveyRead {
  const problems: Problem[] = []
  const place = { file: path, line: null, column: null }
  const text = readTextFile(path, { place, key: "the file", missing: "experiments/rinks has two to copy" }, problems)
  return text === null ? { problems } : readSurveyText(path, text)
}

/** Reads a rink file from text already at hand; `path` names it in messages. */
export function readSurveyText(path: string, text: string): SurveyRead {
  const problems: Problem[] = []
  const source = parseSource(path, dirname(path), text, problems)
  if (source === null) return { problems }
  const root: Found = { source, key: "", node: source.document?.contents ?? null, offset: 0 }
  if (!isMap(root.node)) return { problems: [notAMapping({ ...root, key: "the file" })] }
  const leaves = flatten(root, SURVEY_KEYS, problems)
  const request = readLeaves(path, root, leaves, problems)
  return problems.length > 0 ? { problems: inFileOrder(problems) } : { request }
}

function readLeaves(path: string, root: Found, leaves: ReadonlyMap<string, Found>, problems: Problem[]): SurveyRequest {
  const word = (key: string): string | null => {
    const found = leaves.get(key)
    return found === undefined ? null : readText(found, problems)
  }
  const name = word("name") ?? basename(path).replace(/\.ya?ml$/i, "")
  const about = word("about") ?? ""
  const sheet = readSheet(root, leaves, problems)
  const written = [...readSettings(leaves, problems), ...sheet]
  const settings = apply(defaultSettings(), written)
  reportTwoDepths(leaves, problems)
  reportLimits(settings.quantities, leaves, problems)
  const { here, home } = readHome(root, leaves, settings, problems)
  const spots = readSpots(leaves.get("spots"), here.rink, (x, y) => depthAt(settings, x, y), problems)
  const setByFile = written.map(({ key }) => key)
  return { name, about, settings, here, home: home === THIS_RINK ? null : home, spots, setByFile }
}

/** The settings among the keys, the name of the sheet apart. */
function readSettings(leaves: ReadonlyMap<string, Found>, problems: Problem[]): Setting[] {
  return SETTING_KEYS.filter((key) => key !== "rink.preset").flatMap((key) => {
    const leaf = leaves.get(key)
    const setting = leaf === undefined ? null : readSetting(leaf, problems)
    return setting === null ? [] : [setting]
  })
}

/** A depth in metres leaves no say to the depth's level. */
function reportTwoDepths(leaves: ReadonlyMap<string, Found>, problems: Problem[]): void {
  const level = leaves.get("goalie.depth_level")
  if (level === undefined || !leaves.has("goalie.depth")) return
  const facts = { key: level.key, rule: "left out where goalie.depth says how far out", current: show(level) }
  fail(level, problems, { kind: "contradiction", ...facts, remedy: "keep one of the two" })
}

/** Trust ends before distrust begins; the limit that the file wrote is the one to change. */
function reportLimits(q: Settings["quantities"], leaves: ReadonlyMap<string, Found>, problems: Problem[]): void {
  const [within, beyond] = ["reference.trust_within", "reference.distrust_beyond"] as const
  if (q[within] <= q[beyond]) return
  const found = leaves.get(within) ?? leaves.get(beyond)!
  const limit = (key: typeof within | typeof beyond) => `${key}, ${formatQuantity(q[key], "length", "cm")}`
  const rule = found.key === within ? `no more than ${limit(beyond)}` : `at least ${limit(within)}`
  fail(found, problems, { kind: "contradiction", key: found.key, rule, current: show(found) })
}

/** Problems of the file from top to bottom, then those of files it names. */
function inFileOrder(problems: readonly Problem[]): Problem[] {
  const files = [...new Set(problems.map(({ file }) => file))]
  return problems.toSorted(
    (a, b) =>
      files.indexOf(a.file) - files.indexOf(b.file) ||
      (a.line ?? 0) - (b.line ?? 0) ||
      (a.column ?? 0) - (b.column ?? 0),
  )
}
