import { worldOf } from "../../models/plays/world.ts"
import { mouthOf } from "../../models/positioning/box.ts"
import { ZONES } from "../../sim/box/openings.ts"
import { REGIONS } from "../../sim/parts.ts"
import { ratioOverReplicates } from "../../sim/statistics/ratio.ts"
import * as T from "../../sim/tally.ts"
import type { Experiment } from "../experiment.ts"
import { pointText } from "../report/words.ts"
import type { GoalMapPicture, RunResults } from "../results.ts"
import { ALL_SPOTS, columnOf, less } from "./columns.ts"
import { CONFIDENCE } from "./intervals.ts"
import { picturePoints, poseText, puckText } from "./picture-points.ts"
import type { PointTallies } from "./point-tallies.ts"

/** Most goal maps drawn for one run. */
const MOST_MAPS = 4

/** Where goals went in, at the points that tell the run in few pictures. */
export function goalMapsOf(experiment: Experiment, sums: readonly PointTallies[]): GoalMapPicture[] {
  if (!experiment.charts.includes("goal map")) return []
  return picturePoints(experiment, MOST_MAPS).map((index) => goalMap(experiment, sums[index]!, index))
}

function goalMap(experiment: Experiment, { tallies, pose, shots }: PointTallies, index: number): GoalMapPicture {
  const { settings } = experiment.points[index]!
  const { width, height } = mouthOf(worldOf(settings))
  const middle = settings.quantities["shooter.zone_middle_width"]
  const low = settings.quantities["shooter.zone_low_height"]
  const cells = new Float64Array(T.MAP_CELLS)
  for (const tally of tallies)
    for (let c = 0; c < T.MAP_CELLS; c++) cells[c] = cells[c]! + tally.maps[pose * T.MAP_CELLS + c]!
  const goals = cells.reduce((a, b) => a + b, 0)
  const scored = less(columnOf(tallies, pose, ALL_SPOTS, T.ON_GOAL_SUM), columnOf(tallies, pose, ALL_SPOTS, T.SAVED))
  const side = settings.choices["goalie.catches"] === "left" ? 1 : -1
  return {
    title: poseText(experiment, index),
    subtitle:
      experiment.points[index]!.settings.origins.length > 1
        ? "shots from all places"
        : puckText(experiment.points[index]!),
    y: Array.from({ length: T.MAP_COLUMNS }, (_, i) => ((i + 0.5) / T.MAP_COLUMNS - 0.5) * width),
    z: Array.from({ length: T.MAP_ROWS }, (_, i) => ((i + 0.5) / T.MAP_ROWS) * height),
    share: Array.from({ length: T.MAP_ROWS }, (_, row) =>
      Array.from({ length: T.MAP_COLUMNS }, (_, c) => (goals > 0 ? cells[row * T.MAP_COLUMNS + c]! / goals : 0)),
    ),
    cell: width / T.MAP_COLUMNS,
    zones: ZONES.map((zone, i) => ({
      zone,
      share: ratioOverReplicates(columnOf(tallies, pose, ALL_SPOTS, T.BY_ZONE + i), scored, shots, CONFIDENCE),
      at: [
        (1 - (i % 3)) * side * 0.5 * (0.5 * width + 0.5 * middle),
        i < 3 ? 0.5 * low : 0.5 * (low + height),
      ] as const,
    })),
    parting: { height: low, middle: 0.5 * middle },
  }
}

/** Which part of the body made the saves of the baseline. */
export function breakdownsOf(experiment: Experiment, sums: readonly PointTallies[]): RunResults["breakdowns"] {
  const { tallies, pose, shots } = sums[experiment.baseline]!
  const saved = columnOf(tallies, pose, ALL_SPOTS, T.SAVED)
  if (!saved.some((value) => value > 0)) return []
  const rows = REGIONS.map((name, i) => ({
    name,
    share: ratioOverReplicates(columnOf(tallies, pose, ALL_SPOTS, T.BY_REGION + i), saved, shots, CONFIDENCE),
  }))
  return [{ title: `Saves by part of the body, ${pointText(experiment, experiment.baseline)}`, rows }]
}
