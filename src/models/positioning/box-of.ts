import { type Box, measureBox } from "../../sim/box/box.ts"
import { clearCircle } from "../../sim/box/clear-circle.ts"
import { silhouettes } from "../../sim/box/silhouette.ts"
import type { Metres, Probability, SquareMetres, Steradians } from "../../sim/units.ts"
import { buildPosture } from "../goalie/posture.ts"
import { originCells } from "../plays/origin-cells.ts"
import { worldOf } from "../plays/world.ts"
import type { Settings } from "../settings.ts"
import { mouthOf, puckAt, standFor } from "./sight-of.ts"

/** The box of a goalie in place, averaged over the places of the play by their weights. */
export interface BoxOfPlay {
  readonly netCovered: Probability
  readonly boxArea: SquareMetres
  readonly areaAtGoalie: SquareMetres
  readonly solidAngle: Steradians
  readonly puckArea: SquareMetres
  /** Diameter. */
  readonly clearCircle: Metres
  readonly depthTaken: Metres
}

/** Rows of the mouth for a play's mean: closer ones change nothing that is printed. */
const ROWS: Metres = 0.02

/** Measures the box with the goalie of the settings in place and no errors of position. */
export function boxOfPlay(settings: Settings): BoxOfPlay {
  const world = worldOf(settings)
  const mouth = mouthOf(world)
  const posture = buildPosture(settings)
  const { cells } = originCells(settings)
  const mean = { netCovered: 0, boxArea: 0, areaAtGoalie: 0, solidAngle: 0, puckArea: 0, clearCircle: 0, depthTaken: 0 }
  for (const cell of cells) {
    const sight = puckAt(world, cell.x, cell.y, settings.quantities["shooter.release_height"])
    const goalie = standFor(settings, posture, world, cell.x, cell.y)
    const box: Box = measureBox(goalie.body, sight, mouth, goalie.gx, goalie.gy, ROWS)
    const circle = clearCircle(silhouettes(sight, goalie.body.parts, goalie.body.count), mouth)
    mean.netCovered += cell.weight * box.netCovered
    mean.boxArea += cell.weight * box.openArea
    mean.areaAtGoalie += cell.weight * box.openAreaAtGoalie
    mean.solidAngle += cell.weight * box.openSolidAngle
    mean.puckArea += cell.weight * box.puckArea
    mean.clearCircle += cell.weight * 2 * circle.radius
    mean.depthTaken += cell.weight * goalie.depth
  }
  return mean
}
