import { isMap } from "yaml"
import type { Settings } from "../../models/settings.ts"
import type { DesignPoint, Swept } from "../experiment.ts"
import { SETTING_KEYS } from "../grammar.ts"
import { joinOr } from "../wording.ts"
import { flatten, notAMapping } from "./flatten.ts"
import type { Problem } from "./problem.ts"
import { fail, readSetting } from "./setting.ts"
import { type Found, isNothing, scalarText, show } from "./source.ts"
import { sweptText } from "./sweep.ts"

/** What a baseline fixes: the case, and a value for some of the swept keys. The rest is matched point by point. */
interface Fixed {
  readonly case: string | null
  /** By position among the swept keys; null is free. */
  readonly values: readonly (number | string | null)[]
}

export interface Baseline {
  readonly baseline: number
  readonly baselineOf: readonly number[]
}

/** The scene as a whole, for finding a baseline among its points. */
export interface Design {
  readonly points: readonly DesignPoint[]
  readonly sweep: readonly Swept[]
  readonly cases: readonly string[]
  /** Keys of the sweep that a flag holds still. */
  readonly held: readonly string[]
  /** Settings without the sweep: where the goalie stands today. */
  readonly shared: Settings
}

/**
 * The point others are compared with. A file names it by case and values of swept keys; what it leaves out is matched,
 * so that depths shot at from 5 m and from 12 m are each compared with today's depth at their own distance. Without a
 * `baseline:` it is the first case, with each of the goalie's swept keys at the value nearest to what holds unswept.
 */
export function readBaseline(found: Found | undefined, design: Design, problems: Problem[]): Baseline | null {
  const fixed = found === undefined || isNothing(found) ? usual(design) : readFixed(found, design, problems)
  return fixed === null ? null : match(fixed, design)
}

function usual({ sweep, cases, shared }: Design): Fixed {
  const values = sweep.map((swept) => (isGoalies(swept.key) ? nearestValue(swept, shared) : null))
  return { case: cases[0] ?? null, values }
}

/** Where a goalie stands and how is the goalie's to choose; play, shooter, puck and rink are not. */
function isGoalies(key: string): boolean {
  return key.startsWith("goalie.") || key.startsWith("positioning.")
}

function nearestValue(swept: Swept, shared: Settings): number | string {
  if (swept.kind === "choice") {
    const today = shared.choices[swept.key]
    return swept.values.includes(today) ? today : swept.values[0]!
  }
  const today = shared.quantities[swept.key]
  if (Number.isNaN(today)) return swept.values[0]!
  return swept.values.reduce((best, value) => (Math.abs(value - today) < Math.abs(best - today) ? value : best))
}

function readFixed(found: Found, design: Design, problems: Problem[]): Fixed | null {
  if (!isMap(found.node)) {
    problems.push(notAMapping(found))
    return null
  }
  const leaves = flatten({ ...found, key: "" }, ["case", ...SETTING_KEYS], problems)
  for (const [key, leaf] of leaves) if (key !== "case") reportUnswept(leaf, design, problems)
  const before = problems.length
  const values = design.sweep.map((swept) => {
    const leaf = leaves.get(swept.key)
    return leaf === undefined ? null : readValue(leaf, swept, problems)
  })
  const caseFound = leaves.get("case")
  const name = caseFound === undefined ? null : scalarText(caseFound)
  if (caseFound !== undefined && !design.cases.includes(name ?? "")) {
    const known = design.cases.filter((other) => other !== "")
    const rule = known.length === 0 ? "left out where nothing is compared" : `one of ${joinOr(known)}`
    fail(caseFound, problems, { kind: "baseline not a point", key: "baseline.case", rule, current: show(caseFound) })
  }
  if (problems.length > before) return null
  const fixed = { case: name, values }
  return reachable(found, fixed, design, problems) ? fixed : null
}

/** A key that is not swept cannot tell points apart; one a flag holds, or whose sweep has a problem, is passed over. */
function reportUnswept(found: Found, design: Design, problems: Problem[]): void {
  const { key } = found
  if (design.held.includes(key) || design.sweep.some((swept) => swept.key === key)) return
  if (problems.some((problem) => problem.key === key || problem.key.startsWith(`${key}.`))) return
  const swept = design.sweep.map((item) => item.key)
  const rule = swept.length === 0 ? "left out where nothing is swept" : `a swept key: ${joinOr(swept)}`
  fail(found, problems, { kind: "baseline not a point", key: `baseline.${key}`, rule, current: show(found) })
}

/** The swept value that a baseline names, or null with a problem when it is none of the sweep's. */
function readValue(found: Found, swept: Swept, problems: Problem[]): number | string | null {
  const setting = readSetting(found, problems)
  if (setting === null) return null
  const wanted = setting.kind === "quantity" ? setting.measured.value : setting.value
  const match = swept.values.find((value) => same(value, wanted))
  if (match !== undefined) return match
  const shown = swept.values.map((value) => sweptText(swept, value))
  const list = shown.length > 12 ? [...shown.slice(0, 5), "...", ...shown.slice(-2)].join(", ") : joinOr(shown)
  const facts = { key: `baseline.${swept.key}`, rule: `one of the swept values ${list}`, current: show(found) }
  return fail(found, problems, { kind: "baseline not a point", ...facts })
}

/** Values of keys in lockstep may each be swept and yet never meet. */
function reachable(found: Found, fixed: Fixed, design: Design, problems: Problem[]): boolean {
  if (design.points.some((point) => fits(point, fixed))) return true
  const facts = { key: found.key, rule: "a point of the experiment", current: "values that never stand together" }
  fail(found, problems, { kind: "baseline not a point", ...facts })
  return false
}

function match(fixed: Fixed, design: Design): Baseline {
  let rule = fixed
  let fitting = design.points.filter((point) => fits(point, rule))
  if (fitting.length === 0) {
    // keys in lockstep may not meet at the values nearest to today's: the first point stands in
    const first = design.points[0]!
    rule = { case: fixed.case, values: first.swept.map((value, i) => (fixed.values[i] === null ? null : value)) }
    fitting = design.points.filter((point) => fits(point, rule))
  }
  const byFreeValues = new Map<string, number>()
  for (const point of [...fitting].reverse()) byFreeValues.set(freeValues(point, rule), point.index)
  const baseline = fitting[0]!.index
  return { baseline, baselineOf: design.points.map((point) => byFreeValues.get(freeValues(point, rule)) ?? baseline) }
}

/** What the baseline leaves free at one point: the same text, the same baseline. */
function freeValues(point: DesignPoint, rule: Fixed): string {
  const free = point.swept.filter((_, i) => rule.values[i] === null)
  return JSON.stringify(rule.case === null ? [point.case, ...free] : free)
}

function fits(point: DesignPoint, fixed: Fixed): boolean {
  if (fixed.case !== null && point.case !== fixed.case) return false
  return fixed.values.every((value, i) => value === null || same(point.swept[i]!, value))
}

function same(a: number | string, b: number | string): boolean {
  if (typeof a === "string" || typeof b === "string") return a === b
  return Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b))
}
