/**
 * Owen's nested uniform scrambling in base 2: each binary digit of a number is flipped or kept by a fair coin of its own
 * that hangs on all digits above it, so that numbers in one interval stay together at every scale and everything else
 * is by chance. A. B. Owen, in Monte Carlo and Quasi-Monte Carlo Methods in Scientific Computing (1995), 299-317.
 *
 * The coins of all 2^32 - 1 places are no table but a hash of the place and two key words: a digit costs one hash.
 */

/** Scrambles 32 binary digits (the number times 2^32); a bijection for each key. Returns an unsigned word. */
export function nestedScramble(word: number, key0: number, key1: number): number {
  let flips = 0
  for (let digit = 0; digit < 32; digit++) {
    // digits above this one behind a leading 1: a number of its own for every place of the tree
    const place = digit === 0 ? 1 : (1 << digit) | (word >>> (32 - digit))
    flips |= (coin(place, key0, key1) >>> 31) << (31 - digit)
  }
  return (word ^ flips) >>> 0
}

/** Two rounds of a mixer whose every output bit changes with about half of single-bit changes of its input. */
function coin(place: number, key0: number, key1: number): number {
  return mix(mix(place ^ key0) + key1)
}

/** Multiply and shift thrice: the two-multiplier form with constants found by C. Wellons (2018), bias 0.11. */
function mix(word: number): number {
  let x = word | 0
  x = Math.imul(x ^ (x >>> 16), 0x21f0aaad)
  x = Math.imul(x ^ (x >>> 15), 0xd35a2d97)
  return x ^ (x >>> 15)
}
