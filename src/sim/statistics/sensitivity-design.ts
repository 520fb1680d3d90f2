import { scrambledSobol } from "../random/sobol.ts"
import type { SeedKey } from "../random/streams.ts"

/**
 * Where a function of several quantities is evaluated to find its sensitivity indices: two independent sets of points A
 * and B, and for each quantity the points of A with that quantity taken from B. A. Saltelli et al., Comput. Phys. Commun.
 * 181 (2010), 259-270, the design A, B, A_B^(i): sets x (quantities + 2) evaluations.
 */
export interface SensitivityDesign {
  /** Points of A, as many of B: a power of two. */
  readonly sets: number
  readonly quantities: number
  /** sets x (quantities + 2) */
  readonly rows: number
  /** [rows x quantities] in (0, 1): the block of A, the block of B, then a block for each quantity. */
  readonly points: Float64Array
}

/** Spreads the points by a scrambled Sobol' sequence, A over its first dimensions and B over the next as many. */
export function sensitivityDesign(
  key: SeedKey,
  replicate: number,
  sets: number,
  quantities: number,
): SensitivityDesign {
  const both = scrambledSobol(key, replicate, sets, 2 * quantities)
  const rows = sets * (quantities + 2)
  const points = new Float64Array(rows * quantities)
  for (let block = 0; block < quantities + 2; block++) {
    for (let set = 0; set < sets; set++) {
      const to = (block * sets + set) * quantities
      const from = set * 2 * quantities
      for (let q = 0; q < quantities; q++) {
        const fromB = block === 1 || block === q + 2
        points[to + q] = both[from + q + (fromB ? quantities : 0)]!
      }
    }
  }
  return { sets, quantities, rows, points }
}
