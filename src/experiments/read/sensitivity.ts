import { isMap } from "yaml"
import { QUANTITIES, type QuantityKey } from "../../models/settings.ts"
import type { Experiment, Ranged, SensitivityAsked } from "../experiment.ts"
import { keysOf, SENSITIVITY_FIELDS } from "../grammar.ts"
import { assumedKeys } from "../run/assumptions.ts"
import { trainableFor } from "../sensitivity/training.ts"
import { notAMapping, partsOf } from "./flatten.ts"
import { measureNames } from "./names.ts"
import { suggestion } from "./nearest.ts"
import type { Problem } from "./problem.ts"
import { readRanges, type WrittenRange } from "./ranges.ts"
import { fail, readWhole } from "./setting.ts"
import { type Found, scalarText, show } from "./source.ts"
import { FEWEST_SHOTS } from "./stopping.ts"

/** Measures whose sensitivity can be asked for: shares that every play has. */
const MEASURES = ["save_rate", "goal_rate", "on_goal_rate", "position_rate", "reach_rate"] as const
/** Shots behind each value unless the file says: as many as there is time for, within these. */
const USUAL_SHOTS = { least: 512, most: 4096, all: 4_800_000 } as const
const MOST_SHOTS = 1_000_000
const FEWEST_SETS = 8
const MOST_SETS = 65_536
/** Unless the file says, sets are as many as keep the values within a third of a minute on two cores. */
const USUAL_SETS = { least: 32, most: 256, values: 1200 } as const

/** What a file asks; quantities that hang on the rest of the file are found when that is read. */
export interface SensitivityRead {
  readonly of: string
  readonly over: "training" | "assumptions" | readonly WrittenRange[]
  readonly sets: number | null
  readonly shots: number | null
}

/** Reads `sensitivity:`; null with problems when it cannot be used. */
export function readSensitivity(found: Found, problems: Problem[]): SensitivityRead | null {
  if (!isMap(found.node)) {
    problems.push(notAMapping(found))
    return null
  }
  const before = problems.length
  const parts = partsOf(found, keysOf(SENSITIVITY_FIELDS), problems)
  const of = readMeasure(parts.get("of"), problems)
  const over = readOver(found, parts.get("over"), problems)
  const setsFound = parts.get("sets")
  const sets = setsFound === undefined ? null : readPowerOfTwo(setsFound, FEWEST_SETS, MOST_SETS, problems)
  const shotsFound = parts.get("shots")
  const shots = shotsFound === undefined ? null : readWhole(shotsFound, FEWEST_SHOTS, MOST_SHOTS, problems)
  if (problems.length > before || over === null || of === null) return null
  return { of, over, sets, shots }
}

/** The question with its quantities: what is trained or assumed is known once the rest of the file is. */
export function settleSensitivity(read: SensitivityRead, experiment: Experiment): SensitivityAsked {
  const over = typeof read.over === "string" ? read.over : "listed"
  const ranges = typeof read.over === "string" ? keysOver(read.over, experiment).map(plausible) : read.over.map(bare)
  const sets = read.sets ?? usualSets(ranges.length)
  return { of: read.of, over, ranges, sets, shots: read.shots ?? usualShots(sets * (ranges.length + 2)) }
}

/** A power of two: numbers that a scrambled Sobol' sequence spreads evenly. */
export function readPowerOfTwo(found: Found, least: number, most: number, problems: Problem[]): number | null {
  const n = readWhole(found, least, most, problems)
  if (n === null || Number.isInteger(Math.log2(n))) return n
  const [below, above] = [2 ** Math.floor(Math.log2(n)), 2 ** Math.ceil(Math.log2(n))]
  const facts = { key: found.key, rule: "a power of two", current: show(found), remedy: `write ${below} or ${above}` }
  return fail(found, problems, { kind: "out of range", ...facts })
}

function readMeasure(found: Found | undefined, problems: Problem[]): string | null {
  if (found === undefined) return MEASURES[0]
  const key = measureNames().get(scalarText(found)?.toLowerCase() ?? "")
  if (key !== undefined && (MEASURES as readonly string[]).includes(key)) return key
  const words = MEASURES.map((name) => name.replaceAll("_", " "))
  const rule = `one of ${words.slice(0, -1).join(", ")} or ${words.at(-1)}`
  const remedy = suggestion(scalarText(found) ?? "", words)
  return fail(found, problems, { kind: "unknown name", key: found.key, rule, current: show(found), remedy })
}

function readOver(at: Found, found: Found | undefined, problems: Problem[]): SensitivityRead["over"] | null {
  const forms = "training, assumptions, a list of quantities or a mapping of quantities to ranges"
  const key = "sensitivity.over"
  if (found === undefined) {
    const facts = { key, rule: `given: ${forms}`, current: "nothing" }
    return fail(at, problems, { kind: "missing key", ...facts })
  }
  const text = scalarText(found)?.toLowerCase() ?? null
  if (text === "training" || text === "assumptions") return text
  if (text === null) return readRanges(found, problems)
  const remedy = suggestion(text, ["training", "assumptions"])
  return fail(found, problems, { kind: "unknown name", key, rule: forms, current: show(found), remedy })
}

function keysOver(over: "training" | "assumptions", experiment: Experiment): QuantityKey[] {
  if (over === "assumptions") return assumedKeys(experiment)
  return trainableFor(experiment.points[experiment.baseline]!.settings).map(({ key }) => key)
}

function plausible(key: QuantityKey): Ranged {
  const { low, high } = QUANTITIES[key]
  return { key, low, high }
}

function bare({ key, low, high }: WrittenRange): Ranged {
  return { key, low, high }
}

function usualShots(values: number): number {
  const { least, most, all } = USUAL_SHOTS
  return Math.min(most, Math.max(least, 2 ** Math.floor(Math.log2(all / values))))
}

function usualSets(quantities: number): number {
  const { least, most, values } = USUAL_SETS
  const wanted = 2 ** Math.floor(Math.log2(values / (quantities + 2)))
  return Math.min(most, Math.max(least, wanted))
}
