import { isDecision } from "../../src/experiments/decision.ts"
import type { DesignPoint, Experiment, Swept } from "../../src/experiments/experiment.ts"
import type { AssumptionRange, CurveFinding, PointResult, RunResults } from "../../src/experiments/results.ts"
import type { Settings } from "../../src/models/settings.ts"
import type { Estimate } from "../../src/sim/estimate.ts"
import { REGIONS } from "../../src/sim/parts.ts"
import { inventedGoalMap, inventedPanels, inventedReachMaps } from "./fixture-pictures.ts"

/** Seeded generator for the invented noise (a 32-bit linear congruential step, enough for a picture). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
}

export function estimate(mean: number, half: number, n = 40_000): Estimate {
  const method = "ratio over replicates, t"
  return { n, mean, standardError: half / 1.96, low: mean - half, high: mean + half, confidence: 0.95, method }
}

export const DEPTH: Swept = {
  kind: "quantity",
  key: "goalie.depth" as never,
  dimension: "length",
  unit: "m",
  unitFactor: 1,
  unitZero: 0,
  values: Array.from({ length: 13 }, (_, at) => Number((at * 0.2).toFixed(1))),
}
export const PASS_SPEED: Swept = {
  kind: "quantity",
  key: "play.pass_speed" as never,
  dimension: "speed",
  unit: "km/h",
  unitFactor: 1 / 3.6,
  unitZero: 0,
  values: [50, 60, 70, 80, 90].map((speed) => speed / 3.6),
}
export const DISTANCE: Swept = {
  kind: "quantity",
  key: "play.distance" as never,
  dimension: "length",
  unit: "m",
  unitFactor: 1,
  unitZero: 0,
  values: [5, 8, 12],
}
export const STANCE: Swept = {
  kind: "choice",
  key: "goalie.stance" as never,
  values: ["upright", "set", "narrow", "butterfly"],
}

const SETTINGS = {
  quantities: { "goalie.depth": 1.2, "goalie.stature": 1.88, "shooter.speed": 30, "play.pass_speed": 20 },
  choices: { "goalie.stance": "set", "goalie.hands": "projected" },
  origins: [],
} as unknown as Settings

/** What an invented run is made of; everything else follows. */
export interface Invented {
  readonly name: string
  readonly question: string
  readonly sweep: readonly Swept[]
  readonly cases: readonly string[]
  /** Save rate of a case at its swept values, before noise. */
  readonly rate: (theCase: number, swept: readonly (number | string)[]) => number
  readonly baseline?: readonly (number | string)[]
  readonly baselinePerCase?: boolean
  /** Every point is compared with the same values in the first case. */
  readonly baselineCase?: boolean
  readonly measures?: readonly string[]
  readonly charts: Experiment["charts"]
  readonly half?: number
}

function product(sweep: readonly Swept[]): (number | string)[][] {
  return sweep.reduce<(number | string)[][]>(
    (rows, swept) => rows.flatMap((row) => swept.values.map((value) => [...row, value])),
    [[]],
  )
}

function inventedPoint(what: Invented, point: DesignPoint, rate: number, base: number, noise: number): PointResult {
  const half = what.half ?? 0.003
  const value = rate + noise * half
  const depth = typeof point.swept[0] === "number" ? point.swept[0] : 1
  const covered = 0.45 + 0.13 * depth
  const shares = REGIONS.map((region, at) => [`saves_by_${region.replaceAll(" ", "_")}`, 0.2 - at * 0.022] as const)
  return {
    index: point.index,
    case: point.case,
    spot: "all",
    swept: point.swept,
    shots: 40_000,
    estimates: {
      save_rate: estimate(value, half),
      goal_rate: estimate((1 - value) * 0.7, half * 0.7),
      on_goal_rate: estimate(0.7, 0.004),
      miss_rate: estimate(0.27, 0.004),
      iron_rate: estimate(0.03, 0.001),
      position_rate: estimate(value - 0.22 + 0.05 * depth, half),
      reach_rate: estimate(0.22 - 0.05 * depth, half),
      ...Object.fromEntries(shares.map(([key, share]) => [key, estimate(share, 0.004)])),
    },
    exact: { net_covered: covered, box_area_m2: 2.23 * (1 - covered), clear_circle_m: 0.5 - 0.1 * depth },
    differences: { save_rate: estimate(rate - base, half * 0.35) },
    assumptions: {
      save_rate: { low: value - 0.021, high: value + 0.017, sets: 64 },
      save_rate_vs_baseline: assumedDifference(rate - base),
    },
    remarks: depth > 2.3 ? ["Depth 2.4 m was not possible at 30 deg, 2.1 m was taken"] : [],
  }
}

