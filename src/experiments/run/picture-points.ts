import { axisOf, casesAreAlternatives, isDecision, isGoalies } from "../decision.ts"
import type { DesignPoint, Experiment } from "../experiment.ts"
import { namedValue, plain } from "../report/words.ts"
import { depthOf } from "./groups.ts"

/** Most alternatives shown side by side where each is drawn at several values of the axis. */
const BESIDE = 3

/**
 * Design points that tell the run in few pictures, the circumstances as in the baseline: every alternative (case,
 * choice, trait) once, or where the goalie's place is swept, the first, the last, the baseline and others well between
 * for each. A run that changes nothing but circumstances is shown along them.
 */
export function picturePoints(experiment: Experiment, most: number): number[] {
  const base = experiment.points[experiment.baseline]!
  const axis = axisOf(experiment.sweep)
  const decides = axis >= 0 && isDecision(experiment.sweep[axis]!.key)
  const frees = (at: number): boolean => isGoalies(experiment.sweep[at]!.key)
  const holdsCase = experiment.cases.length > 1 && decides && !casesAreAlternatives(experiment)
  const alike = experiment.points.filter(
    (point) =>
      (!holdsCase || point.case === base.case) &&
      point.swept.every((value, at) => frees(at) || value === base.swept[at]),
  )
  if (alike.length < 2) return along(experiment.points, base, axis, most)
  if (!decides) return along(alike, base, -1, most)
  const groups = groupsOf(alike, axis)
  const chosen = groups.length <= BESIDE ? groups : [groups[0]!, groups.at(-1)!]
  const each = Math.max(1, Math.floor(most / chosen.length))
  const indices = chosen.flatMap((group) => along(group, base, axis, each))
  const place = (index: number): number => Number(experiment.points[index]!.swept[axis])
  // two alternatives: a row for each place, a column for each of the two
  return chosen.length === 2 ? indices.toSorted((a, b) => place(a) - place(b) || a - b) : indices
}

function groupsOf(points: readonly DesignPoint[], axis: number): DesignPoint[][] {
  const groups = new Map<string, DesignPoint[]>()
  for (const point of points) {
    const id = JSON.stringify([point.case, point.swept.filter((_, at) => at !== axis)])
    groups.set(id, [...(groups.get(id) ?? []), point])
  }
  return [...groups.values()]
}

/** The first, the last, the baseline's value, then again and again the point farthest from all chosen. */
function along(points: readonly DesignPoint[], base: DesignPoint, axis: number, most: number): number[] {
  const isNumeric = axis >= 0 && points.every((point) => typeof point.swept[axis] === "number")
  const places = points.map((point, at) => (isNumeric ? Number(point.swept[axis]) : at))
  const same = points.findIndex((point) =>
    isNumeric ? point.swept[axis] === base.swept[axis] : point.index === base.index,
  )
  const chosen: number[] = []
  const take = (at: number): void => {
    if (at >= 0 && chosen.length < most && !chosen.includes(at)) chosen.push(at)
  }
  for (const at of [same, 0, points.length - 1]) take(at)
  while (chosen.length < Math.min(most, points.length)) {
    const gap = (at: number): number => Math.min(...chosen.map((other) => Math.abs(places[at]! - places[other]!)))
    const rest = places.map((_, at) => at).filter((at) => !chosen.includes(at))
    take(rest.reduce((best, at) => (gap(at) > gap(best) + 1e-9 ? at : best)))
  }
  return chosen.toSorted((a, b) => a - b).map((at) => points[at]!.index)
}

/** What the goalie does at a point, for the title of its picture: depth, stance, case; never where the puck is. */
export function poseText(experiment: Experiment, index: number): string {
  const point = experiment.points[index]!
  const values = experiment.sweep.flatMap((swept, at) =>
    swept.key === "play.distance" || swept.key === "play.angle" ? [] : [namedValue(swept, point.swept[at]!)],
  )
  const named = [point.case, ...values].filter((part) => part !== "")
  if (named.length > 0) return named.join(", ")
  if (point.settings.choices["play.goalie"] === "none") return "no goalie"
  return `depth ${plain(depthOf(point), 2)} m, ${point.settings.choices["goalie.stance"]} stance`
}

/** Where the puck is at a point: "puck 5.0 m out, straight ahead", or the name of the place. */
export function puckText({ settings }: DesignPoint): string {
  const label = settings.origins[0]?.label
  if (label !== undefined)
    return settings.origins.length > 1 ? `puck in the ${label}, of several places` : `puck in the ${label}`
  const degrees = (settings.quantities["play.angle"] * 180) / Math.PI
  const side =
    Math.abs(degrees) < 0.5
      ? "straight ahead"
      : `${Math.abs(degrees).toFixed(0)}° to the goalie's ${degrees > 0 ? "left" : "right"}`
  return `puck ${settings.quantities["play.distance"].toFixed(1)} m out, ${side}`
}
