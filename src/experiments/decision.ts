import type { Quantity } from "../models/parameter.ts"
import { QUANTITIES } from "../models/settings.ts"
import type { Experiment, Swept } from "./experiment.ts"

/** Whether a key belongs to the goalie, or to what the goalie goes by; all others are circumstances nobody in the net can choose. */
export function isGoalies(key: string): boolean {
  return key.startsWith("goalie.") || key === "reference.cue" || key === "reference.mark"
}

/**
 * Whether a quantity is the goalie's to decide: depth, pad flare, height of the hands. A quantity that is measured or
 * assumed about a person, such as stature or reaction, is a trait, and everything else a circumstance; neither has a
 * best value.
 */
export function isDecision(key: string): boolean {
  const quantity: Quantity | undefined = (QUANTITIES as Readonly<Record<string, Quantity>>)[key]
  return isGoalies(key) && quantity?.source === "choice"
}

/** Place in the sweep of the quantity on the horizontal axis: the first decision, else the first quantity; -1 for none. */
export function axisOf(sweep: readonly Swept[]): number {
  const decision = sweep.findIndex((swept) => swept.kind === "quantity" && isDecision(swept.key))
  return decision >= 0 ? decision : sweep.findIndex((swept) => swept.kind === "quantity")
}

/**
 * Whether the cases of a file are alternatives that are compared with one of them (hands beside, tucked, projected),
 * rather than circumstances that each have a baseline of their own.
 */
export function casesAreAlternatives({ cases, points, baseline, baselineOf }: Experiment): boolean {
  if (cases.length < 2) return false
  const bases = new Set(points.map((_, index) => points[baselineOf?.[index] ?? baseline]?.case))
  return bases.size === 1
}
