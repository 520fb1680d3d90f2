import type { PlacedBody } from "../../../src/sim/box/placed.ts"
import { PART_STRIDE } from "../../../src/sim/parts.ts"
import { partAt, rotation } from "../bodies.ts"

export const MOUTH = { width: 1.8288, height: 1.2192, postRadius: 0.03016, barRadius: 0.03016 }
export const AREA = MOUTH.width * MOUTH.height
export const DISC = [0.0381, 0.0127] as const

/** A crowd of random parts before the mouth. */
export function crowd(random: () => number, count: number, smallest = 0.01): PlacedBody {
  return bodyOf(
    ...Array.from({ length: count }, () => {
      const size = () => (random() < 0.3 ? 0 : random() * 0.2)
      const centre = [0.2 + random(), random() * 1.2 - 0.6, random() * 1.1]
      return partAt(centre, rotation(random), [size(), size(), size()], smallest + random() * 0.08)
    }),
  )
}

/** A body of the given parts, carried by no limb. */
export function bodyOf(...parts: Float64Array[]): PlacedBody {
  const table = new Float64Array(parts.length * PART_STRIDE)
  for (const [i, part] of parts.entries()) table.set(part, i * PART_STRIDE)
  const region = new Uint8Array(parts.length)
  return { count: parts.length, parts: table, region, carrier: new Uint8Array(parts.length).fill(255) }
}

/** Plate without thickness across the mouth at x, from y0 to y1 and z0 to z1. */
export function plateOf(x: number, y0: number, y1: number, z0: number, z1: number): Float64Array {
  return partAt([x, (y0 + y1) / 2, (z0 + z1) / 2], undefined, [0, (y1 - y0) / 2, (z1 - z0) / 2], 0)
}
