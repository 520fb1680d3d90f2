import { PART_STRIDE } from "../parts.ts"
import type { Metres } from "../units.ts"
import { abovePlane } from "./shadow.ts"
import type { Sight } from "./sight.ts"

/**
 * Rows on which a measure of the mouth is taken, with weights that sum to its height.
 *
 * The covered length of a row jumps, or starts like a square root, where a part's shadow begins and ends; between
 * those heights it is smooth but for slight kinks. So the mouth is cut at each begin and end, and Fejer's first rule
 * (nodes crowded toward the ends, which suits square roots) is taken in each strip.
 */
export interface Rows {
  readonly z: Float64Array
  /** m */
  readonly weight: Float64Array
}

/** Rows of each strip: two, and one more for each of this height, m. */
export const ROW_SPACING = 0.008
/** Begins and ends nearer than this to one another are taken as one, m. */
const SAME_HEIGHT = 1e-4

/** Rows from `bottom` to `top` for the parts as seen. */
export function boxRows(
  sight: Sight,
  parts: Float64Array,
  count: number,
  bottom: Metres,
  top: Metres,
  spacing: Metres = ROW_SPACING,
): Rows {
  const cuts = [bottom, top]
  for (let part = 0; part < count; part++) {
    for (const side of [1, -1] as const) {
      const cut = tangentHeight(sight, parts, part * PART_STRIDE, bottom, top, side)
      if (!Number.isNaN(cut)) cuts.push(cut)
    }
  }
  cuts.sort((a, b) => a - b)
  const z: number[] = []
  const weight: number[] = []
  let from = bottom
  for (const to of cuts) {
    if (to - from < SAME_HEIGHT && to !== top) continue
    if (to > from) addStrip(z, weight, from, to, 2 + Math.ceil((to - from) / spacing))
    from = to
  }
  return { z: Float64Array.from(z), weight: Float64Array.from(weight) }
}

/** Height of the row whose plane touches the part from above (1) or below (-1); NaN when outside [bottom, top]. */
function tangentHeight(
  sight: Sight,
  parts: Float64Array,
  at: number,
  bottom: Metres,
  top: Metres,
  side: 1 | -1,
): Metres {
  let low = bottom
  let high = top
  if (abovePlane(sight, parts, at, low, side) <= 0 || abovePlane(sight, parts, at, high, side) >= 0) return Number.NaN
  for (let step = 0; step < 50; step++) {
    const middle = 0.5 * (low + high)
    if (abovePlane(sight, parts, at, middle, side) > 0) low = middle
    else high = middle
  }
  return 0.5 * (low + high)
}

/** Fejer's first rule with n nodes on [from, to]: exact for polynomials of degree n - 1. */
function addStrip(z: number[], weight: number[], from: Metres, to: Metres, n: number): void {
  const half = 0.5 * (to - from)
  for (let k = 0; k < n; k++) {
    const angle = ((k + 0.5) * Math.PI) / n
    let sum = 1
    for (let j = 1; 2 * j < n + 1; j++) sum -= (2 * Math.cos(2 * j * angle)) / (4 * j * j - 1)
    z.push(from + half * (1 - Math.cos(angle)))
    weight.push((half * 2 * sum) / n)
  }
}
