/**
 * Philox4x32-10: four random words as a pure function of a counter of four words and a key of two.
 * Salmon, Moraes, Dror and Shaw, "Parallel random numbers: as easy as 1, 2, 3", SC11, 2011.
 *
 * One round multiplies two counter words by fixed multipliers, 32 x 32 -> 64 bits, and mixes the halves with the other
 * two words and the key, which then grows by fixed steps. The low half is Math.imul. The high half is the truncated
 * double product a * (M / 2^32): it is scaled by a power of two, so the only error is the rounding of a 64-bit product
 * to 53 bits. Multiples of 2^32 are doubles, so rounding can reach the next one but never cross it: the high half is
 * one too large only when the product became a whole number although the low half is within 2^10 of wrapping.
 */

/** Multipliers as words, and divided by 2^32 (exact). */
const MULTIPLIER_0 = 0xd2511f53
const MULTIPLIER_1 = 0xcd9e8d57
const SCALED_0 = MULTIPLIER_0 / 0x100000000
const SCALED_1 = MULTIPLIER_1 / 0x100000000
/** Steps of the key from round to round: golden ratio and square root of three less one. */
const KEY_STEP_0 = 0x9e3779b9
const KEY_STEP_1 = 0xbb67ae85
const ROUNDS = 10
/** Low halves from here on may have rounded the high half up. */
const NEARLY_WRAPPED = 0xfffffc00

/**
 * Writes the four words of one counter to `out[at .. at + 3]`. Counters and keys are 32-bit words, signed or not; words
 * come out unsigned. Nothing is allocated. About 11 ns per word; {@link philox4x32Pair} takes about 8.
 */
export function philox4x32(
  counter0: number,
  counter1: number,
  counter2: number,
  counter3: number,
  key0: number,
  key1: number,
  out: Uint32Array,
  at: number,
): void {
  let a = counter0 | 0
  let b = counter1 | 0
  let c = counter2 | 0
  let d = counter3 | 0
  let k0 = key0 | 0
  let k1 = key1 | 0
  for (let round = 0; round < ROUNDS; round++) {
    // low and high halves of both products
    const low0 = Math.imul(a, MULTIPLIER_0)
    const low1 = Math.imul(c, MULTIPLIER_1)
    const product0 = (a >>> 0) * SCALED_0
    const product1 = (c >>> 0) * SCALED_1
    let high0 = product0 | 0
    let high1 = product1 | 0
    if (low0 >>> 0 >= NEARLY_WRAPPED && high0 >>> 0 === product0) high0 = (high0 - 1) | 0
    if (low1 >>> 0 >= NEARLY_WRAPPED && high1 >>> 0 === product1) high1 = (high1 - 1) | 0
    // mix with the other words and the key
    a = high1 ^ b ^ k0
    b = low1
    c = high0 ^ d ^ k1
    d = low0
    k0 = (k0 + KEY_STEP_0) | 0
    k1 = (k1 + KEY_STEP_1) | 0
  }
  out[at] = a
  out[at + 1] = b
  out[at + 2] = c
  out[at + 3] = d
}

/**
 * Two counters side by side, which keeps the processor busy: the counter words a and b differ, c, d and the key are
 * shared. Writes eight words to `out[0 .. 7]`, those of (a, b, c, d) first, then those of (e, f, c, d).
 */
export function philox4x32Pair(
  counterA: number,
  counterB: number,
  counterE: number,
  counterF: number,
  counterC: number,
  counterD: number,
  key0: number,
  key1: number,
  out: Uint32Array,
): void {
  let a = counterA | 0
  let b = counterB | 0
  let c = counterC | 0
  let d = counterD | 0
  let e = counterE | 0
  let f = counterF | 0
  let g = counterC | 0
  let h = counterD | 0
  let k0 = key0 | 0
  let k1 = key1 | 0
  for (let round = 0; round < ROUNDS; round++) {
    // low and high halves of all four products
    const low0 = Math.imul(a, MULTIPLIER_0)
    const low1 = Math.imul(c, MULTIPLIER_1)
    const low2 = Math.imul(e, MULTIPLIER_0)
    const low3 = Math.imul(g, MULTIPLIER_1)
    const product0 = (a >>> 0) * SCALED_0
    const product1 = (c >>> 0) * SCALED_1
    const product2 = (e >>> 0) * SCALED_0
    const product3 = (g >>> 0) * SCALED_1
    let high0 = product0 | 0
    let high1 = product1 | 0
    let high2 = product2 | 0
    let high3 = product3 | 0
    if (low0 >>> 0 >= NEARLY_WRAPPED && high0 >>> 0 === product0) high0 = (high0 - 1) | 0
    if (low1 >>> 0 >= NEARLY_WRAPPED && high1 >>> 0 === product1) high1 = (high1 - 1) | 0
    if (low2 >>> 0 >= NEARLY_WRAPPED && high2 >>> 0 === product2) high2 = (high2 - 1) | 0
    if (low3 >>> 0 >= NEARLY_WRAPPED && high3 >>> 0 === product3) high3 = (high3 - 1) | 0
    // mix with the other words and the key
    a = high1 ^ b ^ k0
    b = low1
    c = high0 ^ d ^ k1
    d = low0
    e = high3 ^ f ^ k0
    f = low3
    g = high2 ^ h ^ k1
    h = low2
    k0 = (k0 + KEY_STEP_0) | 0
    k1 = (k1 + KEY_STEP_1) | 0
  }
  out[0] = a
  out[1] = b
  out[2] = c
  out[3] = d
  out[4] = e
  out[5] = f
  out[6] = g
  out[7] = h
}
