/**
 * Where the digits of each dimension of the Sobol' sequence come from: a primitive polynomial over two elements, its
 * coefficients as the bits of a number, then the first odd integers of the recurrence, as many as its degree (one for
 * the first dimension, which is van der Corput's sequence). S. Joe and F. Y. Kuo, SIAM J. Sci. Comput. 30 (2008),
 * 2635-2654, table new-joe-kuo-6, its first 32 dimensions.
 */
const RECURRENCES: readonly (readonly [polynomial: number, ...first: number[]])[] = [
  [1, 1],
  [3, 1],
  [7, 1, 3],
  [11, 1, 3, 1],
  [13, 1, 1, 1],
  [19, 1, 1, 3, 3],
  [25, 1, 3, 5, 13],
  [37, 1, 1, 5, 5, 17],
  [41, 1, 1, 5, 5, 5],
  [47, 1, 1, 7, 11, 19],
  [55, 1, 1, 5, 1, 1],
  [59, 1, 1, 1, 3, 11],
  [61, 1, 3, 5, 5, 31],
  [67, 1, 3, 3, 9, 7, 49],
  [91, 1, 1, 1, 15, 21, 21],
  [97, 1, 3, 1, 13, 27, 49],
  [103, 1, 1, 1, 15, 7, 5],
  [109, 1, 3, 1, 15, 13, 25],
  [115, 1, 1, 5, 5, 19, 61],
  [131, 1, 3, 7, 11, 23, 15, 103],
  [137, 1, 3, 7, 13, 13, 15, 69],
  [143, 1, 1, 3, 13, 7, 35, 63],
  [145, 1, 3, 5, 9, 1, 25, 53],
  [157, 1, 3, 1, 13, 9, 35, 107],
  [167, 1, 3, 1, 5, 27, 61, 31],
  [171, 1, 1, 5, 11, 19, 41, 61],
  [185, 1, 3, 5, 3, 3, 13, 69],
  [191, 1, 1, 7, 13, 1, 19, 1],
  [193, 1, 3, 7, 5, 13, 19, 59],
  [203, 1, 1, 3, 9, 25, 29, 41],
  [211, 1, 3, 5, 13, 23, 1, 55],
  [213, 1, 3, 7, 3, 13, 59, 17],
]

/** Dimensions of the sequence. */
export const SOBOL_DIMENSIONS = RECURRENCES.length
/** Binary digits of each coordinate. */
export const DIGITS = 32

/** [dimensions x digits] direction numbers with the first digit in the highest bit; filled once and only read. */
export const DIRECTIONS = directionNumbers()

function directionNumbers(): Uint32Array {
  const table = new Uint32Array(SOBOL_DIMENSIONS * DIGITS)
  RECURRENCES.forEach(([polynomial, ...first], dimension) => {
    const row = table.subarray(dimension * DIGITS, (dimension + 1) * DIGITS)
    const degree = first.length
    for (let digit = 0; digit < DIGITS; digit++) {
      // van der Corput: every integer of the recurrence is 1
      if (dimension === 0) row[digit] = 1 << (DIGITS - 1 - digit)
      else row[digit] = digit < degree ? first[digit]! << (DIGITS - 1 - digit) : next(row, digit, polynomial, degree)
    }
  })
  return table
}

/** One step of the recurrence on integers that are kept shifted to the top. */
function next(row: Uint32Array, digit: number, polynomial: number, degree: number): number {
  let word = row[digit - degree]! ^ (row[digit - degree]! >>> degree)
  for (let back = 1; back < degree; back++) {
    if (((polynomial >>> (degree - back)) & 1) === 1) word ^= row[digit - back]!
  }
  return word
}
