import type { Swept } from "../experiment.ts"
import { GOALS_SAVED, SHOTS_TO_SEE } from "../measures.ts"
import type { PointResult, RunResults } from "../results.ts"
import { valueText } from "./words.ts"

/** A swept key, and the values between which nothing that was found differs. */
export interface Idle {
  readonly key: string
  /** Its values in words, the first and the last of those that are alike. */
  readonly from: string
  readonly to: string
  /** Whether that is every value of the sweep. */
  readonly whole: boolean
}

/** Measures against a baseline follow from the others, and one of two equal points may be the baseline itself. */
const FOLLOWING: readonly string[] = [GOALS_SAVED, SHOTS_TO_SEE]

/**
 * Swept keys along which every measure of every point is the same to the last bit, all else the same: over the whole
 * sweep, or for a quantity over neighbouring values. Points fire the same shots, so a key that has any say moves the bits.
 */
export function idleKeys(results: RunResults): Idle[] {
  return results.experiment.sweep.flatMap((swept, at) => {
    const values: (number | string)[] = [...new Set<number | string>(swept.values)]
    if (swept.kind === "quantity") values.sort((a, b) => Number(a) - Number(b))
    const rows = rowsAlong(results, at)
    const alike = values.slice(1).map((value, i) => areAlike(rows, values[i]!, value))
    const stretches = stretchesOf(alike)
    const isWhole = alike.length > 0 && alike.every(Boolean)
    return swept.kind === "choice" && !isWhole
      ? []
      : stretches.map(([from, to]) => idle(swept, values[from]!, values[to]!, isWhole))
  })
}

function idle(swept: Swept, from: number | string, to: number | string, whole: boolean): Idle {
  return { key: swept.key, from: valueText(swept, from), to: valueText(swept, to), whole }
}

/** Points that differ in one swept key alone, by its value: a map for all else. */
function rowsAlong({ points }: RunResults, at: number): Map<number | string, PointResult>[] {
  const rows = new Map<string, Map<number | string, PointResult>>()
  for (const point of points) {
    const others = JSON.stringify([point.case, point.spot, point.swept.toSpliced(at, 1)])
    const row = rows.get(others) ?? new Map<number | string, PointResult>()
    rows.set(others, row.set(point.swept[at]!, point))
  }
  return [...rows.values()]
}

/** Whether two values differ nowhere, and are both met somewhere. A cut depth has a warning of its own. */
function areAlike(rows: ReturnType<typeof rowsAlong>, one: number | string, other: number | string): boolean {
  const pairs = rows.flatMap((row) => {
    const [a, b] = [row.get(one), row.get(other)]
    return a === undefined || b === undefined ? [] : [[a, b] as const]
  })
  return pairs.length > 0 && pairs.every(([a, b]) => a.remarks.length + b.remarks.length === 0 && isSame(a, b))
}

function isSame(a: PointResult, b: PointResult): boolean {
  const [mine, theirs] = [valuesOf(a), valuesOf(b)]
  return mine.size === theirs.size && [...mine].every(([key, value]) => Object.is(value, theirs.get(key)))
}

function valuesOf({ estimates, exact }: PointResult): Map<string, number> {
  const means = Object.entries(estimates).map(([key, { mean }]) => [key, mean] as const)
  return new Map([...means, ...Object.entries(exact)].filter(([key]) => !FOLLOWING.includes(key)))
}

/** First and last index of each stretch of values that are alike. */
function stretchesOf(alike: readonly boolean[]): (readonly [number, number])[] {
  return alike.flatMap((is, from) => {
    if (!is || alike[from - 1] === true) return []
    const end = alike.indexOf(false, from)
    return [[from, end < 0 ? alike.length : end] as const]
  })
}
