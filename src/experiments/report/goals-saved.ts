import { axisOf, casesAreAlternatives, isDecision, isGoalies } from "../decision.ts"
import type { Experiment } from "../experiment.ts"
import { GOALS_SAVED, PER_ATTEMPTS } from "../measures.ts"
import type { PointResult, RunResults } from "../results.ts"
import { comparedWith, namedValue, valueText, whereText } from "./words.ts"

/** Most points that one picture or list holds. */
const MOST_ROWS = 24

/** One point against its baseline. */
export interface SavedRow {
  readonly label: string
  readonly point: PointResult
  readonly base: PointResult
}

/** Points that share a circumstance, or, where there is but one alternative, that alternative; "" where nothing is shared. */
export interface SavedGroup {
  readonly name: string
  readonly rows: readonly SavedRow[]
}

/** Goals saved at the points of a run, grouped for reading. */
export interface SavedGroups {
  readonly groups: readonly SavedGroup[]
  /** Whether the groups are alternatives, and the rows where each is met. */
  readonly isLone: boolean
  readonly shown: number
  /** All points that are not their own baseline. */
  readonly of: number
}

/**
 * Every point but the baselines, alternatives of one circumstance together. Of too many those at the baseline's place along
 * what the goalie decides, else some along the axis. Alternatives that are names are sorted, the one that saves most first;
 * quantities keep the order of the file.
 */
export function goalsSavedOf(results: RunResults): SavedGroups {
  const { experiment } = results
  const all = rowsOf(results)
  const chosen = chosenOf(experiment, all)
  const parts = chosen.map(({ point, base }) => partsOf(experiment, chosen, point, base))
  const alternatives = new Set(parts.map(({ alternative }) => alternative))
  // one alternative in several circumstances: those are the rows
  const isLone = alternatives.size === 1 && new Set(parts.map(({ where }) => where)).size > 1
  const groups = new Map<string, SavedRow[]>()
  chosen.forEach((row, i) => {
    const { alternative, where } = parts[i]!
    const [name, label] = isLone ? [alternative, where] : [where, alternative]
    groups.set(name, [...(groups.get(name) ?? []), { ...row, label }])
  })
  const ordered = isLone || !areNames(experiment, chosen) ? [...groups] : sorted(groups)
  return {
    groups: ordered.map(([name, rows]) => ({ name, rows })),
    isLone,
    shown: chosen.length,
    of: all.length,
  }
}

/** Goals in {@link PER_ATTEMPTS} attempts, those on the rebound included. */
export function goalsIn(point: PointResult): number {
  return PER_ATTEMPTS * (point.estimates.goal_rate?.mean ?? Number.NaN) + secondGoalsIn(point)
}

/** Those on the rebound alone; 0 where rebounds are not played. */
export function secondGoalsIn({ estimates }: PointResult): number {
  return PER_ATTEMPTS * (estimates.second_goal_rate?.mean ?? 0)
}

type Row = Omit<SavedRow, "label">

function rowsOf({ experiment, points }: RunResults): Row[] {
  return points.flatMap((point) => {
    const saved = point.estimates[GOALS_SAVED]
    const index = comparedWith(experiment, point.index)
    const base = points.find((one) => one.index === index && one.spot === point.spot)
    const isOwn = index === point.index || base === undefined
    return isOwn || point.spot !== "all" || saved === undefined || !Number.isFinite(saved.mean) ? [] : [{ point, base }]
  })
}

function chosenOf(experiment: Experiment, rows: readonly Row[]): readonly Row[] {
  if (rows.length <= MOST_ROWS) return rows
  const at = axisOf(experiment.sweep)
  const axis = experiment.sweep[at]
  if (axis === undefined) return rows.slice(0, MOST_ROWS)
  const beside = isDecision(axis.key) ? rows.filter(({ point, base }) => point.swept[at] === base.swept[at]) : []
  if (beside.length > 0 && beside.length <= MOST_ROWS) return beside
  // every line of the sweep at fewer places, both ends among them
  const places = [...new Set(rows.map(({ point }) => point.swept[at]))]
  for (let kept = places.length - 1; kept >= 2; kept--) {
    const some = new Set(
      Array.from({ length: kept }, (_, i) => places[Math.round((i * (places.length - 1)) / (kept - 1))]),
    )
    const fewer = rows.filter(({ point }) => some.has(point.swept[at]))
    if (fewer.length <= MOST_ROWS) return fewer
  }
  return rows.slice(0, MOST_ROWS)
}

/** What the goalie does otherwise at a point, and where: only what varies over the rows, or tells a point from its baseline. */
function partsOf(
  experiment: Experiment,
  rows: readonly Row[],
  point: PointResult,
  base: PointResult,
): { readonly alternative: string; readonly where: string } {
  const varies = (at: number): boolean =>
    rows.some((row) => row.point.swept[at] !== point.swept[at]) || point.swept[at] !== base.swept[at]
  const isCase = casesAreAlternatives(experiment)
  const alternative = isCase ? [point.case] : []
  const where = isCase || point.case === "" ? [] : [point.case]
  experiment.sweep.forEach((swept, at) => {
    if (!varies(at)) return
    const value = point.swept[at]!
    if (isGoalies(swept.key) || swept.key.startsWith("movement.") || point.swept[at] !== base.swept[at])
      alternative.push(swept.kind === "choice" ? valueText(swept, value) : namedValue(swept, value))
    else where.push(whereText(swept, value))
  })
  return { alternative: alternative.join(", "), where: where.join(", ") }
}

/** Whether the alternatives are names, which have no order of their own. */
function areNames({ sweep }: Experiment, rows: readonly Row[]): boolean {
  return rows.every(({ point, base }) =>
    sweep.every((swept, at) => swept.kind === "choice" || point.swept[at] === base.swept[at]),
  )
}

/** Alternatives in one order in every group: by what they save over all of them. */
function sorted(groups: ReadonlyMap<string, readonly SavedRow[]>): [string, readonly SavedRow[]][] {
  const total = new Map<string, number>()
  for (const { label, point } of [...groups.values()].flat())
    total.set(label, (total.get(label) ?? 0) + point.estimates[GOALS_SAVED]!.mean)
  return [...groups].map(([name, rows]) => [name, rows.toSorted((a, b) => total.get(b.label)! - total.get(a.label)!)])
}
