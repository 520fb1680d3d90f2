import type { Estimate } from "../../sim/estimate.ts"
import type { Experiment, Swept } from "../experiment.ts"
import { type Measure, measureOf } from "../measures.ts"
import type { Interaction, PointResult, RunResults } from "../results.ts"
import { keyName, namedValue, rateOf, valueText, whereText } from "./words.ts"

/** What one curve, group of alternatives or lone point says. */
export interface Finding {
  /** Case, spot and other swept values; "" where there is only one. */
  readonly group: string
  readonly verdict: "best" | "flat" | "edge" | "alone"
  /** Key of the measure it speaks of. */
  readonly measure: string
  readonly sentence: string
  /** The point the sentence is about, for tables and shots to see. */
  readonly point: PointResult
  /** The difference of differences it speaks of; absent where it is about a point or a curve. */
  readonly interaction?: Interaction
}

/** Findings and the one sentence that sums them up. */
export interface Summary {
  readonly headline: string
  readonly findings: readonly Finding[]
}

/** How much of both spreads a sentence over several groups has room for. */
export type Detail = "both" | "sampling" | "none"
const DETAILS: readonly Detail[] = ["both", "sampling", "none"]
/** Longest headline over several groups, characters: what can be said aloud in one breath. */
export const LONGEST = 300

/** The fullest of a sentence's forms that is no longer than {@link LONGEST}; the shortest form where none is. */
export function fitted(sentence: (detail: Detail) => string): string {
  return fittedParts("", (detail) => [sentence(detail)])
}

/** The same of a sentence in parts; where even the shortest form is too long, the last parts are left out. */
export function fittedParts(opening: string, parts: (detail: Detail) => readonly string[]): string {
  const forms = DETAILS.map(parts)
  const whole = forms.find((form) => `${opening}${form.join("; ")}`.length <= LONGEST)
  return fittedList(opening, whole ?? forms.at(-1)!)
}

/** As many parts as fit into a headline, and how many are left to the list below it. */
export function fittedList(opening: string, parts: readonly string[]): string {
  const whole = `${opening}${parts.join("; ")}`
  if (whole.length <= LONGEST) return whole
  for (let kept = parts.length - 1; kept > 0; kept--) {
    const text = `${opening}${parts.slice(0, kept).join("; ")}; ${parts.length - kept} more below`
    if (text.length <= LONGEST) return text
  }
  return `${opening}${parts[0] ?? ""}`
}

/** "1.6 m at speed 2 m/s and at speed 3 m/s": what is said of several groups once, with where each holds after it. */
export function alikeTogether(said: readonly (readonly [what: string, where: string])[]): string[] {
  const groups = new Map<string, string[]>()
  for (const [what, where] of said) groups.set(what, [...(groups.get(what) ?? []), where])
  return [...groups].map(([what, wheres]) => `${what} ${wheres.join(" and ").replaceAll(") and (", " and ")}`.trimEnd())
}

/** The measure a run is about: the first that its file lists, the save rate where it lists none. */
export function focusOf({ measures }: Experiment): Measure {
  return measureOf(measures[0] ?? "save_rate") ?? measureOf("save_rate")!
}

/** Whether an interval of a difference leaves out zero. */
export function isTold(difference: Estimate): boolean {
  return difference.low > 0 || difference.high < 0
}

/** Name of a group of points in a table or list: case, spot and the swept values but the one along the axis. */
export function groupName(
  experiment: Experiment,
  theCase: string,
  spot: string,
  swept: Swept | undefined,
  others: readonly (number | string)[],
): string {
  const rest = experiment.sweep.filter((one) => one !== swept)
  const names = others.map((value, at) => (rest[at] === undefined ? String(value) : namedValue(rest[at], value)))
  return [theCase, spot === "all" ? "" : spot, ...names].filter((part) => part !== "").join(", ")
}

/** The same after what it holds for, in a sentence: "from 5 m", "(butterfly, angle 80 deg)", "" where there is one group. */
export function groupWhere(
  experiment: Experiment,
  theCase: string,
  spot: string,
  swept: Swept | undefined,
  others: readonly (number | string)[],
): string {
  const rest = experiment.sweep.filter((one) => one !== swept)
  const lone = rest[0]
  if (theCase === "" && spot === "all" && others.length === 1 && lone !== undefined) return whereText(lone, others[0]!)
  const names = others.map((value, at) => shortValue(rest[at]!, value))
  const parts = [theCase, spot === "all" ? "" : spot, ...names].filter((part) => part !== "")
  return parts.length === 0 ? "" : `(${parts.join(", ")})`
}

function shortValue(swept: Swept, value: number | string): string {
  return swept.kind === "choice" ? valueText(swept, value) : `${keyName(swept.key)} ${valueText(swept, value)}`
}

/** Points of one line of a sweep in the order of the axis at `at`, or all points alike in the rest when `at` is -1. */
export interface Line {
  readonly case: string
  readonly spot: string
  readonly others: readonly (number | string)[]
  readonly points: readonly PointResult[]
}

/** Splits points into lines along the swept key at `at`. */
export function linesOf(points: readonly PointResult[], at: number): Line[] {
  const lines = new Map<string, PointResult[]>()
  for (const point of points) {
    const id = JSON.stringify([point.case, point.spot, point.swept.filter((_, place) => place !== at)])
    lines.set(id, [...(lines.get(id) ?? []), point])
  }
  return [...lines.values()].map((members) => ({
    case: members[0]!.case,
    spot: members[0]!.spot,
    others: members[0]!.swept.filter((_, place) => place !== at),
    points: at < 0 ? members : members.toSorted((a, b) => Number(a.swept[at]) - Number(b.swept[at])),
  }))
}

/** Points with a save rate, of the whole play where any speaks for it. */
export function ratedPoints(results: RunResults): PointResult[] {
  const rated = results.points.filter((point) => rateOf(point) !== null)
  const whole = rated.filter((point) => point.spot === "all")
  return whole.length > 0 ? whole : rated
}
