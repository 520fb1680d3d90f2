import type { Metres, SquareMetres } from "../../sim/units.ts"

export type Point = readonly [Metres, Metres]
export type Triangle = readonly [Point, Point, Point]

/** Area of a polygon by the shoelace sum, positive when its corners run anticlockwise. */
export function signedArea(corners: readonly Point[]): SquareMetres {
  let twice = 0
  for (let i = 0; i < corners.length; i++) {
    const [ax, ay] = corners[i]!
    const [bx, by] = corners[(i + 1) % corners.length]!
    twice += ax * by - bx * ay
  }
  return twice / 2
}

/**
 * Cuts a simple polygon into triangles by clipping ears: a corner whose triangle turns left and holds no other corner
 * comes off, until three are left. Corners may run either way; corners on a straight side are dropped.
 * @throws RangeError when the sides cross or the polygon has no area
 */
export function triangulate(corners: readonly Point[]): Triangle[] {
  const area = signedArea(corners)
  if (!(Math.abs(area) > 1e-9))
    throw new RangeError(`Cannot cut the polygon into triangles as its area must be > 0 m²: current value is ${area}`)
  if (sidesCross(corners)) throw crossing(corners)
  const left = area > 0 ? [...corners] : [...corners].reverse()
  const triangles: Triangle[] = []
  while (left.length >= 3) {
    const ear = left.findIndex((_, i) => isEar(left, i))
    // sides that touch or run over each other
    if (ear < 0) throw crossing(corners)
    const triangle = cornerTriangle(left, ear)
    // a corner on a straight side takes nothing off
    if (signedArea(triangle) > 1e-12) triangles.push(triangle)
    left.splice(ear, 1)
  }
  return triangles
}

/** Whether any side passes from one side of another to its far side, within both. */
function sidesCross(corners: readonly Point[]): boolean {
  const end = (i: number) => corners[(i + 1) % corners.length]!
  const parts = (a: Point, b: Point, c: Point, d: Point) => signedArea([a, b, c]) * signedArea([a, b, d]) < 0
  return corners.some((a, i) =>
    corners.some((c, j) => j > i && parts(a, end(i), c, end(j)) && parts(c, end(j), a, end(i))),
  )
}

function crossing(corners: readonly Point[]): RangeError {
  const list = corners.map(([x, y]) => `(${x}, ${y})`).join(" ")
  return new RangeError(`Cannot cut the polygon into triangles as its sides must not cross: current value is ${list}`)
}

/** The triangle of a corner and its two neighbours. */
function cornerTriangle(corners: readonly Point[], i: number): Triangle {
  const n = corners.length
  return [corners[(i + n - 1) % n]!, corners[i]!, corners[(i + 1) % n]!]
}

function isEar(corners: readonly Point[], i: number): boolean {
  const triangle = cornerTriangle(corners, i)
  // reflex corner
  if (signedArea(triangle) < -1e-12) return false
  return !corners.some((point) => isInside(point, triangle))
}

/** Inside or on a side of an anticlockwise triangle; a point that equals a corner does not count. */
function isInside(point: Point, triangle: Triangle): boolean {
  if (triangle.some(([x, y]) => x === point[0] && y === point[1])) return false
  const [a, b, c] = triangle
  return signedArea([a, b, point]) >= 0 && signedArea([b, c, point]) >= 0 && signedArea([c, a, point]) >= 0
}
