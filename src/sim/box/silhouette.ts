import { AXIS_0, CENTRE, HALF_SIZE, PART_STRIDE } from "../parts.ts"
import type { Metres } from "../units.ts"
import { coverEnd, fanClearance, fanRecord, setFan } from "./fan.ts"
import { supportAlong } from "./placed.ts"
import { lightFrom, type Sight } from "./sight.ts"

/** The outline of one part on the goal plane as the puck sees it. */
export interface Silhouette {
  /** Row of the part in its table. */
  readonly part: number
  /** y and z in turn, m, counter-clockwise as the goalie's left is drawn to the right; convex. */
  readonly points: Float64Array
}

/** The polygon runs inside the true outline by no more than this, m. */
export const OUTLINE_TOLERANCE = 2e-4
/** An outline is drawn no farther than this from the place the part's middle shows at, m. */
const FARTHEST = 4
/** A part this near the puck's own plane is seen too large to draw, share of the puck's distance. */
const NEAREST_SHARE = 0.98
const FIRST_DIRECTIONS = 8
const DEEPEST_SPLIT = 12

/**
 * Outlines of all parts that stand between the puck and the goal plane, far to near: painted in order they hide one
 * another as they do for the puck. Parts behind the goal line or behind the puck are left out, and those that reach
 * across either are cut there.
 */
export function silhouettes(
  sight: Sight,
  parts: Float64Array,
  count: number,
  tolerance: Metres = OUTLINE_TOLERANCE,
): Silhouette[] {
  const light = lightFrom(sight.px, sight.py, sight.pz)
  const seen: { part: number; points: Float64Array; distance: number }[] = []
  for (let part = 0; part < count; part++) {
    const at = part * PART_STRIDE
    const points = outlinePart(light, parts, at, tolerance)
    if (points === undefined) continue
    const [x, y, z] = [parts[at + CENTRE]!, parts[at + CENTRE + 1]!, parts[at + CENTRE + 2]!]
    seen.push({ part, points, distance: Math.hypot(x - light.px, y - light.py, z - light.pz) })
  }
  seen.sort((a, b) => b.distance - a.distance || a.part - b.part)
  return seen.map(({ part, points }) => ({ part, points }))
}

/**
 * Outline of the part at `at`: from a place it covers, the end of its cover in some directions; then between each two
 * neighbours the direction of their chord's middle, until the outline bulges past no chord by more than `tolerance`.
 * A convex outline that touches the middle of a chord runs along it, so nothing is missed. Undefined when not seen.
 */
export function outlinePart(
  light: Sight,
  parts: Float64Array,
  at: number,
  tolerance: Metres = OUTLINE_TOLERANCE,
): Float64Array | undefined {
  const middle = coveredPlace(light, parts, at)
  if (middle === undefined) return undefined
  const [y0, z0] = middle
  const fan = fanRecord(light)
  setFan(light, parts, at, y0, z0, 1, 0, fan)
  if (fanClearance(fan, 0) > 0) return undefined
  const edge = (dy: number, dz: number): Place => {
    setFan(light, parts, at, y0, z0, dy, dz, fan)
    const reach = coverEnd(fan, 0, FARTHEST, 0.01 * tolerance)
    return [y0 + reach * dy, z0 + reach * dz]
  }
  const first: Place[] = []
  for (let i = 0; i < FIRST_DIRECTIONS; i++) {
    const angle = (2 * Math.PI * i) / FIRST_DIRECTIONS
    first.push(edge(Math.cos(angle), Math.sin(angle)))
  }
  const points: number[] = []
  for (const [i, place] of first.entries()) {
    points.push(...place)
    bulge(points, place, first[(i + 1) % FIRST_DIRECTIONS]!, middle, edge, tolerance, 0)
  }
  return Float64Array.from(points)
}

type Place = readonly [y: Metres, z: Metres]

/** Adds the outline's places between two of them, in order, where it bulges past their chord. */
function bulge(
  points: number[],
  from: Place,
  to: Place,
  middle: Place,
  edge: (dy: number, dz: number) => Place,
  tolerance: Metres,
  depth: number,
): void {
  const dy = 0.5 * (from[0] + to[0]) - middle[0]
  const dz = 0.5 * (from[1] + to[1]) - middle[1]
  const length = Math.hypot(dy, dz)
  if (length === 0 || depth === DEEPEST_SPLIT) return
  const place = edge(dy / length, dz / length)
  // height of the place over the chord
  const cy = to[0] - from[0]
  const cz = to[1] - from[1]
  const chord = Math.hypot(cy, cz)
  if (chord < tolerance || Math.abs(cy * (place[1] - from[1]) - cz * (place[0] - from[0])) < tolerance * chord) return
  bulge(points, from, place, middle, edge, tolerance, depth + 1)
  points.push(...place)
  bulge(points, place, to, middle, edge, tolerance, depth + 1)
}

/** Where a middle of the part in front of the goal line and of the puck shows; undefined when there is none. */
function coveredPlace(light: Sight, parts: Float64Array, at: number): Place | undefined {
  const x = parts[at + CENTRE]!
  const half = supportAlong(parts, at, 1, 0, 0)
  const least = Math.max(0, x - half)
  const most = Math.min(NEAREST_SHARE * light.px, x + half)
  if (least > most) return undefined
  // from the centre toward the foremost or hindmost point as far as needed: a straight line inside the part
  const target = x >= least && x <= most ? x : 0.5 * (least + most)
  const share = half > 0 ? (target - x) / half : 0
  const [sy, sz] = foremostOffset(parts, at)
  const py = parts[at + CENTRE + 1]! + share * sy
  const pz = parts[at + CENTRE + 2]! + share * sz
  const carry = light.px / (light.px - target)
  return [light.py + carry * (py - light.py), light.pz + carry * (pz - light.pz)]
}

/** How far the foremost point of the core lies to the left of and above the centre. */
function foremostOffset(parts: Float64Array, at: number): [number, number] {
  let y = 0
  let z = 0
  for (let i = 0; i < 3; i++) {
    const axis = at + AXIS_0 + 3 * i
    const h = parts[at + HALF_SIZE + i]! * Math.sign(parts[axis]!)
    y += h * parts[axis + 1]!
    z += h * parts[axis + 2]!
  }
  return [y, z]
}
