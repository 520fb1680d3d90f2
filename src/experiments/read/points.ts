import { type Settings, withSettings } from "../../models/settings.ts"
import type { DesignPoint, Swept } from "../experiment.ts"
import type { Problem } from "./problem.ts"
import { fail } from "./setting.ts"
import type { Found } from "./source.ts"
import { MOST_POINTS, type SweptKey } from "./sweep.ts"

/** Keys that change as one: a single swept key, or a group in lockstep. */
export type Axis = readonly SweptKey[]

/** Number of values an axis steps through. */
export function lengthOf(axis: Axis): number {
  return axis[0]?.swept.values.length ?? 1
}

/** False, with a problem, when cases and axes cross to more points than anybody means. */
export function pointsAreFew(at: Found, cases: number, axes: readonly Axis[], problems: Problem[]): boolean {
  const points = axes.reduce((product, axis) => product * lengthOf(axis), cases)
  if (points <= MOST_POINTS) return true
  const rule = `an experiment of at most ${MOST_POINTS.toLocaleString("en-US")} points`
  const current = `${points.toLocaleString("en-US")} points (cases and swept values multiply)`
  fail(at, problems, { kind: "too many points", key: at.key, rule, current, remedy: "take larger steps" })
  return false
}

/**
 * Design points of all cases. Cases are outermost; within a case the key swept first in the file changes fastest, so
 * that the points of one curve follow one another.
 */
export function designPoints(
  cases: readonly { readonly name: string; readonly settings: Settings }[],
  axes: readonly Axis[],
): DesignPoint[] {
  const perCase = axes.reduce((product, axis) => product * lengthOf(axis), 1)
  const points: DesignPoint[] = []
  for (const { name, settings } of cases) {
    for (let i = 0; i < perCase; i++) {
      const swept = valuesAt(axes, i)
      points.push({ index: points.length, case: name, swept, settings: withSwept(settings, axes, swept) })
    }
  }
  return points
}

/** Value of each swept key at one place of the crossing, first axis fastest. */
function valuesAt(axes: readonly Axis[], place: number): (number | string)[] {
  const values: (number | string)[] = []
  let rest = place
  for (const axis of axes) {
    const step = rest % lengthOf(axis)
    rest = Math.floor(rest / lengthOf(axis))
    for (const { swept } of axis) values.push(swept.values[step]!)
  }
  return values
}

function withSwept(settings: Settings, axes: readonly Axis[], values: readonly (number | string)[]): Settings {
  const quantities: Record<string, number> = {}
  const choices: Record<string, string> = {}
  for (const [i, swept] of sweptOf(axes).entries()) {
    const value = values[i]!
    if (typeof value === "number") quantities[swept.key] = value
    else choices[swept.key] = value
  }
  return withSettings(settings, { quantities, choices })
}

/** All swept keys in the order of the results' columns. */
export function sweptOf(axes: readonly Axis[]): Swept[] {
  return axes.flatMap((axis) => axis.map((key) => key.swept))
}
