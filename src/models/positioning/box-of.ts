import { emptyBody } from "../../sim/box/placed.ts"
import type { Metres } from "../../sim/units.ts"
import { PUCK_HALF_THICKNESS } from "../../sim/world.ts"
import { PARTS } from "../goalie/part-names.ts"
import { buildPosture } from "../goalie/posture.ts"
import { originCells } from "../plays/origin-cells.ts"
import { worldOf } from "../plays/world.ts"
import type { Settings } from "../settings.ts"
import { type BoxMeasures, type BoxPicture, boxMeasures, boxPicture, type PuckView, puckView, zoneCuts } from "./box.ts"
import { standFor } from "./stand-for.ts"

/** The box of a play, averaged over its places by their weights, and the depth taken there. */
export interface BoxOfPlay extends BoxMeasures {
  readonly depth_taken_m: Metres
}

/** Measures the box with the goalie of the settings in place and no errors of position. */
export function boxOfPlay(settings: Settings): BoxOfPlay {
  const mean = {
    net_covered: 0,
    box_area_m2: 0,
    solid_angle_sr: 0,
    puck_area_m2: 0,
    clear_circle_m: 0,
    depth_taken_m: 0,
  }
  for (const { weight, view, depth } of viewsOf(settings)) {
    const box = boxMeasures(view)
    mean.net_covered += weight * box.net_covered
    mean.box_area_m2 += weight * box.box_area_m2
    mean.solid_angle_sr += weight * box.solid_angle_sr
    mean.puck_area_m2 += weight * box.puck_area_m2
    mean.clear_circle_m += weight * box.clear_circle_m
    mean.depth_taken_m += weight * depth
  }
  return mean
}

/** What the puck sees from the first place of the play. */
export function puckEyeOf(settings: Settings): BoxPicture {
  return boxPicture(viewsOf(settings)[0]!.view, zoneCuts(settings), PARTS)
}

/** The view from every place of the play. */
function viewsOf(settings: Settings): { weight: number; view: PuckView; depth: Metres }[] {
  const world = worldOf(settings)
  const posture = buildPosture(settings)
  const height = Math.max(settings.quantities["shooter.release_height"], world[PUCK_HALF_THICKNESS]!)
  return originCells(settings).cells.map(({ weight, x, y }) => {
    const standing = standFor(settings, posture, world, x, y)
    const view = puckView(posture, standing, world, x, y, height)
    const body = settings.choices["play.goalie"] === "none" ? emptyBody() : view.body
    return { weight, view: { ...view, body }, depth: standing.depth }
  })
}
