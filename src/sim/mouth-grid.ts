import type { Metres, Probability } from "./units.ts"

/**
 * A grid over the places of the goal plane where the middle of a puck may cross and score. Cell index is
 * row * columns + column; row 0 lies on the ice, column 0 at the goalie's right.
 */
export interface MouthGrid {
  readonly columns: number
  readonly rows: number
  /** [columns + 1] edges across, rising, m */
  readonly y: Float64Array
  /** [rows + 1] edges in height, rising, m */
  readonly z: Float64Array
}

/**
 * What a shooter sees: for each cell of the grid the chance that a puck to its middle beats the goalie of one pose, as
 * looked at from the point (x, y, z), puck or eyes, a moment before release; the puck lies at (puckX, puckY).
 * [columns x rows], each in [0, 1].
 */
export type Openness = (
  pose: number,
  x: Metres,
  y: Metres,
  z: Metres,
  grid: MouthGrid,
  puckX: Metres,
  puckY: Metres,
) => ArrayLike<Probability>

/** A grid of equal cells over |y| <= halfWidth, bottom <= z <= top. */
export function mouthGrid(halfWidth: Metres, bottom: Metres, top: Metres, columns: number, rows: number): MouthGrid {
  return gridBetween(-halfWidth, halfWidth, bottom, top, columns, rows)
}

/** A grid of equal cells over right <= y <= left, bottom <= z <= top. */
export function gridBetween(
  right: Metres,
  left: Metres,
  bottom: Metres,
  top: Metres,
  columns: number,
  rows: number,
): MouthGrid {
  const middle = 0.5 * (left + right)
  const half = 0.5 * (left - right)
  const y = Float64Array.from({ length: columns + 1 }, (_, i) => middle + half * ((2 * i) / columns - 1))
  const z = Float64Array.from({ length: rows + 1 }, (_, i) => bottom + ((top - bottom) * i) / rows)
  return { columns, rows, y, z }
}
