import type { Metres } from "../units.ts"
import type { Mouth } from "./sight.ts"
import type { Silhouette } from "./silhouette.ts"

/** The largest circle on the goal plane that the puck sees whole: it touches iron, ice or the body's outline. */
export interface ClearCircle {
  readonly y: Metres
  readonly z: Metres
  /** Zero when nothing is open. */
  readonly radius: Metres
}

/** Squares the search starts with, m. */
const FIRST_SQUARE = 0.1
/** The radius is within this of the largest, m, besides the outlines' own tolerance. */
const RADIUS_TOLERANCE = 5e-4

/**
 * Largest clear circle of a mouth behind the given outlines. Squares of the mouth are split in four as long as a circle
 * about some place of them could still be larger than the best found by more than half a millimetre: the distance to
 * what bounds the opening changes by no more than the way moved, so no larger one is missed.
 */
export function clearCircle(outlines: readonly Silhouette[], mouth: Mouth): ClearCircle {
  const shapes = outlines.map((outline) => shapeOf(outline.points))
  let best: ClearCircle = { y: 0, z: 0.5 * mouth.height, radius: 0 }
  let squares = firstSquares(mouth)
  let half = 0.5 * FIRST_SQUARE
  while (squares.length > 0) {
    const reach: number[] = []
    for (let i = 0; i < squares.length; i += 2) {
      const radius = room(shapes, mouth, squares[i]!, squares[i + 1]!, best.radius - half * Math.SQRT2)
      reach.push(radius)
      if (radius > best.radius) best = { y: squares[i]!, z: squares[i + 1]!, radius }
    }
    const next: number[] = []
    half *= 0.5
    for (let i = 0; i < reach.length; i++) {
      if (reach[i]! + 2 * half * Math.SQRT2 <= best.radius + RADIUS_TOLERANCE) continue
      const [y, z] = [squares[2 * i]!, squares[2 * i + 1]!]
      next.push(y - half, z - half, y + half, z - half, y - half, z + half, y + half, z + half)
    }
    squares = next
  }
  return best
}

function firstSquares(mouth: Mouth): number[] {
  const squares: number[] = []
  for (let z = 0.5 * FIRST_SQUARE; z < mouth.height + 0.5 * FIRST_SQUARE; z += FIRST_SQUARE) {
    for (let y = 0.5 * (FIRST_SQUARE - mouth.width); y < 0.5 * (mouth.width + FIRST_SQUARE); y += FIRST_SQUARE) {
      squares.push(y, z)
    }
  }
  return squares
}

/** A convex outline with the circle that holds it. */
interface Shape {
  readonly points: Float64Array
  readonly y: number
  readonly z: number
  readonly radius: number
}

function shapeOf(points: Float64Array): Shape {
  let y = 0
  let z = 0
  for (let i = 0; i < points.length; i += 2) {
    y += (2 * points[i]!) / points.length
    z += (2 * points[i + 1]!) / points.length
  }
  let radius = 0
  for (let i = 0; i < points.length; i += 2) radius = Math.max(radius, Math.hypot(points[i]! - y, points[i + 1]! - z))
  return { points, y, z, radius }
}

/** Distance from a place to what bounds the opening, negative inside an outline; gives up under `enough`. */
function room(shapes: readonly Shape[], mouth: Mouth, y: Metres, z: Metres, enough: Metres): Metres {
  let least = Math.min(0.5 * mouth.width - Math.abs(y), z, mouth.height - z)
  for (const shape of shapes) {
    if (least < enough) return least
    if (Math.hypot(y - shape.y, z - shape.z) - shape.radius < least) least = Math.min(least, apart(shape.points, y, z))
  }
  return least
}

/** Distance from a place to a convex polygon, negative inside. */
function apart(points: Float64Array, y: Metres, z: Metres): Metres {
  let least = Number.POSITIVE_INFINITY
  let inside = true
  let y0 = points[points.length - 2]!
  let z0 = points[points.length - 1]!
  for (let i = 0; i < points.length; i += 2) {
    const y1 = points[i]!
    const z1 = points[i + 1]!
    const dy = y1 - y0
    const dz = z1 - z0
    const squared = dy * dy + dz * dz
    const along = squared > 0 ? ((y - y0) * dy + (z - z0) * dz) / squared : 0
    const t = Math.min(Math.max(along, 0), 1)
    const ey = y - y0 - t * dy
    const ez = z - z0 - t * dz
    const distance = ey * ey + ez * ez
    if (distance < least) least = distance
    if (dy * (z - z0) - dz * (y - y0) < 0) inside = false
    y0 = y1
    z0 = z1
  }
  return inside ? -Math.sqrt(least) : Math.sqrt(least)
}