function assumedDifference(difference: number): AssumptionRange {
  const ends = [difference * 0.4, difference * 1.5].toSorted((a, b) => a - b)
  return { low: ends[0]! - 0.002, high: ends[1]! + 0.002, sets: 64 }
}

/** Best, plateau and cost of a miss of one invented curve, read off its own points. */
function inventedCurve(theCase: string, swept: Swept, rates: readonly number[]): CurveFinding {
  const values = swept.values as readonly number[]
  const top = rates.indexOf(Math.max(...rates))
  const near = values.filter((_, at) => rates[at]! > rates[top]! - 0.005)
  const step = values[1]! - values[0]!
  const width = near.at(-1)! - near[0]!
  return {
    case: theCase,
    spot: "all",
    key: swept.key,
    best: { ...estimate(values[top]!, step / 2), method: "bootstrap over replicates" },
    bestAssumptions: {
      low: Math.max(values[0]!, values[top]! - 0.4),
      high: Math.min(values.at(-1)!, values[top]! + 0.4),
      sets: 64,
    },
    probabilityBest: values.map((_, at) => (at === top ? 0.8 : Math.abs(at - top) === 1 ? 0.1 : 0)),
    plateau: { from: near[0]!, to: near.at(-1)!, width: estimate(width, 0.1) },
    missed: [-0.2, 0.2].map((by) => ({ by, change: estimate(-0.004 - (by > 0 ? 0.001 : 0), 0.0008) })),
  }
}

/** An invented run: same description, same results. */
export function inventedResults(what: Invented): RunResults {
  const random = seeded(20)
  const combinations = product(what.sweep)
  const cases = what.cases.length === 0 ? [""] : what.cases
  const points: DesignPoint[] = cases.flatMap((name, at) =>
    combinations.map((swept, index) => ({
      index: at * combinations.length + index,
      case: name,
      swept,
      settings: SETTINGS,
    })),
  )
  const baseAt = Math.max(
    0,
    combinations.findIndex((row) => JSON.stringify(row) === JSON.stringify(what.baseline)),
  )
  const rates = points.map((point) => what.rate(cases.indexOf(point.case), point.swept))
  const baselineOf = points.map((point) =>
    what.baselineCase
      ? point.index % combinations.length
      : (what.baselinePerCase ? cases.indexOf(point.case) * combinations.length : 0) + baseAt,
  )
  const curves =
    what.sweep.length === 1 && isDecision(what.sweep[0]!.key)
      ? cases.map((name) =>
          inventedCurve(
            name,
            what.sweep[0]!,
            rates.filter((_, at) => points[at]!.case === name),
          ),
        )
      : []
  return {
    experiment: experimentOf(what, points, baseAt, baselineOf),
    version: "0.1.0",
    points: points.map((point, at) =>
      inventedPoint(what, point, rates[at]!, rates[baselineOf[at]!]!, (random() - 0.5) * 0.6),
    ),
    curves,
    warnings: [],
    puckEye: [],
    reachMaps: [],
    goalMaps: [],
    breakdowns: [
      {
        title: "Saves by part of the body",
        rows: REGIONS.map((name, at) => ({ name, share: estimate(0.2 - at * 0.022, 0.004) })),
      },
    ],
    shots: 40_000,
    replicates: 20,
    confidence: 0.95,
    stoppedBy: "shots",
  }
}

function experimentOf(
  what: Invented,
  points: readonly DesignPoint[],
  baseline: number,
  baselineOf: readonly number[],
): Experiment {
  return {
    name: what.name,
    question: what.question,
    why: "Further out covers more of the net and leaves less time to move across it.",
    goalieName: "Tall, 1.88 m",
    sweep: what.sweep,
    cases: what.cases,
    points,
    baseline,
    baselineOf,
    measures: what.measures ?? ["save_rate", "net_covered"],
    shots: 40_000,
    halfWidth: null,
    seed: "Northlake",
    charts: what.charts,
    shared: SETTINGS,
    setByFile: ["goalie.stature"],
  }
}

