import { nestedScramble } from "./nested-scramble.ts"
import { philox4x32 } from "./philox.ts"
import { DIGITS, DIRECTIONS, SOBOL_DIMENSIONS } from "./sobol-directions.ts"
import { DESIGN, type SeedKey } from "./streams.ts"

/**
 * The Sobol' sequence, with and without Owen's scrambling, for points spread evenly over a box of many dimensions.
 * I. M. Sobol', USSR Comput. Math. Math. Phys. 7 (1967), 86-112; direction numbers of Joe and Kuo (2008); Gray-code
 * order after Antonov and Saleev (1979).
 */

const TWO_TO_MINUS_32 = 1 / 0x100000000
/** Keys of the orders of whole groups of dimensions lie beyond those of the dimensions themselves. */
const ORDER = 0x10000

/**
 * Coordinate of point `index` (0 to 2^32 - 1) in `dimension` (0 to 31) as 32 binary digits: the coordinate times 2^32.
 * Throws a RangeError for a dimension that the sequence does not have.
 */
export function sobolWord(index: number, dimension: number): number {
  if (!(Number.isInteger(dimension) && dimension >= 0 && dimension < SOBOL_DIMENSIONS)) {
    const rule = `a whole number from 0 to ${SOBOL_DIMENSIONS - 1}`
    throw new RangeError(`Cannot make a Sobol' point as dimension must be ${rule}: current value is ${dimension}`)
  }
  const row = dimension * DIGITS
  let word = 0
  let left = index ^ (index >>> 1)
  for (let digit = 0; left !== 0; digit++, left >>>= 1) if ((left & 1) === 1) word ^= DIRECTIONS[row + digit]!
  return word >>> 0
}

/**
 * `count` scrambled points, a power of two, as [count x dimensions] coordinates in the open interval (0, 1). The same
 * key and replicate give the same points; other replicates give independent sets.
 *
 * Each dimension alone is cut into `count` equal parts that hold one point each, and each whole group of 32 dimensions
 * is a net as even as the sequence itself. Dimensions beyond the 32nd are the same ones scrambled anew in an order of
 * their own, after B. Burley, J. Comput. Graph. Tech. 9 (2020), 1-20: even alone and within their group, and by chance
 * across groups. Throws a RangeError when count is no power of two up to 2^31.
 */
export function scrambledSobol(key: SeedKey, replicate: number, count: number, dimensions: number): Float64Array {
  const digits = Math.log2(count)
  if (!(Number.isInteger(digits) && digits >= 0 && digits < DIGITS)) {
    throw new RangeError(`Cannot spread points as count must be a power of two up to 2^31: current value is ${count}`)
  }
  const points = new Float64Array(count * dimensions)
  const words = new Uint32Array(4)
  for (let d = 0; d < dimensions; d++) {
    const group = Math.floor(d / SOBOL_DIMENSIONS)
    const order = orderOf(key, replicate, group, digits, words)
    philox4x32(d, 0, DESIGN, replicate, key[0], key[1], words, 0)
    const [first, second] = [words[0]!, words[1]!]
    for (let i = 0; i < count; i++) {
      const word = nestedScramble(sobolWord(order(i), d % SOBOL_DIMENSIONS), first, second)
      points[i * dimensions + d] = (word + 0.5) * TWO_TO_MINUS_32
    }
  }
  return points
}

/** Which point of the sequence stands at each place: the first group's in their own order, later ones permuted. */
function orderOf(
  key: SeedKey,
  replicate: number,
  group: number,
  digits: number,
  words: Uint32Array,
): (index: number) => number {
  if (group === 0 || digits === 0) return (index) => index
  philox4x32(ORDER + group, 0, DESIGN, replicate, key[0], key[1], words, 0)
  const [first, second] = [words[0]!, words[1]!]
  return (index) => nestedScramble(index << (DIGITS - digits), first, second) >>> (DIGITS - digits)
}
