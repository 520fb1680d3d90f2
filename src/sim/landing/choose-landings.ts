import * as draws from "../draws.ts"
import { cumulativeNormal, invertNormal } from "../random/normal.ts"
import type { LandingGrid } from "./landing-grid.ts"
import * as grids from "./landing-grid.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { DRAW_AIM_1, DRAW_AIM_2, DRAW_AZIMUTH, DRAW_ELEVATION, SHOOTER_DRAWS } = draws
const { TURN_STRIDE } = grids

/** Coordinates that choose where a shot is from and where it lands: place, across, up, and which stratum lands there. */
export const LANDING_STRIDE = 4
const PLACE = 0
const ACROSS = 1
const UP = 2
const WHICH = 3

/** A probability of 0 or 1 has no normal: nearest to them that comes about. */
const NEAR_NONE = 2 ** -53
const NEAR_ALL = 1 - 2 ** -53

/**
 * Chooses the stratum of each shot, its aimed point and its error of aim, by where it lands. Where it lands hangs on five
 * draws (stratum, and two across and two up) through two numbers alone. Drawn one by one they would share out among
 * them what evenness a sequence of points has; so a coordinate says how far across, one how far up, and what is left, which
 * of the strata and how much of it is error, is drawn afterwards. All come as often as by draws of their own.
 *
 * `landings` holds [count x LANDING_STRIDE] coordinates. `uniforms` [count x SHOOTER_DRAWS] holds those of the second
 * normals at DRAW_AIM_1 and DRAW_AIM_2, and takes the uniforms of aimed point and error.
 */
export function chooseLandings(
  grid: LandingGrid,
  landings: Float64Array,
  count: number,
  stratum: Uint32Array,
  uniforms: Float64Array,
): void {
  const { cuts, strata, placeSums, columnSums, rowSums, strataOf } = grid
  const places = placeSums.length
  for (let i = 0; i < count; i++) {
    const at = i * LANDING_STRIDE
    const u = i * SHOOTER_DRAWS
    // the place, and the column and row of its grid
    const place = find(placeSums, 0, places - 1, landings[at + PLACE]! * placeSums[places - 1]!)
    const columns = place * cuts
    const across = landings[at + ACROSS]! * columnSums[columns + cuts - 1]!
    const column = find(columnSums, columns, columns + cuts - 1, across)
    const rows = column * cuts
    const up = landings[at + UP]! * rowSums[rows + cuts - 1]!
    const row = find(rowSums, rows, rows + cuts - 1, up)
    // a stratum among those that land in the cell
    const below = row === rows ? 0 : rowSums[row - 1]!
    const inCell = rowSums[row]! - below
    const s = findStratum(
      grid,
      strataOf[place]!,
      strataOf[place + 1]!,
      column - columns,
      row - rows,
      landings[at + WHICH]! * inCell,
    )
    stratum[i] = s
    // how far into the cell, then aim and error
    const before = column === columns ? 0 : columnSums[column - 1]!
    const intoColumn = (across - before) / (columnSums[column]! - before)
    const acrossAt = (column - columns) * strata + s
    const upAt = (row - rows) * strata + s
    turnBack(grid, s * TURN_STRIDE, grid.across, acrossAt, intoColumn, uniforms, u + DRAW_AIM_1, u + DRAW_AZIMUTH)
    turnBack(
      grid,
      s * TURN_STRIDE + 2,
      grid.up,
      upAt,
      (up - below) / inCell,
      uniforms,
      u + DRAW_AIM_2,
      u + DRAW_ELEVATION,
    )
  }
}

/** First index from `low` to `high` whose sum is above a target. */
function find(sums: Float64Array, low: number, high: number, target: number): number {
  let from = low
  let to = high
  while (from < to) {
    const middle = (from + to) >> 1
    if (sums[middle]! > target) to = middle
    else from = middle + 1
  }
  return from
}

/** Stratum of a cell in which the allotments that land there reach a target. */
function findStratum(grid: LandingGrid, from: number, to: number, column: number, row: number, target: number): number {
  const { inColumn, inRow, strata } = grid
  const c = column * strata
  const r = row * strata
  let sum = 0
  let last = from
  for (let s = from; s < to; s++) {
    const share = inColumn[c + s]! * inRow[r + s]!
    if (share > 0) last = s
    sum += share
    if (sum > target) return s
  }
  return last
}

/** The first normal of a pair, so far between two cuts, and the second become the uniforms of aimed point and error. */
function turnBack(
  grid: LandingGrid,
  turn: number,
  shares: Float64Array,
  at: number,
  into: number,
  uniforms: Float64Array,
  aim: number,
  error: number,
): void {
  const low = shares[at]!
  const first = invertNormal(inside(low + into * (shares[at + grid.strata]! - low)))
  const second = invertNormal(uniforms[aim]!)
  const cosine = grid.turns[turn]!
  const sine = grid.turns[turn + 1]!
  uniforms[aim] = inside(cumulativeNormal(cosine * first - sine * second))
  uniforms[error] = inside(cumulativeNormal(sine * first + cosine * second))
}

function inside(p: number): number {
  return p < NEAR_NONE ? NEAR_NONE : p > NEAR_ALL ? NEAR_ALL : p
}
