import type { Metres, Probability, SquareMetres, Steradians } from "../units.ts"
import { betweenPosts, clearTop, IRON_COUNT, withIron } from "./iron-parts.ts"
import { emptyBody, type PlacedBody } from "./placed.ts"
import { boxRows, ROW_SPACING } from "./rows.ts"
import { coverRow } from "./shadow.ts"
import { lightFrom, type Mouth, type Sight } from "./sight.ts"

/** The box: the part of the mouth that the body leaves open, as the middle of the puck sees it. */
export interface SeenBox {
  /** Share of the mouth hidden from the puck's centre by the body. */
  readonly netCovered: Probability
  /** Area of the goal plane between posts, bar and ice that the puck's centre sees. */
  readonly openArea: SquareMetres
  /** Solid angle of that area from the puck. */
  readonly openSolidAngle: Steradians
  /**
   * The same opening measured where the goalie is: its area on the upright plane through the skates' midpoint, square
   * to the line from the puck to the middle of the goal line. Straight on: openArea (1 - depth/distance)².
   * Infinity when that plane runs along a line from the puck to the mouth.
   */
  readonly openAreaAtGoalie: SquareMetres
  /** Rows integrated over for the open area. */
  readonly rows: number
}

/** The same and what of it a whole puck passes. */
export interface Box extends SeenBox {
  /** Area of the goal plane where the middle of the puck can cross touching neither body, iron nor ice. */
  readonly puckArea: SquareMetres
  /** Share of what an empty net would let the puck through that the body closes. */
  readonly puckCovered: Probability
}

/** Ends of covered stretches in the integrals, m. */
const END_TOLERANCE = 1e-10

/** The level plane of measurement at the goalie: direction from the puck, and how far. */
interface GoaliePlane {
  readonly ax: number
  readonly ay: number
  readonly distance: Metres
}

/**
 * Measures the box of a body for the puck of `puck` (its centre, with the disc's size), the skates' midpoint at
 * (gx, gy). `spacing` sets the rows: at the default the open area is within 1e-4 of the mouth.
 */
export function measureBox(
  body: PlacedBody,
  puck: Sight,
  mouth: Mouth,
  gx: Metres,
  gy: Metres,
  spacing: Metres = ROW_SPACING,
): Box {
  const passes = openToPuck(body, puck, mouth, spacing)
  const empty = openToPuck(emptyBody(), puck, mouth, spacing)
  return {
    ...seenBox(body, puck, mouth, gx, gy, spacing),
    puckArea: passes,
    puckCovered: empty > 0 ? 1 - passes / empty : 1,
  }
}

/** The box as the middle of the puck sees it, measured as {@link measureBox} does. */
export function seenBox(
  body: PlacedBody,
  puck: Sight,
  mouth: Mouth,
  gx: Metres,
  gy: Metres,
  spacing: Metres = ROW_SPACING,
): SeenBox {
  const light = lightFrom(puck.px, puck.py, puck.pz)
  const open = openOf(body, light, mouth, goaliePlane(puck, gx, gy), spacing)
  return {
    netCovered: 1 - open.area / (mouth.width * mouth.height),
    openArea: open.area,
    openSolidAngle: open.solidAngle,
    openAreaAtGoalie: open.atGoalie,
    rows: open.rows,
  }
}

/** Area in which the middle of the puck can cross the goal plane past body and iron. */
export function openToPuck(body: PlacedBody, puck: Sight, mouth: Mouth, spacing: Metres = ROW_SPACING): SquareMetres {
  const top = clearTop(puck, mouth)
  if (top <= puck.discHalf) return 0
  const all = withIron(body.parts, mouth)
  const rows = boxRows(puck, all, body.count + IRON_COUNT, puck.discHalf, top, spacing)
  const half = 0.5 * mouth.width
  // between the posts and under the bar only the body is in the way
  const between = betweenPosts(puck, mouth)
  const [low, high] = between ?? [-half, half]
  const count = body.count + (between === null ? IRON_COUNT : 0)
  const covered = new Float64Array(2 * (count + 1))
  let area = 0
  for (let row = 0; row < rows.z.length; row++) {
    const found = coverRow(puck, all, count, rows.z[row]!, low, high, covered, END_TOLERANCE)
    let open = high - low
    for (let i = 0; i < found; i++) open -= covered[2 * i + 1]! - covered[2 * i]!
    area += rows.weight[row]! * open
  }
  return area
}

function goaliePlane(puck: Sight, gx: Metres, gy: Metres): GoaliePlane {
  const length = Math.hypot(puck.px, puck.py)
  const ax = -puck.px / length
  const ay = -puck.py / length
  return { ax, ay, distance: (gx - puck.px) * ax + (gy - puck.py) * ay }
}

function openOf(body: PlacedBody, light: Sight, mouth: Mouth, plane: GoaliePlane, spacing: Metres) {
  const half = 0.5 * mouth.width
  const rows = boxRows(light, body.parts, body.count, 0, mouth.height, spacing)
  const covered = new Float64Array(2 * (body.count + 1))
  let area = 0
  let solidAngle = 0
  let atGoalie = 0
  for (let row = 0; row < rows.z.length; row++) {
    const z = rows.z[row]!
    const weight = rows.weight[row]!
    const found = coverRow(light, body.parts, body.count, z, -half, half, covered, END_TOLERANCE)
    // gaps between covered intervals
    let from = -half
    for (let i = 0; i <= found; i++) {
      const to = i < found ? covered[2 * i]! : half
      if (to > from) {
        area += weight * (to - from)
        solidAngle += weight * anglePerHeight(light, z, from, to)
        atGoalie += weight * widthAtGoalie(light, plane, from, to)
      }
      if (i < found) from = covered[2 * i + 1]!
    }
  }
  return { area, solidAngle, atGoalie, rows: rows.z.length }
}

/** Integral of dOmega/dz along a row: px / (u² + b²)^1.5 du, with u along the row and b the distance to it. */
function anglePerHeight(light: Sight, z: Metres, from: Metres, to: Metres): number {
  const b2 = light.px ** 2 + (z - light.pz) ** 2
  const u0 = from - light.py
  const u1 = to - light.py
  return (light.px / b2) * (u1 / Math.sqrt(u1 * u1 + b2) - u0 / Math.sqrt(u0 * u0 + b2))
}

/** Integral along a row of the area at the goalie per area at the goal: D² px / (w . a)³, w . a linear in y. */
function widthAtGoalie(light: Sight, plane: GoaliePlane, from: Metres, to: Metres): number {
  const forward = (y: Metres) => -light.px * plane.ax + (y - light.py) * plane.ay
  const f0 = forward(from)
  const f1 = forward(to)
  if (f0 <= 0 || f1 <= 0) return Number.POSITIVE_INFINITY
  // mean of 1/f³ over a linear f, without dividing by its slope
  return (plane.distance ** 2 * light.px * (to - from) * (f0 + f1)) / (2 * f0 * f0 * f1 * f1)
}
