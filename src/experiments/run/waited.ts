import { widened } from "../../sim/statistics/widened.ts"
import type { Experiment } from "../experiment.ts"
import type { Crossing, CurveFinding, RunResults, Shift } from "../results.ts"

type Findings = Pick<RunResults, "curves" | "worst" | "rivals"> & {
  readonly crossings: readonly Crossing[]
  readonly shifts: readonly Shift[]
}

/** What curves say, with intervals as wide as those of the points where the run waited for a half-width. */
export function findingsWaited({ halfWidth, sweep }: Experiment, found: Findings): Findings {
  if (halfWidth === null) return found
  const ends = (key: string): readonly [number, number] => {
    const values = sweep.find((swept) => swept.key === key)!.values.map(Number)
    return [Math.min(...values), Math.max(...values)]
  }
  return {
    curves: found.curves.map((curve) => curveWaited(curve, ends(curve.key))),
    ...(found.worst === undefined
      ? {}
      : {
          worst: found.worst.map((one) => ({
            ...one,
            ...curveWaited(one, ends(one.key)),
            rate: widened(one.rate, 0, 1),
          })),
        }),
    ...(found.rivals === undefined
      ? {}
      : { rivals: found.rivals.map((one) => ({ ...one, rate: widened(one.rate, -1, 1) })) }),
    crossings: found.crossings.map((one) =>
      one.at === null ? one : { ...one, at: widened(one.at, ...ends(one.key)) },
    ),
    shifts: found.shifts.map((one) => {
      const [first, last] = ends(one.along)
      return { ...one, best: widened(one.best, first - last, last - first), rate: widened(one.rate, -1, 1) }
    }),
  }
}

/** A best place lies in the sweep, a plateau is no longer than it. */
function curveWaited(curve: CurveFinding, [first, last]: readonly [number, number]): CurveFinding {
  return {
    ...curve,
    best: widened(curve.best, first, last),
    plateau: { ...curve.plateau, width: widened(curve.plateau.width, 0, last - first) },
    missed: curve.missed.map(({ by, change }) => ({ by, change: widened(change, -1, 1) })),
  }
}
