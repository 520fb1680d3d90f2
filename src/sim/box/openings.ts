import type { Metres, SquareMetres } from "../units.ts"
import { betweenPosts, clearTop, IRON_COUNT, withIron } from "./iron-parts.ts"
import type { PlacedBody } from "./placed.ts"
import { coverRow } from "./shadow.ts"
import type { Mouth, Sight } from "./sight.ts"

/** Where the zones of the mouth meet. */
export interface ZoneCuts {
  /** Under this height a zone is low. */
  readonly lowHeight: Metres
  /** Width of the middle zones. */
  readonly middleWidth: Metres
  /** 1 when the catching glove is on the left hand, -1 when on the right. */
  readonly gloveSide: 1 | -1
}

/** Zones of the mouth. */
export const ZONES = ["low glove", "five-hole", "low blocker", "high glove", "high middle", "high blocker"] as const
export type Zone = (typeof ZONES)[number]

/** One opening that a puck fits through, cut by the zones. */
export interface ClearOpening {
  readonly zone: Zone
  /** Place of the opening farthest from its edges: always inside it. */
  readonly y: Metres
  readonly z: Metres
  /** Area that the middle of the puck can cross. */
  readonly area: SquareMetres
}

/** Cells of the raster, m. */
export const OPENING_CELL = 0.0125
/** Ends of covered stretches in a row of cells, m. */
const END_TOLERANCE = 1e-6
/** Openings of fewer cells are noise of the raster. */
const LEAST_CELLS = 3

/** Zone a place of the mouth lies in. */
export function zoneOf(y: Metres, z: Metres, cuts: ZoneCuts): Zone {
  return ZONES[zoneNumber(y, z, cuts)]!
}

function zoneNumber(y: Metres, z: Metres, cuts: ZoneCuts): number {
  const side = Math.abs(y) <= 0.5 * cuts.middleWidth ? 1 : y * cuts.gloveSide > 0 ? 0 : 2
  return side + (z < cuts.lowHeight ? 0 : 3)
}

/** What the raster of the mouth knows: cells row by row from the ice up, from the goalie's right to left. */
interface Raster {
  readonly columns: number
  readonly rows: number
  readonly y: Float64Array
  readonly z: Float64Array
  /** [rows x columns] 0 closed; open cells get the number of their opening */
  readonly label: Int32Array
}

/**
 * Openings of the mouth that a puck fits through, largest first: connected places its middle can cross without touching
 * body, iron or ice, on a raster of 12.5 mm, cut where the zones meet.
 */
export function clearOpenings(body: PlacedBody, puck: Sight, mouth: Mouth, cuts: ZoneCuts): ClearOpening[] {
  const raster = rasterOf(body, puck, mouth)
  if (raster === undefined) return []
  const count = labelOpenings(raster, cuts)
  const depth = depthInside(raster)
  const cell = (raster.y[1]! - raster.y[0]!) * (raster.z[1]! - raster.z[0]!)
  const size = new Int32Array(count + 1)
  const deepest = new Int32Array(count + 1).fill(-1)
  for (let i = 0; i < depth.length; i++) {
    const label = raster.label[i]!
    if (label === 0) continue
    size[label]!++
    if (deepest[label]! < 0 || depth[i]! > depth[deepest[label]!]!) deepest[label] = i
  }
  const openings: ClearOpening[] = []
  for (let label = 1; label <= count; label++) {
    if (size[label]! < LEAST_CELLS) continue
    const y = raster.y[deepest[label]! % raster.columns]!
    const z = raster.z[Math.floor(deepest[label]! / raster.columns)]!
    openings.push({ zone: zoneOf(y, z, cuts), y, z, area: size[label]! * cell })
  }
  return openings.sort((a, b) => b.area - a.area)
}

