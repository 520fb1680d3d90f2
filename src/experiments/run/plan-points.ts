import type { DesignPoint, Experiment } from "../experiment.ts"
import { picturePoints } from "./picture-points.ts"

/** Design points shown at most: of one kind of play and technique, and where there are several. */
const MOST_ALIKE = 3
const MOST_KINDS = 4

/**
 * Design points whose plays are shown from above: first the baseline, then those that add most cases and swept choices
 * that are not shown yet, each with its quantities as in the baseline; what room is left goes to other places of the sweep.
 */
export function planPoints(experiment: Experiment): number[] {
  const kinds = kindsOf(experiment)
  const chosen: DesignPoint[] = []
  while (chosen.length < Math.min(MOST_KINDS, kinds.length)) {
    const seen = new Set(chosen.flatMap((point) => namesOf(experiment, point)))
    const news = (point: DesignPoint): number => namesOf(experiment, point).filter((name) => !seen.has(name)).length
    const rest = kinds.filter((point) => !chosen.includes(point))
    // the kind of the baseline stands first, and wins where all are new
    chosen.push(rest.reduce((best, point) => (news(point) > news(best) ? point : best)))
  }
  const indices = kinds.length < 2 ? [] : chosen.map(({ index }) => index)
  const others = picturePoints(experiment, MOST_ALIKE).filter((index) => !indices.includes(index))
  return [...indices, ...others.slice(0, Math.max(0, MOST_ALIKE - indices.length))].toSorted((a, b) => a - b)
}

/** One point for each case and set of swept choices, that of the baseline first. */
function kindsOf(experiment: Experiment): DesignPoint[] {
  const base = experiment.points[experiment.baseline]!
  const groups = new Map<string, DesignPoint[]>()
  for (const point of [base, ...experiment.points]) {
    const id = namesOf(experiment, point).join()
    groups.set(id, [...(groups.get(id) ?? []), point])
  }
  const isNear = (point: DesignPoint): boolean =>
    point.swept.every((value, at) => experiment.sweep[at]!.kind === "choice" || value === base.swept[at])
  return [...groups.values()].map((group) => group.find(isNear) ?? group[Math.floor(group.length / 2)]!)
}

/** What a point shows beside its quantities. */
function namesOf({ sweep }: Experiment, point: DesignPoint): string[] {
  const choices = sweep.flatMap(({ kind }, at) => (kind === "choice" ? [`${at} ${point.swept[at]}`] : []))
  return [`case ${point.case}`, ...choices]
}
