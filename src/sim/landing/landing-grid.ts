import { cumulativeNormal } from "../random/normal.ts"
import * as S from "../strata.ts"
import { type AimTurn, turnAcross, turnUp } from "./aim-turn.ts"

/**
 * The strata of a scene by where their shots land. A place is a patch of ice in a branch of the play. What can be seen
 * from it is cut into columns and rows at the same angles for all its strata; how much of each stratum lands between two
 * cuts follows from its {@link AimTurn}. So a cell of the grid can be chosen first and then a stratum among those that
 * land there, each as often as by choosing the stratum first.
 */
export interface LandingGrid {
  readonly strata: number
  /** Columns, and as many rows, of each place */
  readonly cuts: number
  /** [places] cumulative allotment */
  readonly placeSums: Float64Array
  /** [places + 1] first stratum of each place */
  readonly strataOf: Uint32Array
  /** [places x cuts] cumulative allotment that lands in the columns of a place */
  readonly columnSums: Float64Array
  /** [places x cuts x cuts] cumulative allotment that lands in the rows of a column */
  readonly rowSums: Float64Array
  /** [(cuts + 1) x strata] share of each stratum that lands short of each cut, across and up; 0 at first, 1 at last */
  readonly across: Float64Array
  readonly up: Float64Array
  /** [cuts x strata] allotment of each stratum that lands in a column, and share of it that lands in a row */
  readonly inColumn: Float64Array
  readonly inRow: Float64Array
  /** [strata x TURN_STRIDE] cosine and sine across, cosine and sine up */
  readonly turns: Float64Array
}

export const TURN_STRIDE = 4

/** Cuts of a place with few strata: finer ones sharpen no result. */
const MOST_CUTS = 64
/** Shares in one table at most. */
const MOST_SHARES = 262_144
/** The grid reaches so many spreads past the middle of every stratum; the outermost columns and rows have no end. */
const REACH = 3

/** Lays out the strata of a scene. */
export function landingGrid(strata: S.Strata): LandingGrid {
  const { count, table, allotment } = strata
  const strataOf = placesOf(strata)
  const places = strataOf.length - 1
  const cuts = Math.max(1, Math.min(MOST_CUTS, Math.floor(MOST_SHARES / count)))
  const across = new Float64Array((cuts + 1) * count)
  const up = new Float64Array((cuts + 1) * count)
  const turns = new Float64Array(count * TURN_STRIDE)
  for (let p = 0; p < places; p++) {
    const [from, to] = [strataOf[p]!, strataOf[p + 1]!]
    const rows = Array.from({ length: to - from }, (_, i) => (from + i) * S.STRATUM_STRIDE)
    const turned = [rows.map((row) => turnAcross(table, row)), rows.map((row) => turnUp(table, row))] as const
    fillShares(turned[0], cuts, count, from, across)
    fillShares(turned[1], cuts, count, from, up)
    for (let i = 0; i < rows.length; i++) {
      const { cosine, sine } = turned[0][i]!
      turns.set([cosine, sine, turned[1][i]!.cosine, turned[1][i]!.sine], (from + i) * TURN_STRIDE)
    }
  }
  const inColumn = new Float64Array(cuts * count)
  const inRow = new Float64Array(cuts * count)
  for (let at = 0; at < inColumn.length; at++) {
    inColumn[at] = allotment[at % count]! * (across[at + count]! - across[at]!)
    inRow[at] = up[at + count]! - up[at]!
  }
  const sums = sumsOf(strataOf, cuts, count, inColumn, inRow)
  return { strata: count, cuts, ...sums, strataOf, across, up, inColumn, inRow, turns }
}

/** First stratum of each place, then their number: strata that follow each other from one patch in one branch. */
function placesOf({ count, table }: S.Strata): Uint32Array {
  const places: number[] = []
  const columns = [S.SPOT, S.BRANCH, S.ORIGIN_KIND, ...Array.from({ length: 6 }, (_, k) => S.ORIGIN + k)]
  for (let s = 0; s < count; s++) {
    const row = s * S.STRATUM_STRIDE
    const before = row - S.STRATUM_STRIDE
    if (s === 0 || columns.some((column) => table[row + column] !== table[before + column])) places.push(s)
  }
  return Uint32Array.from([...places, count])
}

/** Share of each stratum of a place that lands short of each cut; cuts lie at equal steps of the angle. */
function fillShares(turned: readonly AimTurn[], cuts: number, count: number, from: number, out: Float64Array): void {
  const low = turned.reduce((least, { middle, spread }) => Math.min(least, middle - REACH * spread), Infinity)
  const high = turned.reduce((most, { middle, spread }) => Math.max(most, middle + REACH * spread), -Infinity)
  for (let c = 1; c < cuts; c++) {
    const angle = low + ((high - low) * c) / cuts
    for (const [i, { middle, spread }] of turned.entries())
      out[c * count + from + i] = cumulativeNormal((angle - middle) / spread)
  }
  out.fill(1, cuts * count + from, cuts * count + from + turned.length)
}

/** Cumulative allotments of places, of columns in each place and of rows in each column. */
function sumsOf(
  strataOf: Uint32Array,
  cuts: number,
  count: number,
  inColumn: Float64Array,
  inRow: Float64Array,
): Pick<LandingGrid, "placeSums" | "columnSums" | "rowSums"> {
  const places = strataOf.length - 1
  const placeSums = new Float64Array(places)
  const columnSums = new Float64Array(places * cuts)
  const rowSums = new Float64Array(places * cuts * cuts)
  let all = 0
  for (let p = 0; p < places; p++) {
    let sum = 0
    for (let c = 0; c < cuts; c++) {
      const column = p * cuts + c
      let inside = 0
      for (let r = 0; r < cuts; r++) {
        for (let s = strataOf[p]!; s < strataOf[p + 1]!; s++) inside += inColumn[c * count + s]! * inRow[r * count + s]!
        rowSums[column * cuts + r] = inside
      }
      sum += inside
      columnSums[column] = sum
    }
    all += sum
    placeSums[p] = all
  }
  return { placeSums, columnSums, rowSums }
}
