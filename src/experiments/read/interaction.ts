import { isMap, isSeq } from "yaml"
import type { DesignPoint, InteractionAsked, Swept } from "../experiment.ts"
import { INTERACTION_FIELDS, keysOf } from "../grammar.ts"
import { namedValue, valueText } from "../report/words.ts"
import { joinOr } from "../wording.ts"
import { notAMapping, partsOf } from "./flatten.ts"
import { suggestion } from "./nearest.ts"
import type { Problem } from "./problem.ts"
import { fail, readName, readSetting, readText } from "./setting.ts"
import { type Found, isNothing, itemsOf, scalarText, show } from "./source.ts"
import { sweptText } from "./sweep.ts"

/** The points among which interactions are looked for. */
interface Grid {
  readonly points: readonly DesignPoint[]
  readonly sweep: readonly Swept[]
  readonly cases: readonly string[]
}

/** One of two circumstances: which points belong to it, and its name. */
interface Side {
  readonly name: string
  readonly holds: (point: DesignPoint) => boolean
}

/** Reads `interaction:`, one or a list; entries with problems are left out. */
export function readInteractions(found: Found, grid: Grid, problems: Problem[]): InteractionAsked[] {
  if (isNothing(found)) return []
  const entries = isMap(found.node) ? [found] : itemsOf(found)
  if (!isMap(found.node) && !isSeq(found.node)) problems.push(notAMapping(found))
  return entries.flatMap((entry) => readInteraction(entry, grid, problems) ?? [])
}

function readInteraction(found: Found, grid: Grid, problems: Problem[]): InteractionAsked | null {
  if (!isMap(found.node)) {
    problems.push(notAMapping(found))
    return null
  }
  const parts = partsOf(found, keysOf(INTERACTION_FIELDS), problems)
  const nameFound = parts.get("name")
  const name = nameFound === undefined ? "" : readText({ ...nameFound, key: "interaction.name" }, problems)
  const swept = readSwept(found, parts.get("change"), grid, problems)
  if (name === null || swept === null) return null
  const from = readValue(parts.get("from"), swept, swept.values[0]!, problems)
  const to = readValue(parts.get("to"), swept, swept.values.at(-1)!, problems)
  const sides = readSides(found, parts.get("between"), swept, grid, problems)
  if (from === null || to === null || sides === null) return null
  const asked = { name, key: swept.key, from: valueText(swept, from), to: valueText(swept, to) }
  const between = [sides[0].name, sides[1].name] as const
  const of = squaresOf(grid, swept, [from, to], sides)
  if (of.length > 0) return { ...asked, between, of }
  const rule = "one change met in two circumstances"
  const current = `no four points of ${asked.from} and ${asked.to} in ${between[0]} and ${between[1]}`
  return fail(found, problems, { kind: "contradiction", key: "interaction", rule, current })
}

/** A swept key with at least two values. */
function readSwept(entry: Found, found: Found | undefined, { sweep }: Grid, problems: Problem[]): Swept | null {
  const key = "interaction.change"
  if (found === undefined)
    return fail(entry, problems, { kind: "missing key", key, rule: "given", current: show(entry) })
  const text = scalarText(found)
  const swept = sweep.find((one) => one.key === text && one.values.length > 1)
  if (swept !== undefined) return swept
  const names = sweep.filter((one) => one.values.length > 1).map((one) => one.key)
  const rule = names.length === 0 ? "a key that is swept" : `one of the swept keys ${joinOr(names)}`
  const remedy = text === null ? null : suggestion(text, names)
  return fail(found, problems, { kind: "unknown name", key, rule, current: show(found), remedy })
}

