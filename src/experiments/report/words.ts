import type { Estimate } from "../../sim/estimate.ts"
import type { Experiment, Swept } from "../experiment.ts"
import { isLostInNoise } from "../lost-in-noise.ts"
import type { AssumptionRange, PointResult } from "../results.ts"

/** Groups whose name adds nothing when a key is read aloud: "goalie.depth" is the depth. */
const SILENT_GROUPS = new Set(["goalie", "movement", "play", "reference", "rink"])

/** Keys that are read aloud in other words than their own. */
const ALOUD: Readonly<Record<string, string>> = {
  "goalie.leaves_start_at": "puck's distance for starting back",
}

/** A key read aloud: `goalie.depth` is "depth", `shooter.aim_error` is "shooter aim error". */
export function keyName(key: string): string {
  const aloud = ALOUD[key]
  if (aloud !== undefined) return aloud
  const [group, ...rest] = key.split(".")
  const name = rest.join(" ").replaceAll("_", " ")
  if (rest.length === 0) return key.replaceAll("_", " ")
  return SILENT_GROUPS.has(group!) ? name : `${group} ${name}`
}

/** First letter large, the rest as it is. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

/** A value in SI in the unit the file wrote. */
export function inFileUnit(swept: Swept & { readonly kind: "quantity" }, value: number): number {
  return Number(((value - swept.unitZero) / swept.unitFactor).toPrecision(12))
}

/**
 * Decimals that print every value of a sweep without loss, at most 3. Where none do, as of points of a design: as many as
 * show a five-hundredth of the range and keep the values apart.
 */
export function decimalsOf(swept: Swept & { readonly kind: "quantity" }): number {
  const values = swept.values.map((value) => inFileUnit(swept, value))
  for (let decimals = 0; decimals < MOST_DECIMALS; decimals++) {
    if (values.every((value) => Math.abs(value - Number(value.toFixed(decimals))) < 1e-6)) return decimals
  }
  const span = Math.max(...values) - Math.min(...values)
  const apart = new Set(values).size
  for (let decimals = 0; decimals < MOST_DECIMALS; decimals++) {
    const printed = new Set(values.map((value) => value.toFixed(decimals)))
    if (10 ** -decimals <= span / 500 && printed.size === apart) return decimals
  }
  return MOST_DECIMALS
}

const MOST_DECIMALS = 3

/** Number with a true minus sign. */
export function plain(value: number, decimals: number): string {
  const text = value.toFixed(decimals)
  return Number(text) === 0 ? (0).toFixed(decimals) : text.replace("-", "\u2212")
}

/** Number with its sign always shown, for differences. */
export function signed(value: number, decimals: number): string {
  const text = plain(value, decimals)
  return Number(value.toFixed(decimals)) > 0 ? `+${text}` : text
}

/** Unit with the space before it, nothing for a pure number. */
export function withUnit(text: string, unit: string): string {
  return unit === "" ? text : `${text} ${unit}`
}

/** A swept value as the file would write it: "1.3 m", "set". */
export function valueText(swept: Swept, value: number | string): string {
  if (swept.kind === "choice") return String(value)
  return withUnit(plain(inFileUnit(swept, Number(value)), decimalsOf(swept)), swept.unit)
}

/** A swept value as a label, with its name: "depth 1.3 m", "the goal line" for depth 0. */
export function namedValue(swept: Swept, value: number | string): string {
  if (swept.key === ("goalie.depth" as string) && value === 0) return "the goal line"
  return `${keyName(swept.key)} ${valueText(swept, value)}`
}

/** Where a circumstance holds: "from 5 m" for the distance, "at angle 45 deg" for others; a depth is "at depth 1.2 m". */
export function whereText(swept: Swept, value: number | string): string {
  if (swept.key === ("play.distance" as string)) return `from ${valueText(swept, value)}`
  if (swept.key === ("goalie.depth" as string) && value === 0) return "on the goal line"
  return `at ${namedValue(swept, value)}`
}

/** Axis title: quantity and unit as the file used it. */
export function axisTitle(swept: Swept): string {
  const name = capital(keyName(swept.key))
  return swept.kind === "quantity" && swept.unit !== "" ? `${name}, ${swept.unit}` : name
}

/** A share in percent: "91.2 %". */
export function percent(share: number, decimals = 1): string {
  return `${plain(share * 100, decimals)} %`
}

/**
 * Decimals at which the two ends of an interval print apart: those given, or one or two more where the interval is narrower
 * than a printed digit. Those given for an interval without width.
 */
export function decimalsApart(low: number, high: number, decimals: number): number {
  const isApart = (digits: number): boolean => low.toFixed(digits) !== high.toFixed(digits)
  return low < high ? ([decimals, decimals + 1, decimals + 2].find(isApart) ?? decimals) : decimals
}

