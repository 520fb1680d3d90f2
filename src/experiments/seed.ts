import seedrandom from "seedrandom"
import type { SeedKey } from "../sim/random/streams.ts"

/**
 * Turns the person's seed, any text, into the key of all random streams: the first two 32-bit words of seedrandom's
 * ARC4 generator. The same text gives the same key on every machine; the empty text is a seed like any other.
 *
 * seedrandom repeats a short text until it fills its table ("1", "11" and "111" are one seed to it) and keeps only the
 * low byte of each character, so it is given the number of characters followed by their code points.
 */
export function seedKey(seedText: string): SeedKey {
  const codes = Array.from(seedText, (character) => character.codePointAt(0))
  const generator = seedrandom([codes.length, ...codes].join(" "))
  return [generator.int32() >>> 0, generator.int32() >>> 0]
}
