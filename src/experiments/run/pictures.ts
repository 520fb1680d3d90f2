import { puckEyeOf } from "../../models/positioning/box-of.ts"
import { reachOf } from "../../models/positioning/reach-of.ts"
import type { MouthGrid } from "../../sim/mouth-grid.ts"
import type { Experiment } from "../experiment.ts"
import type { AnglePicture, PlanPicture, PuckEyePanel, ReachMapPicture } from "../results.ts"
import { anglePicturesOf } from "./angle-pictures.ts"
import { picturePoints, poseText, puckText } from "./picture-points.ts"
import { plansOf } from "./plan-pictures.ts"

/** Panels of the puck's-eye picture, and reach maps, drawn for one run at most. */
const MOST_PANELS = 6
const MOST_REACH_MAPS = 4
/** Places of the mouth at which milliseconds to spare are printed. */
const SPARE_COLUMNS = 7
const SPARE_ROWS = 4
/** Cells of a reach map. */
const REACH_COLUMNS = 44
const REACH_ROWS = 30

/** The pictures of geometry that the file asks for, of points spread over the run. */
export function picturesOf(experiment: Experiment): {
  puckEye: PuckEyePanel[]
  reachMaps: ReachMapPicture[]
  plans?: PlanPicture[]
  angles?: AnglePicture[]
} {
  const wants = (kind: string) => (experiment.charts as readonly string[]).includes(kind)
  return {
    puckEye: wants("puck's eye")
      ? picturePoints(experiment, MOST_PANELS).map((index) => panelOf(experiment, index))
      : [],
    reachMaps: wants("reach map")
      ? picturePoints(experiment, MOST_REACH_MAPS).map((index) => mapOf(experiment, index))
      : [],
    ...(wants("angle error") ? { angles: anglePicturesOf(experiment) } : {}),
    ...(wants("plan view") ? { plans: plansOf(experiment) } : {}),
  }
}

function panelOf(experiment: Experiment, index: number): PuckEyePanel {
  const { settings } = experiment.points[index]!
  const seen = puckEyeOf(settings)
  const empty = settings.choices["play.goalie"] === "none"
  const reach = empty ? null : reachOf(settings, SPARE_COLUMNS, SPARE_ROWS, false)
  return {
    title: poseText(experiment, index),
    subtitle: puckText(experiment.points[index]!),
    ...seen,
    spare:
      reach === null
        ? []
        : cellsOf(reach.grid, (cell, y, z) => ({ y, z, milliseconds: asMilliseconds(reach.spare[cell]!) })).filter(
            (_, cell) => reach.clear[cell] === 1,
          ),
  }
}

function mapOf(experiment: Experiment, index: number): ReachMapPicture {
  const { settings } = experiment.points[index]!
  const { grid, shot, clear, spare, probability } = reachOf(settings, REACH_COLUMNS, REACH_ROWS, true)
  const rows = <Value>(value: (cell: number) => Value): Value[][] =>
    Array.from({ length: grid.rows }, (_, row) =>
      Array.from({ length: grid.columns }, (_, column) => value(row * grid.columns + column)),
    )
  return {
    title: poseText(experiment, index),
    subtitle: `shot at ${(shot.speed * 3.6).toFixed(0)} km/h, ${puckText(experiment.points[index]!)}`,
    y: Array.from(grid.y.subarray(1), (edge, i) => 0.5 * (edge + grid.y[i]!)),
    z: Array.from(grid.z.subarray(1), (edge, i) => 0.5 * (edge + grid.z[i]!)),
    milliseconds: rows((cell) => (spare[cell] === Infinity ? Infinity : asMilliseconds(spare[cell]!))),
    probability: rows((cell) => probability[cell]!),
    clear: rows((cell) => clear[cell] === 1),
    cell: grid.y[1]! - grid.y[0]!,
  }
}

/** Seconds to spare in whole milliseconds; null where no reaction saves, Infinity where the stance covers. */
function asMilliseconds(seconds: number): number | null {
  return seconds === -Infinity ? null : seconds === Infinity ? Infinity : Math.round(seconds * 1000)
}

function cellsOf<Value>(grid: MouthGrid, value: (cell: number, y: number, z: number) => Value): Value[] {
  return Array.from({ length: grid.columns * grid.rows }, (_, cell) => {
    const column = cell % grid.columns
    const row = (cell - column) / grid.columns
    return value(cell, 0.5 * (grid.y[column]! + grid.y[column + 1]!), 0.5 * (grid.z[row]! + grid.z[row + 1]!))
  })
}