const hill = (x: number, top: number, best: number, bend: number): number => top - bend * (x - best) ** 2

/** One swept depth against four distances, each compared with its own 1.2 m, with every picture. */
export function depthByDistance(): RunResults {
  const tops = [0.815, 0.882, 0.927, 0.951]
  const bests = [1.0, 1.4, 1.6, 1.4]
  const results = inventedResults({
    name: "depth-straight-shots",
    question:
      "How far out should Tall stand against clear wrist shots from straight in front, from tight in to the blue line?",
    sweep: [DEPTH],
    cases: ["4 m, tight in", "7 m, slot", "11 m, high slot", "18 m, blue line"],
    rate: (theCase, [depth]) =>
      hill(Number(depth), tops[theCase]!, bests[theCase]!, [0.035, 0.028, 0.02, 0.006][theCase]!),
    baseline: [1.2],
    baselinePerCase: true,
    charts: ["curve", "puck's eye", "reach map", "goal map"],
  })
  return {
    ...results,
    puckEye: inventedPanels(4),
    reachMaps: inventedReachMaps(2),
    goalMaps: [inventedGoalMap(estimate)],
    crossings: [{ cases: ["7 m, slot", "11 m, high slot"], key: "goalie.depth", at: null, assumptions: null }],
  }
}

/** One swept depth, no cases, one curve. */
export function depthAlone(rate: (depth: number) => number = (depth) => hill(depth, 0.915, 1.4, 0.022)): RunResults {
  return inventedResults({
    name: "depth",
    question: "How far out should Quick stand against a clear shot from the slot?",
    sweep: [DEPTH],
    cases: [],
    rate: (_, [depth]) => rate(Number(depth)),
    baseline: [0],
    charts: ["curve"],
  })
}

/** Depth by the speed of the pass. */
export function depthByPassSpeed(): RunResults {
  return inventedResults({
    name: "depth-by-pass-speed",
    question: "How deep should Quick play a cross-ice one-timer when the passes get faster?",
    sweep: [DEPTH, PASS_SPEED],
    cases: [],
    rate: (_, [depth, speed]) => {
      const fast = (Number(speed) * 3.6 - 50) / 40
      return hill(Number(depth), 0.9 - 0.12 * fast, 1.5 - 1.0 * fast, 0.03 + 0.02 * fast)
    },
    baseline: [1.2, 50 / 3.6],
    charts: ["heat map", "curve"],
  })
}

/** A swept choice in two cases. */
export function stanceByCase(): RunResults {
  return inventedResults({
    name: "stance",
    question: "Which stance saves most against a shot from the slot and from a sharp angle?",
    sweep: [STANCE],
    cases: ["slot", "sharp angle"],
    rate: (theCase, [stance]) =>
      0.9 - 0.06 * theCase + { upright: -0.02, set: 0.012, narrow: -0.005, butterfly: 0.009 }[String(stance)]!,
    baseline: ["set"],
    baselinePerCase: true,
    charts: ["bars"],
  })
}

/** Two ways to hold the hands, each at three distances, compared with the first at the same distance. */
export function handsByDistance(
  gain: (distance: number) => number = (distance) => (distance - 15) / 100,
  measures?: readonly string[],
): RunResults {
  return inventedResults({
    name: "hands",
    question: "Should Quick hold the hands beside the hips or tucked in front of them?",
    sweep: [DISTANCE],
    cases: ["hands beside", "hands tucked"],
    rate: (theCase, [distance]) => 0.8 + 0.01 * Number(distance) + theCase * gain(Number(distance)),
    baselineCase: true,
    charts: ["curve"],
    ...(measures === undefined ? {} : { measures }),
  })
}

/** Depth from two distances, about the net the puck sees. */
export function boxByDepth(): RunResults {
  const depth = { ...DEPTH, values: [0, 0.5, 1, 1.5] } as Swept
  return inventedResults({
    name: "box",
    question: "How much net does the puck see at each depth?",
    sweep: [depth, { ...DISTANCE, values: [8, 15] } as Swept],
    cases: [],
    rate: (_, [out]) => hill(Number(out), 0.9, 1, 0.03),
    baseline: [0.5, 8],
    charts: ["curve"],
    measures: ["net_covered", "box_area_m2", "save_rate"],
  })
}
