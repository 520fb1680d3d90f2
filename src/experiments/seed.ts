import seedrandom from "seedrandom"
import type { SeedKey } from "../sim/random/streams.ts"

/**
 * Turns the person's seed, any text, into the key of all random streams: the first two 32-bit words of seedrandom's
 * ARC4 generator seeded with it. The same text gives the same key on every machine; the empty text is a seed like any
 * other.
 */
export function seedKey(seedText: string): SeedKey {
  const generator = seedrandom(seedText)
  return [generator.int32() >>> 0, generator.int32() >>> 0]
}
