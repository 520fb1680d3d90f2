import { philox4x32 } from "./philox.ts"
import { DIGITS, DIRECTIONS, SOBOL_DIMENSIONS } from "./sobol-directions.ts"
import { POINTS, type SeedKey } from "./streams.ts"

/**
 * The Sobol' sequence scrambled anew for every replicate, for points that are made a batch at a time: each dimension's
 * digits are multiplied by a random lower triangular matrix with a unit diagonal and shifted by random digits (J.
 * Matousek, J. Complexity 14 (1998), 527-556). Any two points are then spread together as under Owen's nested
 * scrambling, so every estimate has the same variance (A. B. Owen, ACM Trans. Model. Comput. Simul. 13 (2003), 363-378).
 * The matrix is put into the direction numbers once a replicate; a coordinate then costs one exclusive or.
 */
export interface ScrambledSequence {
  readonly dimensions: number
  /** [dimensions x DIGITS] scrambled direction numbers, the first `digits` of each filled */
  readonly directions: Int32Array
  /** [dimensions] the shift: the first point */
  readonly shifts: Int32Array
  readonly columns: Int32Array
  readonly words: Uint32Array
  key: SeedKey
  replicate: number
  /** Points below 2^digits can be made. */
  digits: number
}

const TWO_TO_MINUS_32 = 1 / 0x100000000
const WORDS_PER_BLOCK = 4
/** Digits made at first: enough for the points of most runs. */
const USUAL_DIGITS = 10

/**
 * Scratch for one thread's points in some dimensions.
 * @throws RangeError for more dimensions than the sequence has
 */
export function scrambledSequence(dimensions: number): ScrambledSequence {
  if (!(dimensions <= SOBOL_DIMENSIONS))
    throw new RangeError(
      `Cannot scramble a sequence as its dimensions must be <= ${SOBOL_DIMENSIONS}: current value is ${dimensions}`,
    )
  return {
    dimensions,
    directions: new Int32Array(dimensions * DIGITS),
    shifts: new Int32Array(dimensions),
    columns: new Int32Array(DIGITS),
    words: new Uint32Array(WORDS_PER_BLOCK * (1 + DIGITS / WORDS_PER_BLOCK)),
    key: [0, 0],
    replicate: -1,
    digits: 0,
  }
}

/** Makes a replicate's scrambling ready for its first `points` points; nothing is done where it is already. */
export function openReplicate(sequence: ScrambledSequence, key: SeedKey, replicate: number, points: number): void {
  const digits = Math.max(USUAL_DIGITS, DIGITS - Math.clz32(points - 1))
  const [key0, key1] = sequence.key
  const open = sequence.replicate === replicate && key0 === key[0] && key1 === key[1]
  if (open && digits <= sequence.digits) return
  sequence.key = key
  sequence.replicate = replicate
  sequence.digits = digits
  for (let d = 0; d < sequence.dimensions; d++) scrambleDimension(sequence, d)
}

/** One dimension's shift and direction numbers: the matrix times each number, a column for each of its digits. */
function scrambleDimension(sequence: ScrambledSequence, dimension: number): void {
  const { key, replicate, digits, columns, words, directions } = sequence
  for (let block = 0; block * WORDS_PER_BLOCK <= digits; block++)
    philox4x32(block, dimension, POINTS, replicate, key[0], key[1], words, block * WORDS_PER_BLOCK)
  sequence.shifts[dimension] = words[0]!
  // a one on the diagonal, coins below it
  for (let j = 0; j < digits; j++) columns[j] = ((1 << (DIGITS - 1)) >>> j) | ((words[1 + j]! >>> 1) >>> j)
  const row = dimension * DIGITS
  for (let k = 0; k < digits; k++) {
    let left = DIRECTIONS[row + k]!
    let scrambled = 0
    // the k-th number has no digit beyond its k-th
    while (left !== 0) {
      const j = Math.clz32(left)
      scrambled ^= columns[j]!
      left ^= (1 << (DIGITS - 1)) >>> j
    }
    directions[row + k] = scrambled
  }
}

/**
 * Writes the coordinates of points `first` to `first + count - 1` in one dimension, in (0, 1), to `out[at]`,
 * `out[at + stride]` and so on. Gray-code order: each point differs from the one before by one direction number.
 */
export function fillCoordinates(
  sequence: ScrambledSequence,
  dimension: number,
  first: number,
  count: number,
  out: Float64Array,
  at: number,
  stride: number,
): void {
  const { directions } = sequence
  const row = dimension * DIGITS
  let word = sequence.shifts[dimension]!
  let gray = first ^ (first >>> 1)
  for (let k = 0; gray !== 0; k++, gray >>>= 1) if ((gray & 1) === 1) word ^= directions[row + k]!
  out[at] = ((word >>> 0) + 0.5) * TWO_TO_MINUS_32
  for (let i = 1; i < count; i++) {
    const index = first + i
    word ^= directions[row + 31 - Math.clz32(index & -index)]!
    out[at + i * stride] = ((word >>> 0) + 0.5) * TWO_TO_MINUS_32
  }
}
