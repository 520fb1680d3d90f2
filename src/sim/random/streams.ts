import { philox4x32, philox4x32Pair } from "./philox.ts"

/**
 * Named streams of uniforms with addressable slots. Draw i of shot n is a function of (key, replicate, stream, n, i)
 * alone: neither the worker, the batch nor the number of draws another play takes can shift it, and the same shot meets
 * every pose.
 *
 * Philox counter: (shot, slot block, stream, replicate), where slot block = floor(draw / 4).
 */

/** What the play does: where the pass goes, what varies in its timing. */
export const PLAY = 0
/** Where the shot leaves from, where it is aimed, speed and aim error. */
export const SHOOTER = 1
/** What happens to the puck on its way: tips, screens, iron, rebounds. */
export const PUCK = 2
/** What the goalie does: reaction, reading, position and placement errors. */
export const GOALIE = 3
/** Which replicates a bootstrap takes again: statistics of a run, no shot's. */
export const BOOTSTRAP = 4
/** Where the points of a design lie, scrambled and in which order: no shot's either. */
export const DESIGN = 5
/** What happens to a puck that a save leaves loose, and the second shot. */
export const REBOUND = 6
/** How the points of a replicate are scrambled, where its draws are points of a sequence. */
export const POINTS = 7
export type Stream =
  | typeof PLAY
  | typeof SHOOTER
  | typeof PUCK
  | typeof GOALIE
  | typeof BOOTSTRAP
  | typeof DESIGN
  | typeof REBOUND
  | typeof POINTS

/** Two 32-bit words made from the person's seed. Plain data, structured-clone safe. */
export type SeedKey = readonly [number, number]

const TWO_TO_MINUS_32 = 1 / 0x100000000
const WORDS_PER_BLOCK = 4

/**
 * Fills `out` [count x draws] with uniforms in the open interval (0, 1) for shots `firstShot .. firstShot + count - 1`:
 * u = (word + 1/2) / 2^32, so the least is 2^-33 and the greatest 1 - 2^-33.
 * Throws a RangeError when `out` is too short.
 */
export function fillUniforms(
  key: SeedKey,
  replicate: number,
  stream: Stream,
  firstShot: number,
  count: number,
  draws: number,
  out: Float64Array,
): void {
  if (out.length < count * draws) {
    throw new RangeError(
      `Cannot fill uniforms as out must be at least count x draws = ${count * draws} long: current value is ${out.length}`,
    )
  }
  const words = new Uint32Array(2 * WORDS_PER_BLOCK)
  const key0 = key[0] | 0
  const key1 = key[1] | 0
  for (let slot = 0; slot < draws; slot += WORDS_PER_BLOCK) {
    const block = slot / WORDS_PER_BLOCK
    const width = Math.min(WORDS_PER_BLOCK, draws - slot)
    // two shots at a time; a last odd shot computes one too many and drops it
    for (let shot = 0; shot < count; shot += 2) {
      const counter = firstShot + shot
      philox4x32Pair(counter, block, counter + 1, block, stream, replicate, key0, key1, words)
      const at = shot * draws + slot
      for (let i = 0; i < width; i++) out[at + i] = (words[i]! + 0.5) * TWO_TO_MINUS_32
      if (shot + 1 === count) break
      const next = at + draws
      for (let i = 0; i < width; i++) out[next + i] = (words[WORDS_PER_BLOCK + i]! + 0.5) * TWO_TO_MINUS_32
    }
  }
}

/** One draw by its address: the same number {@link fillUniforms} puts there. For replays and rare needs. */
export function uniformAt(key: SeedKey, replicate: number, stream: Stream, shot: number, draw: number): number {
  const words = new Uint32Array(WORDS_PER_BLOCK)
  philox4x32(shot, Math.floor(draw / WORDS_PER_BLOCK), stream, replicate, key[0], key[1], words, 0)
  return (words[draw % WORDS_PER_BLOCK]! + 0.5) * TWO_TO_MINUS_32
}