/** A share with its interval: "91.2 % [90.8, 91.6]". */
export function percentWithInterval({ mean, low, high }: Estimate): string {
  const decimals = decimalsApart(low * 100, high * 100, 1)
  return `${percent(mean, decimals)} [${plain(low * 100, decimals)}, ${plain(high * 100, decimals)}]`
}

/** A difference of shares in percentage points with both spreads: "+2.4 points [2.1, 2.7; assumptions 1.0 to 3.1]". */
export function pointsWithSpreads(estimate: Estimate, assumptions?: AssumptionRange): string {
  const decimals = decimalsApart(estimate.low * 100, estimate.high * 100, 1)
  const number = (share: number): string => plain(share * 100, decimals)
  return `${signed(estimate.mean * 100, decimals)} points ${spreadsText(estimate, assumptions, number)}`
}

/** "; assumptions 1.0 to 3.1", or that sampling hides them; "" where none were drawn. */
function assumedEnds(range: AssumptionRange | null | undefined, number: (value: number) => string): string {
  if (range == null) return ""
  if (isLostInNoise(range)) return "; assumptions not told from sampling"
  return `; assumptions ${number(range.low)} to ${number(range.high)}`
}

/** Both spreads of a number already written: "[91.0, 91.4; assumptions 88.0 to 93.1]". */
export function spreadsText(
  { low, high }: Pick<Estimate, "low" | "high">,
  assumptions: AssumptionRange | null | undefined,
  number: (value: number) => string,
): string {
  return `[${number(low)}, ${number(high)}${assumedEnds(assumptions, number)}]`
}

/** Save rate of a point, or null where no shot was on goal. */
export function rateOf(point: PointResult): Estimate | null {
  const rate = point.estimates.save_rate
  return rate === undefined || !Number.isFinite(rate.mean) ? null : rate
}

/** How many shots the points took, "8,192", or "2,048 to 8,192" where some took fewer. */
export function shotsText(points: readonly Pick<PointResult, "shots">[]): string {
  const counts = points.map(({ shots }) => shots)
  const [least, most] = [Math.min(...counts), Math.max(0, ...counts)].map((count) => count.toLocaleString("en-US"))
  return counts.length === 0 || least === most ? most! : `${least} to ${most}`
}

/** A design point in words: "slot, depth 1.0 m". */
export function pointText(experiment: Experiment, index: number, withCase = true): string {
  const point = experiment.points[index]
  if (point === undefined) return `point ${index}`
  const values = experiment.sweep.map((swept, at) => namedValue(swept, point.swept[at]!))
  const named = withCase && point.case !== "" ? [point.case, ...values] : values
  return named.length === 0 ? "the only point" : named.join(", ")
}

/** What a point is compared with, named by what differs from the point itself: "depth 1.2 m". */
export function baselineFor(experiment: Experiment, index: number): string {
  const base = experiment.points[comparedWith(experiment, index)]
  const point = experiment.points[index]
  if (base === undefined || point === undefined) return "the baseline"
  const values = experiment.sweep.flatMap((swept, at) =>
    base.swept[at] === point.swept[at] ? [] : [namedValue(swept, base.swept[at]!)],
  )
  const parts = base.case === point.case ? values : [base.case, ...values]
  return parts.length === 0 ? "the baseline" : parts.join(", ")
}

/** What all points are compared with: the values their baselines share, then what each keeps of its own. */
export function baselineText(experiment: Experiment, name = namedValue): string {
  const bases = [...new Set(experiment.points.map((point) => comparedWith(experiment, point.index)))]
    .map((index) => experiment.points[index])
    .filter((base) => base !== undefined)
  const first = bases[0]
  if (first === undefined) return "the baseline"
  const isShared = (at: number): boolean => bases.every((base) => base.swept[at] === first.swept[at])
  const oneCase = bases.every((base) => base.case === first.case)
  const shared = experiment.sweep.flatMap((swept, at) => (isShared(at) ? [name(swept, first.swept[at]!)] : []))
  const own = experiment.sweep.flatMap((swept, at) => (isShared(at) ? [] : [keyName(swept.key)]))
  const named = [...(oneCase && first.case !== "" ? [first.case] : []), ...shared].join(", ") || "the baseline"
  const kept = own.length === 0 ? [] : [`at the same ${own.join(" and ")}`]
  // "outside in in the same case", or a case that seems to belong to the last of several values, is misread
  const isMisread = named.includes(",") || /\bin$/.test(named)
  const cases = oneCase ? "" : isMisread ? ", each in the same case" : " in the same case"
  return [`${named}${cases}`, ...kept].join(" ")
}

/** Index of the point that another is compared with. */
export function comparedWith(experiment: Experiment, index: number): number {
  return experiment.baselineOf?.[index] ?? experiment.baseline
}
