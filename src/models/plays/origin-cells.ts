import { TRIANGLE, WEDGE } from "../../sim/strata.ts"
import type { Metres } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import type { Origin } from "./origin.ts"
import { type Point, signedArea, type Triangle, triangulate } from "./triangulate.ts"

/** A patch of ice that shots leave from, small enough that its middle stands for it. */
export interface OriginCell {
  /** TRIANGLE or WEDGE, and the six columns of a stratum's ORIGIN. */
  readonly kind: number
  readonly shape: readonly number[]
  /** Index of the place it belongs to. */
  readonly spot: number
  /** Share of all shots; over all cells these sum to 1. */
  readonly weight: number
  /** Middle of the patch, and its distance from the centre of the goal line. */
  readonly x: Metres
  readonly y: Metres
  readonly distance: Metres
}

export interface OriginCells {
  readonly cells: readonly OriginCell[]
  /** Label of each place, by spot index. */
  readonly spots: readonly string[]
}

/** A patch may be as wide as this, or as this share of its distance: speed, haste and aim error change slowly far out. */
const WIDEST_PATCH: Metres = 1.5
const WIDEST_SHARE = 0.5
/** Nearest to the goal line that a puck can be shot from: nearer it sees no mouth. */
export const NEAREST_X: Metres = 0.05

/** A patch before it knows its place: relative size within the origin, and middle. */
type Patch = Pick<OriginCell, "kind" | "shape" | "x" | "y"> & { readonly size: number }

/** Cells of every place the settings name, or of the one spot at play.distance and play.angle. */
export function originCells(settings: Settings): OriginCells {
  const origins = originsOf(settings)
  const total = origins.reduce((sum, origin) => sum + origin.weight, 0)
  if (!(total > 0))
    throw new RangeError(
      `Cannot place the shots as the sum of the origins' weights must be > 0: current value is ${total}`,
    )
  const cells: OriginCell[] = []
  for (const [spot, origin] of origins.entries()) {
    const patches = patchesOf(origin)
    const size = patches.reduce((sum, patch) => sum + patch.size, 0)
    for (const { size: part, ...patch } of patches) {
      const weight = (origin.weight / total) * (part / size)
      cells.push({ ...patch, spot, weight, distance: Math.hypot(patch.x, patch.y) })
    }
  }
  return { cells, spots: origins.map((origin) => origin.label) }
}

/** The places the settings name, or the one spot at play.distance and play.angle. */
export function originsOf(settings: Settings): readonly Origin[] {
  return settings.origins.length > 0 ? settings.origins : [playSpot(settings)]
}

/** How far in front of the goal line the part of a place is that is nearest to it; negative behind. */
export function nearestToLine(origin: Origin): Metres {
  switch (origin.kind) {
    case "spot":
      return origin.x
    case "polygon":
      return Math.min(...origin.corners.map(([x]) => x))
    case "wedge":
      return origin.nearest * Math.cos(Math.max(Math.abs(origin.from), Math.abs(origin.to)))
  }
}

/** The one spot of a play that names no origins. */
function playSpot(settings: Settings): Origin {
  const distance = settings.quantities["play.distance"]
  const angle = settings.quantities["play.angle"]
  const [x, y] = [distance * Math.cos(angle), distance * Math.sin(angle)]
  return { kind: "spot", label: "spot", weight: 1, x, y }
}

function patchesOf(origin: Origin): Patch[] {
  requireInFront(nearestToLine(origin), origin.label)
  switch (origin.kind) {
    case "spot":
      return [spotPatch(origin.x, origin.y)]
    case "polygon":
      return triangulate(origin.corners).flatMap(splitTriangle).map(trianglePatch)
    case "wedge":
      return splitWedge([origin.nearest, origin.farthest, origin.from, origin.to]).map(wedgePatch)
  }
}

/** @throws RangeError for a place on or behind the goal line */
function requireInFront(x: Metres, label: string): void {
  if (x < NEAREST_X)
    throw new RangeError(
      `Cannot place the shots of "${label}" as x must be >= ${NEAREST_X} m in front of the goal line: current value is ${Number(x.toFixed(3))} m`,
    )
}

/** A spot is a triangle without size. */
function spotPatch(x: Metres, y: Metres): Patch {
  return { kind: TRIANGLE, shape: [x, y, x, y, x, y], x, y, size: 1 }
}

function widestAt(distance: Metres): Metres {
  return Math.max(WIDEST_PATCH, WIDEST_SHARE * distance)
}

/** Halves the longest side until the triangle is small enough for its distance. */
function splitTriangle(triangle: Triangle): Triangle[] {
  const sides = [0, 1, 2].map((i) => length(triangle[i]!, triangle[(i + 1) % 3]!))
  const longest = sides.indexOf(Math.max(...sides))
  const [x, y] = centroid(triangle)
  if (sides[longest]! <= widestAt(Math.hypot(x, y))) return [triangle]
  const a = triangle[longest]!
  const b = triangle[(longest + 1) % 3]!
  const c = triangle[(longest + 2) % 3]!
  const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
  return [...splitTriangle([a, middle, c]), ...splitTriangle([middle, b, c])]
}

function length(a: Point, b: Point): Metres {
  return Math.hypot(a[0] - b[0], a[1] - b[1])
}

function centroid([a, b, c]: Triangle): Point {
  return [(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3]
}

function trianglePatch(triangle: Triangle): Patch {
  const [x, y] = centroid(triangle)
  return { kind: TRIANGLE, shape: triangle.flat(), x, y, size: signedArea(triangle) }
}

/** least distance, greatest distance, from angle, to angle */
type WedgeShape = readonly [number, number, number, number]

/** Halves the longer of depth and arc until the wedge is small enough for its distance. */
function splitWedge(wedge: WedgeShape): WedgeShape[] {
  const [near, far, from, to] = wedge
  const radius = (near + far) / 2
  const arc = Math.abs(to - from) * radius
  if (Math.max(far - near, arc) <= widestAt(radius)) return [wedge]
  if (far - near >= arc) return [...splitWedge([near, radius, from, to]), ...splitWedge([radius, far, from, to])]
  const middle = (from + to) / 2
  return [...splitWedge([near, far, from, middle]), ...splitWedge([near, far, middle, to])]
}

function wedgePatch([near, far, from, to]: WedgeShape): Patch {
  // half the area lies nearer than this
  const radius = Math.sqrt((near * near + far * far) / 2)
  const angle = (from + to) / 2
  // a wedge without size is a spot or a line: its length, or 1, stands for its area
  const size =
    Math.abs(((far * far - near * near) * (to - from)) / 2) || Math.max(far - near, Math.abs(to - from) * near) || 1
  return {
    kind: WEDGE,
    shape: [near, far, from, to, 0, 0],
    x: radius * Math.cos(angle),
    y: radius * Math.sin(angle),
    size,
  }
}