/** Open cells marked -1; undefined when the bar leaves the puck no height at all. */
function rasterOf(body: PlacedBody, puck: Sight, mouth: Mouth): Raster | undefined {
  const bottom = puck.discHalf
  const top = clearTop(puck, mouth)
  if (top <= bottom) return undefined
  const columns = Math.ceil(mouth.width / OPENING_CELL)
  const rows = Math.max(2, Math.ceil((top - bottom) / OPENING_CELL))
  const half = 0.5 * mouth.width
  const y = Float64Array.from({ length: columns }, (_, i) => ((i + 0.5) / columns) * mouth.width - half)
  const z = Float64Array.from({ length: rows }, (_, i) => bottom + ((i + 0.5) / rows) * (top - bottom))
  const label = new Int32Array(rows * columns).fill(-1)
  const close = (row: number, from: Metres, to: Metres): void => {
    const first = Math.ceil(((from + half) / mouth.width) * columns - 0.5)
    const last = Math.floor(((to + half) / mouth.width) * columns - 0.5)
    label.fill(0, row * columns + first, row * columns + last + 1)
  }
  // between the posts and under the bar only the body is in the way
  const between = betweenPosts(puck, mouth)
  const [low, high] = between ?? [-half, half]
  const count = body.count + (between === null ? IRON_COUNT : 0)
  const parts = withIron(body.parts, mouth)
  const covered = new Float64Array(2 * (count + 1))
  for (let row = 0; row < rows; row++) {
    close(row, -half, low)
    close(row, high, half)
    const found = coverRow(puck, parts, count, z[row]!, low, high, covered, END_TOLERANCE)
    for (let i = 0; i < found; i++) close(row, covered[2 * i]!, covered[2 * i + 1]!)
  }
  return { columns, rows, y, z, label }
}

/** Numbers the connected open cells of one zone from 1 on; returns how many openings there are. */
function labelOpenings({ columns, rows, y, z, label }: Raster, cuts: ZoneCuts): number {
  // a zone is a band of columns and one of rows
  const across = Uint8Array.from(y, (place) => zoneNumber(place, Number.POSITIVE_INFINITY, cuts))
  const up = Uint8Array.from(z, (place) => (place < cuts.lowHeight ? 1 : 0))
  const waiting = new Int32Array(label.length)
  let count = 0
  for (let start = 0; start < label.length; start++) {
    if (label[start] !== -1) continue
    label[start] = ++count
    waiting[0] = start
    let left = 1
    while (left > 0) {
      const cell = waiting[--left]!
      const row = Math.floor(cell / columns)
      const column = cell - row * columns
      for (let side = 0; side < 4; side++) {
        const c = column + (side === 0 ? -1 : side === 1 ? 1 : 0)
        const r = row + (side === 2 ? -1 : side === 3 ? 1 : 0)
        if (c < 0 || c === columns || r < 0 || r === rows) continue
        const next = r * columns + c
        if (label[next] !== -1 || across[c] !== across[column] || up[r] !== up[row]) continue
        label[next] = count
        waiting[left++] = next
      }
    }
  }
  return count
}

/** Distance of each open cell from the nearest cell of another opening or none, in cells: two sweeps of a chamfer. */
function depthInside({ columns, rows, label }: Raster): Float64Array {
  const depth = new Float64Array(label.length)
  for (const back of [1, -1] as const) {
    for (let i = 0; i < label.length; i++) {
      const cell = back === 1 ? i : label.length - 1 - i
      const mine = label[cell]!
      if (mine === 0) continue
      const row = Math.floor(cell / columns)
      const column = cell - row * columns
      let least = back === 1 ? Number.POSITIVE_INFINITY : depth[cell]!
      // the cell before in its row, then the three of the row before
      for (let k = 0; k < 4; k++) {
        const c = column + (k === 0 || k === 2 ? -back : k === 1 ? 0 : back)
        const r = row - (k === 0 ? 0 : back)
        const way = k < 2 ? 1 : Math.SQRT2
        const isInside = c >= 0 && c < columns && r >= 0 && r < rows && label[r * columns + c] === mine
        least = Math.min(least, isInside ? depth[r * columns + c]! + way : 0.5 * way)
      }
      depth[cell] = least
    }
  }
  return depth
}
