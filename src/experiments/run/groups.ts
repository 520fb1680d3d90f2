import { chosenDepth } from "../../models/positioning/pose-numbers.ts"
import type { Settings } from "../../models/settings.ts"
import type { DesignPoint } from "../experiment.ts"

/** Design points that see the same shots: they differ in the goalie or in how often each shot is met. They become the poses of one scene. */
export interface Group {
  /** Indices of the design points, in pose order. */
  readonly points: readonly number[]
  readonly settings: readonly Settings[]
}

/** Groups points by everything that is not the goalie, in the order in which each group is first met. */
export function groupPoints(points: readonly DesignPoint[]): Group[] {
  const groups = new Map<string, { points: number[]; settings: Settings[] }>()
  for (const point of points) {
    const key = shotKey(point.settings)
    let group = groups.get(key)
    if (group === undefined) {
      group = { points: [], settings: [] }
      groups.set(key, group)
    }
    group.points.push(point.index)
    group.settings.push(point.settings)
  }
  return [...groups.values()]
}

/** Equal for settings whose shots are equal before any goalie. */
function shotKey(settings: Settings): string {
  const parts: string[] = [JSON.stringify(settings.origins), JSON.stringify(settings.events)]
  for (const [key, value] of Object.entries(settings.quantities)) if (!ofPose(key)) parts.push(`${key}=${value}`)
  for (const [key, name] of Object.entries(settings.choices))
    if (!ofPose(key) && key !== "play.goalie") parts.push(`${key}=${name}`)
  return parts.join(";")
}

/** Keys that change how often each way of a play is met, and no shot: weights of the same shots. */
export const WEIGHTS_ALONE = ["play.pass_share", "shooter.choice_skill", "shooter.choice_temperature"] as const

/** Whether a key tells of the goalie, whom the shots do not depend on, or of how often each of them is met. */
function ofPose(key: string): boolean {
  if (WEIGHTS_ALONE.some((one) => one === key)) return true
  return key.startsWith("goalie.") || key.startsWith("movement.") || key.startsWith("reference.")
}

/** The depth a point's goalie stands at, m: as given, or as its level says. */
export function depthOf(point: DesignPoint): number {
  return chosenDepth(point.settings)
}
