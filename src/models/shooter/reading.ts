import { gridBetween, type MouthGrid } from "../../sim/mouth-grid.ts"
import type { Metres, Probability } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { aimedError } from "./accuracy.ts"
import { type AimCell, READ_COLUMNS, READ_ROWS, type ScoringMouth } from "./aim-cells.ts"
import { fillLanding, type ReleasePlace, runTo } from "./landing.ts"

/** Columns and rows of the finer grid on which openings are looked at: two by two in each aim cell. */
const FINE = 2

/** The grid on which openings are looked at. */
export function openingGrid(mouth: ScoringMouth): MouthGrid {
  return gridBetween(mouth.right, mouth.left, mouth.bottom, mouth.top, READ_COLUMNS * FINE, READ_ROWS * FINE)
}

/** Where shots aimed at each cell land from one place: what the shooter knows of their own error. No goalie in it. */
export interface LandingTable {
  readonly grid: MouthGrid
  /** [cells x grid.columns] and [cells x grid.rows]: the chance of a grid cell is the product */
  readonly columns: Float64Array
  readonly rows: Float64Array
  /** [cells] 1 where the cell is not too steep to be aimed at from here */
  readonly allowed: Uint8Array
}

/** Landing chances of every aim cell from one place; cells whose middle is steeper than anyone aims are not allowed. */
export function landingTable(
  settings: Settings,
  place: ReleasePlace,
  cells: readonly AimCell[],
  grid: MouthGrid,
): LandingTable {
  const distance = runTo(place, 0)
  const steepest = settings.quantities["shooter.steepest_aim"]
  const columns = new Float64Array(cells.length * grid.columns)
  const rows = new Float64Array(cells.length * grid.rows)
  const allowed = new Uint8Array(cells.length)
  const lowest = Math.min(...cells.map((cell) => cell.zLow))
  for (const [index, cell] of cells.entries()) {
    const y = (cell.yLow + cell.yHigh) / 2
    const z = (cell.zLow + cell.zHigh) / 2
    const slope = (z - place.z) / runTo(place, y)
    // from the goal's edge even the lowest row is steep, and something must be aimed at
    allowed[index] = slope <= steepest || cell.zLow === lowest ? 1 : 0
    const error = aimedError(settings, distance, slope)
    fillLanding(place, { y, z, error }, grid, { columns, rows, index })
  }
  return { grid, columns, rows, allowed }
}

/** Goal probability the shooter expects of each aim cell: the openness weighed by where the shot may land. */
export function expectedGoals(openness: ArrayLike<Probability>, table: LandingTable): Float64Array {
  const { grid, columns, rows, allowed } = table
  const expected = new Float64Array(allowed.length)
  for (let cell = 0; cell < expected.length; cell++) {
    let sum = 0
    for (let row = 0; row < grid.rows; row++) {
      let across = 0
      for (let column = 0; column < grid.columns; column++)
        across += columns[cell * grid.columns + column]! * openness[row * grid.columns + column]!
      sum += rows[cell * grid.rows + row]! * across
    }
    expected[cell] = sum
  }
  return expected
}

/**
 * Shares proportional to exp(expected / temperature) over the allowed cells. Temperature 0 is the limit: the best cell,
 * or the best ones alike.
 */
export function softmax(expected: Float64Array, temperature: number, allowed: Uint8Array): Float64Array {
  let best = -Infinity
  for (let i = 0; i < expected.length; i++) if (allowed[i] === 1 && expected[i]! > best) best = expected[i]!
  const shares = expected.map((value, i) => {
    if (allowed[i] === 0) return 0
    if (temperature > 0) return Math.exp((value - best) / temperature)
    return value === best ? 1 : 0
  })
  const total = shares.reduce((sum, share) => sum + share, 0)
  return shares.map((share) => share / total)
}

/** The same share for every allowed cell: a shooter who is blind to the goalie. */
export function blindShares(allowed: Uint8Array): Float64Array {
  const count = allowed.reduce((sum, one) => sum + one, 0)
  return Float64Array.from(allowed, (one) => one / count)
}

/**
 * Shares of the aim cells for a shooter who sees this openness: softmax over the expected goal probability, mixed with
 * blind shares by how well the shooter reads. With reading 0 the openness has no part in the result.
 */
export function readShares(
  openness: ArrayLike<Probability>,
  table: LandingTable,
  temperature: number,
  reading: Probability,
): Float64Array {
  const blind = blindShares(table.allowed)
  if (reading === 0) return blind
  const seen = softmax(expectedGoals(openness, table), temperature, table.allowed)
  return seen.map((share, i) => reading * share + (1 - reading) * blind[i]!)
}

/** The place openings are judged from, with the eyes' height and place where the settings say so. */
export function readsFrom(settings: Settings, place: ReleasePlace): ReleasePlace {
  if (settings.choices["shooter.reads_from"] === "puck") return place
  const body = bodyPlace(settings, place.x, place.y)
  return { ...body, z: settings.quantities["shooter.eye_height"] }
}

/**
 * Where the shooter's body stands when the puck is at (x, y): beside it by reach, away from the blade side, and behind
 * it along the line from goal centre to puck. A backhand has the puck on the other side.
 */
export function bodyPlace(settings: Settings, x: Metres, y: Metres): { readonly x: Metres; readonly y: Metres } {
  const distance = Math.hypot(x, y)
  const outX = x / distance
  const outY = y / distance
  // facing the goal the shooter's left is (outY, -outX)
  const bladeLeft = (settings.choices["shooter.hand"] === "left") !== (settings.choices["shooter.shot"] === "backhand")
  const beside = bladeLeft ? -settings.quantities["shooter.reach"] : settings.quantities["shooter.reach"]
  const behind = settings.quantities["shooter.reach_behind"]
  return { x: x + behind * outX + beside * outY, y: y + behind * outY - beside * outX }
}
