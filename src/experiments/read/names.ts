import { isSeq } from "yaml"
import { SAMPLERS, type Sampler, USUAL_SAMPLER } from "../../sim/sampler.ts"
import { CHART_KINDS, type ChartKind } from "../experiment.ts"
import { MEASURES } from "../measures.ts"
import { suggestion } from "./nearest.ts"
import type { Problem } from "./problem.ts"
import { fail, readName } from "./setting.ts"
import { type Found, isNothing, itemsOf, scalarText, show } from "./source.ts"

/** What is reported when a file does not say. */
export const USUAL_MEASURES: readonly string[] = [
  "save_rate",
  "goal_rate",
  "on_goal_rate",
  "net_covered",
  "box_area_m2",
]
export const USUAL_CHARTS: readonly ChartKind[] = ["curve", "puck's eye"]

/** Every name a measure goes by in a file: its key, the key in words with or without its unit, its title. */
export function measureNames(): Map<string, string> {
  const names = new Map<string, string>()
  for (const measure of MEASURES) {
    const words = measure.key.replaceAll("_", " ")
    const short = measure.unit === "share" ? words : words.replace(/ (m2|m|s|sr)$/, "")
    for (const name of [measure.title.toLowerCase(), words, measure.key, short]) {
      if (!names.has(name)) names.set(name, measure.key)
    }
  }
  return names
}

/** Reads `measures:`; names become keys of results. */
export function readMeasures(found: Found | undefined, problems: Problem[]): readonly string[] {
  if (found === undefined || isNothing(found)) return USUAL_MEASURES
  const names = measureNames()
  const read = listOf(found, problems).map((item) => {
    const text = scalarText(item)?.toLowerCase() ?? ""
    const key = names.get(text)
    if (key !== undefined) return key
    const shortNames = [...names.keys()].filter((name) => !name.includes("_"))
    const remedy = suggestion(text, shortNames) ?? "such as save rate, goal rate, net covered, box area"
    const facts = { key: found.key, rule: "made of known measures", current: show(item), remedy }
    fail(item, problems, { kind: "unknown name", ...facts })
    return null
  })
  return unique(read)
}

/** Reads `charts:`. An empty list draws none. */
export function readCharts(found: Found | undefined, problems: Problem[]): readonly ChartKind[] {
  if (found === undefined || isNothing(found)) return USUAL_CHARTS
  if (isSeq(found.node) && found.node.items.length === 0) return []
  return unique(listOf(found, problems).map((item) => readName(item, CHART_KINDS, problems)))
}

/** Reads `sampling:`. */
export function readSampling(found: Found | undefined, problems: Problem[]): Sampler {
  if (found === undefined || isNothing(found)) return USUAL_SAMPLER
  return readName(found, SAMPLERS, problems) ?? USUAL_SAMPLER
}

function listOf(found: Found, problems: Problem[]): Found[] {
  const items = isSeq(found.node) ? itemsOf(found) : scalarText(found) === null ? [] : [found]
  if (items.length > 0) return items
  fail(found, problems, { kind: "wrong type", key: found.key, rule: "a list of names", current: show(found) })
  return []
}

function unique<Name extends string>(names: readonly (Name | null)[]): Name[] {
  return [...new Set(names.filter((name) => name !== null))]
}