/** One of the values a key is swept over. */
function readValue(
  found: Found | undefined,
  swept: Swept,
  usual: number | string,
  problems: Problem[],
): number | string | null {
  if (found === undefined) return usual
  const setting = readSetting({ ...found, key: swept.key }, problems)
  if (setting === null) return null
  const wanted = setting.kind === "quantity" ? setting.measured.value : setting.value
  const match = swept.values.find((value) => isSame(value, wanted))
  if (match !== undefined) return match
  const rule = `one of the swept values ${joinOr(swept.values.map((value) => sweptText(swept, value)))}`
  return fail(found, problems, { kind: "unknown name", key: found.key, rule, current: show(found) })
}

/** Two cases by name, or a swept key of two values. */
function readSides(
  entry: Found,
  found: Found | undefined,
  change: Swept,
  { sweep, cases }: Grid,
  problems: Problem[],
): readonly [Side, Side] | null {
  const key = "interaction.between"
  const rule = "two of the compared cases, or a swept key of two values"
  if (found === undefined) return fail(entry, problems, { kind: "missing key", key, rule, current: show(entry) })
  const items = itemsOf(found)
  if (items.length === 2 && cases.length > 1) {
    const names = items.map((item) => readName({ ...item, key }, cases, problems))
    const [first, second] = names
    if (first == null || second == null) return null
    if (first !== second) return [sideOfCase(first), sideOfCase(second)]
  }
  const at = sweep.findIndex((one) => one.key === scalarText(found) && one.values.length === 2 && one !== change)
  if (at >= 0) return [0, 1].map((which) => sideOfValue(sweep[at]!, at, which)) as unknown as [Side, Side]
  return fail(found, problems, { kind: "wrong type", key, rule, current: show(found) })
}

function sideOfCase(name: string): Side {
  return { name, holds: (point) => point.case === name }
}

function sideOfValue(swept: Swept, at: number, which: number): Side {
  const value = swept.values[which]!
  return { name: namedValue(swept, value), holds: (point) => isSame(point.swept[at]!, value) }
}

/** Every four points that differ in the change and the circumstance alone, whatever moves in lockstep with either. */
function squaresOf(
  { points, sweep, cases }: Grid,
  change: Swept,
  values: readonly [number | string, number | string],
  sides: readonly [Side, Side],
): InteractionAsked["of"] {
  const at = sweep.indexOf(change)
  const free = sweep.map((_, other) => other !== at && !isLocked(points, other, (point) => point.swept[at]!))
  const isSide = (point: DesignPoint): boolean => sides.some(({ holds }) => holds(point))
  const byCase = sides.every(({ name }) => cases.includes(name))
  const kept = free.map(
    (isFree, other) => isFree && (byCase || !isLocked(points, other, (point) => String(sides[0].holds(point)))),
  )
  const squares = new Map<string, (number | undefined)[]>()
  for (const point of points) {
    const which = values.findIndex((value) => isSame(point.swept[at]!, value))
    if (which < 0 || !isSide(point)) continue
    const rest = point.swept.map((value, other) => (kept[other] ? namedValue(sweep[other]!, value) : ""))
    const where = [byCase ? "" : point.case, ...rest].filter((part) => part !== "").join(", ")
    const square = squares.get(where) ?? [undefined, undefined, undefined, undefined]
    square[(sides[0].holds(point) ? 0 : 2) + which] = point.index
    squares.set(where, square)
  }
  return [...squares].flatMap(([where, square]) => {
    const [a, b, c, d] = square
    if (a === undefined || b === undefined || c === undefined || d === undefined) return []
    return [{ where, points: [a, b, c, d] as const }]
  })
}

/** Whether a swept key has one value for each value of something else: they move in lockstep. */
function isLocked(points: readonly DesignPoint[], at: number, by: (point: DesignPoint) => number | string): boolean {
  const values = new Map<number | string, number | string>()
  return points.every((point) => {
    const known = values.get(by(point))
    if (known === undefined) values.set(by(point), point.swept[at]!)
    return known === undefined || isSame(known, point.swept[at]!)
  })
}

function isSame(a: number | string, b: number | string): boolean {
  if (typeof a === "string" || typeof b === "string") return a === b
  return Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b))
}
