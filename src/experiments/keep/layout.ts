import type { SceneOutline } from "../../models/plays/scene.ts"
import { PLAY_MOVES } from "../../sim/play/course.ts"
import type { Experiment } from "../experiment.ts"
import { inFileUnit } from "../report/words.ts"
import { columnOf } from "../write/unit-suffix.ts"

/** What differs between the columns of one experiment and another. Structured-clone safe. */
export interface KeptLayout {
  readonly swept: readonly { readonly name: string; readonly kind: "quantity" | "choice" }[]
  readonly cases: boolean
  /** Whether anything happens before the shot. */
  readonly moves: boolean
}

/** What a row says of its design point. */
export interface PoseLabel {
  /** Number from 1, in the order of results.csv without its spots. */
  readonly point: number
  /** Quantities in the unit of the file, choices by name. */
  readonly swept: readonly (number | string)[]
  readonly case: string
}

export function layoutOf({ sweep, cases }: Experiment, scenes: readonly SceneOutline[]): KeptLayout {
  return {
    swept: sweep.map((swept) => ({
      name: swept.kind === "choice" ? swept.key : columnOf(swept.key, swept.unit),
      kind: swept.kind,
    })),
    cases: cases.length > 1,
    moves: scenes.some(({ play }) => play[PLAY_MOVES] === 1),
  }
}

export function labelOf({ sweep, points }: Experiment, index: number): PoseLabel {
  const point = points[index]!
  return {
    point: index + 1,
    swept: sweep.map((swept, at) => {
      const value = point.swept[at]!
      return swept.kind === "choice" ? String(value) : inFileUnit(swept, Number(value))
    }),
    case: point.case,
  }
}
