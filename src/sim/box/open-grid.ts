import { CENTRE, HALF_SIZE, PART_STRIDE, ROUNDING } from "../parts.ts"
import { BOX_RECORD, CLEARANCE, clearancePath } from "../rounded-box.ts"
import type { Metres } from "../units.ts"
import type { Sight } from "./sight.ts"

/**
 * Clearance of the straight path from the puck to each place (0, y, z) of the mouth from the nearest part, metres,
 * [z.length x y.length], rows from z[0] on: more than zero is open. Parts behind the goal line do not count.
 * Infinity without parts. Who asks for no more than the range of clearances that matter is told its nearer end beyond it,
 * and is answered sooner.
 */
export function openGrid(
  sight: Sight,
  parts: Float64Array,
  count: number,
  y: ArrayLike<number>,
  z: ArrayLike<number>,
  [least, most]: readonly [Metres, Metres] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY],
): Float64Array {
  const { px, py, pz, discRadius, discHalf } = sight
  const grid = new Float64Array(y.length * z.length).fill(most)
  const out = new Float64Array(BOX_RECORD)
  const disc = Math.hypot(discRadius, discHalf)
  for (let part = 0; part < count; part++) {
    const at = part * PART_STRIDE
    const dx = parts[at + CENTRE]! - px
    const dy = parts[at + CENTRE + 1]! - py
    const dz = parts[at + CENTRE + 2]! - pz
    const distance = dx * dx + dy * dy + dz * dz
    const reach = boundingRadius(parts, at) + disc
    for (let row = 0; row < z.length; row++) {
      const wz = z[row]! - pz
      for (let column = 0; column < y.length; column++) {
        const cell = row * y.length + column
        if (grid[cell]! <= least) continue
        const wy = y[column]! - py
        // the whole line stays farther from the part's ball than what is already known
        const along = -dx * px + dy * wy + dz * wz
        const beside = distance - (along * along) / (px * px + wy * wy + wz * wz)
        const far = grid[cell]! + reach
        if (far < 0 || beside > far * far) continue
        clearancePath(parts, at, px, py, pz, -px, wy, wz, 0, 1, discRadius, discHalf, out)
        if (out[CLEARANCE]! < grid[cell]!) grid[cell] = Math.max(least, out[CLEARANCE]!)
      }
    }
  }
  return grid
}

/** Radius of the ball about a part's centre that holds it, m. */
export function boundingRadius(parts: Float64Array, at: number): number {
  const h = at + HALF_SIZE
  return Math.sqrt(parts[h]! ** 2 + parts[h + 1]! ** 2 + parts[h + 2]! ** 2) + parts[at + ROUNDING]!
}
