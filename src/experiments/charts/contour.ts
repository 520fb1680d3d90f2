/** One straight piece of a contour, from [x, y] to [x, y]. */
export type Segment = readonly [number, number, number, number]

/**
 * Pieces of the line where a field on a grid of places equals `level`, by marching squares with straight
 * interpolation. `field[row][column]` belongs to (x[column], y[row]); infinite values stand for "far beyond".
 */
export function contourOf(
  x: readonly number[],
  y: readonly number[],
  field: readonly (readonly number[])[],
  level: number,
): Segment[] {
  const segments: Segment[] = []
  for (let row = 0; row + 1 < y.length; row++) {
    for (let column = 0; column + 1 < x.length; column++) {
      if (isOnOneSide(field[row]!, field[row + 1]!, column, level)) continue
      const crossings = crossingsOf(x, y, field, level, row, column)
      // two crossings make one piece, four (a saddle) make two
      for (let at = 0; at + 1 < crossings.length; at += 2) segments.push([...crossings[at]!, ...crossings[at + 1]!])
    }
  }
  return segments
}

/** Whether all four corners of a square lie on one side of the level, as most do. */
function isOnOneSide(lower: readonly number[], upper: readonly number[], column: number, level: number): boolean {
  const side = lower[column]! >= level
  return (
    side === lower[column + 1]! >= level && side === upper[column]! >= level && side === upper[column + 1]! >= level
  )
}

/** Where the four sides of one square are crossed, in order around it. */
function crossingsOf(
  x: readonly number[],
  y: readonly number[],
  field: readonly (readonly number[])[],
  level: number,
  row: number,
  column: number,
): (readonly [number, number])[] {
  const corners = [
    [column, row],
    [column + 1, row],
    [column + 1, row + 1],
    [column, row + 1],
  ] as const
  return corners.flatMap(([fromColumn, fromRow], at) => {
    const [toColumn, toRow] = corners[(at + 1) % 4]!
    const [from, to] = [field[fromRow]![fromColumn]!, field[toRow]![toColumn]!]
    if (from >= level === to >= level) return []
    const share = shareOf(from, to, level)
    const between = (a: number, b: number): number => a + share * (b - a)
    return [[between(x[fromColumn]!, x[toColumn]!), between(y[fromRow]!, y[toRow]!)] as const]
  })
}

/** How far along the side the level lies; beside an infinite end, half-way. */
function shareOf(from: number, to: number, level: number): number {
  const share = (level - from) / (to - from)
  return Number.isFinite(from) && Number.isFinite(to) && Number.isFinite(share) ? share : 0.5
}

/**
 * The same field without specks: a cell that stands alone on its side of the level takes the value of a neighbour, so
 * that no contour is drawn around it.
 */
export function withoutSpecks(field: readonly (readonly number[])[], level: number): number[][] {
  return field.map((row, at) =>
    row.map((value, column) => {
      const neighbours = [row[column - 1], row[column + 1], field[at - 1]?.[column], field[at + 1]?.[column]]
      const known = neighbours.filter((other) => other !== undefined)
      return known.every((other) => other >= level !== value >= level) ? (known[0] ?? value) : value
    }),
  )
}

/** The same grid and field with one more line of places on each edge of the outer cells, so that contours end there. */
export function toTheEdge(
  x: readonly number[],
  y: readonly number[],
  field: readonly (readonly number[])[],
  cell: number,
): { readonly x: number[]; readonly y: number[]; readonly field: number[][] } {
  const longer = (places: readonly number[]): number[] => [places[0]! - cell / 2, ...places, places.at(-1)! + cell / 2]
  const rows = field.map((row) => [row[0]!, ...row, row.at(-1)!])
  return { x: longer(x), y: longer(y), field: [rows[0]!, ...rows, rows.at(-1)!] }
}
