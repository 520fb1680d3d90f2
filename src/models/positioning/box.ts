import { type Box, measureBox, openToPuck, type SeenBox, seenBox } from "../../sim/box/box.ts"
import { type ClearCircle, clearCircle } from "../../sim/box/clear-circle.ts"
import { clearOpenings, type ZoneCuts } from "../../sim/box/openings.ts"
import { type PlacedBody, placeBody } from "../../sim/box/placed.ts"
import { type Mouth, puckFrom, type Sight } from "../../sim/box/sight.ts"
import { silhouettes } from "../../sim/box/silhouette.ts"
import { closePlace, type Standing } from "../../sim/box/travel.ts"
import { type Posture, REGIONS, type Region } from "../../sim/parts.ts"
import type { Metres } from "../../sim/units.ts"
import {
  BAR_RADIUS,
  MOUTH_HALF_WIDTH,
  MOUTH_HEIGHT,
  POST_RADIUS,
  PUCK_HALF_THICKNESS,
  PUCK_RADIUS,
} from "../../sim/world.ts"
import type { Settings } from "../settings.ts"

/** What the puck sees of one goalie in one pose. */
export interface PuckView {
  readonly posture: Posture
  readonly standing: Standing
  readonly body: PlacedBody
  readonly puck: Sight
  readonly mouth: Mouth
}

/** The measures of geometry by the names that results use. */
export interface BoxMeasures {
  readonly net_covered: number
  readonly box_area_m2: number
  readonly solid_angle_sr: number
  /** Open to the middle of a whole puck. */
  readonly puck_area_m2: number
  /** Diameter. */
  readonly clear_circle_m: number
}

/** One opening of the mouth that a puck fits through, and the limb that closes its middle soonest. */
export interface BoxOpening {
  readonly zone: string
  readonly y: Metres
  readonly z: Metres
  readonly area: number
  readonly limb: string
  readonly travel: Metres
}

/** Everything a picture of the mouth as the puck sees it is drawn from; plain data. */
export interface BoxPicture {
  readonly mouthWidth: Metres
  readonly mouthHeight: Metres
  readonly iron: Metres
  readonly outlines: readonly {
    readonly region: Region
    readonly part: string
    readonly points: readonly (readonly [Metres, Metres])[]
  }[]
  readonly openings: readonly BoxOpening[]
  readonly clearCircle: ClearCircle
  readonly netCovered: number
  readonly boxArea: number
}

/** The mouth of a world. */
export function mouthOf(world: Float64Array): Mouth {
  return {
    width: 2 * world[MOUTH_HALF_WIDTH]!,
    height: world[MOUTH_HEIGHT]!,
    postRadius: world[POST_RADIUS]!,
    barRadius: world[BAR_RADIUS]!,
  }
}

/** The view of a puck with its centre at (px, py, pz), by default flat on the ice, of a posture standing there. */
export function puckView(
  posture: Posture,
  standing: Standing,
  world: Float64Array,
  px: Metres,
  py: Metres,
  pz: Metres = world[PUCK_HALF_THICKNESS]!,
): PuckView {
  return {
    posture,
    standing,
    body: placeBody(posture, standing.phase, standing.gx, standing.gy, standing.heading),
    puck: puckFrom(px, py, pz, world[PUCK_RADIUS]!, world[PUCK_HALF_THICKNESS]!),
    mouth: mouthOf(world),
  }
}

/** Zones of the mouth: the same heights and widths that shooters pick zones by, glove side by the catching hand. */
export function zoneCuts(settings: Settings): ZoneCuts {
  return {
    lowHeight: settings.quantities["shooter.zone_low_height"],
    middleWidth: settings.quantities["shooter.zone_middle_width"],
    gloveSide: settings.choices["goalie.catches"] === "right" ? -1 : 1,
  }
}

/** All measures of the box of a view. */
export function viewBox(view: PuckView): Box {
  return measureBox(view.body, view.puck, view.mouth, view.standing.gx, view.standing.gy)
}

/** Those that the middle of the puck sees, without what a whole puck passes. */
export function viewSeen(view: PuckView): SeenBox {
  return seenBox(view.body, view.puck, view.mouth, view.standing.gx, view.standing.gy)
}

/** The box by the names that results use. */
export function boxMeasures(view: PuckView): BoxMeasures {
  const box = viewSeen(view)
  const outlines = silhouettes(view.puck, view.body.parts, view.body.count)
  return {
    net_covered: box.netCovered,
    box_area_m2: box.openArea,
    solid_angle_sr: box.openSolidAngle,
    puck_area_m2: openToPuck(view.body, view.puck, view.mouth),
    clear_circle_m: 2 * clearCircle(outlines, view.mouth).radius,
  }
}

/** Openings of a view that a puck fits through, largest first, each with what closes its middle soonest. */
export function boxOpenings(view: PuckView, cuts: ZoneCuts): BoxOpening[] {
  return clearOpenings(view.body, view.puck, view.mouth, cuts).map((opening) => {
    const { limb, travel } = closePlace(view.posture, view.body, view.standing, view.puck, opening.y, opening.z)
    return { ...opening, limb, travel }
  })
}

/** What a picture of the view is drawn from. `partNames` names the rows of the posture's parts; else the region does. */
export function boxPicture(view: PuckView, cuts: ZoneCuts, partNames: readonly string[] = []): BoxPicture {
  const box = viewSeen(view)
  const outlines = silhouettes(view.puck, view.body.parts, view.body.count)
  return {
    mouthWidth: view.mouth.width,
    mouthHeight: view.mouth.height,
    iron: view.mouth.postRadius,
    outlines: outlines.map(({ part, points }) => {
      const region = REGIONS[view.body.region[part]!]!
      return { region, part: partNames[part] ?? region, points: pairs(points) }
    }),
    openings: boxOpenings(view, cuts),
    clearCircle: clearCircle(outlines, view.mouth),
    netCovered: box.netCovered,
    boxArea: box.openArea,
  }
}

function pairs(points: Float64Array): [Metres, Metres][] {
  return Array.from({ length: points.length / 2 }, (_, i) => [points[2 * i]!, points[2 * i + 1]!])
}
