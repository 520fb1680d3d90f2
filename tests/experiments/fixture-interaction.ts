import type { Interaction, RunResults } from "../../src/experiments/results.ts"
import { estimate, handsByDistance } from "./fixture-results.ts"

/** Save rates of the four arms: as it is and changed against a shot, then against a late pass. */
const RATES: ReadonlyMap<number, number> = new Map([
  [0, 0.93],
  [3, 0.926],
  [1, 0.25],
  [4, 0.66],
])

/** An invented run with one difference of differences, 41.4 points unless told otherwise. */
export function handsInTwoPlays(change: Partial<Interaction> = {}): RunResults {
  const results = handsByDistance()
  const points = results.points.map((point) => {
    const rate = RATES.get(point.index)
    return rate === undefined ? point : { ...point, estimates: { ...point.estimates, save_rate: estimate(rate, 0.01) } }
  })
  const interaction: Interaction = {
    name: "",
    key: "goalie.hands",
    from: "hands beside",
    to: "hands tucked",
    between: ["shot", "late pass"],
    where: "",
    points: [0, 3, 1, 4],
    effects: [estimate(-0.004, 0.01), estimate(0.41, 0.03)],
    difference: estimate(0.414, 0.03),
    assumptions: null,
    sincePrevious: null,
    ...change,
  }
  return { ...results, points, interactions: [interaction] }
}
