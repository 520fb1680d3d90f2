import seedrandom from "seedrandom"
import { PART_STRIDE } from "../../src/sim/parts.ts"

/** A seeded generator for tests: uniform in [0, 1). */
export function seeded(text: string): () => number {
  return seedrandom(text)
}

/** Three random perpendicular unit axes. */
export function rotation(random: () => number): number[] {
  const a = unit([random() - 0.5, random() - 0.5, random() - 0.5])
  const b0 = [random() - 0.5, random() - 0.5, random() - 0.5]
  const dot = a[0]! * b0[0]! + a[1]! * b0[1]! + a[2]! * b0[2]!
  const b = unit(b0.map((v, i) => v - dot * a[i]!))
  const c = [a[1]! * b[2]! - a[2]! * b[1]!, a[2]! * b[0]! - a[0]! * b[2]!, a[0]! * b[1]! - a[1]! * b[0]!]
  return [...a, ...b, ...c]
}

/** One row of a part table. */
export function partAt(centre: number[], axes: number[] | undefined, half: number[], rounding: number): Float64Array {
  const part = new Float64Array(PART_STRIDE)
  part.set(centre, 0)
  part.set(axes ?? [1, 0, 0, 0, 1, 0, 0, 0, 1], 3)
  part.set(half, 12)
  part[15] = rounding
  return part
}

function unit(v: number[]): number[] {
  const n = Math.sqrt(v[0]! ** 2 + v[1]! ** 2 + v[2]! ** 2)
  return v.map((c) => c / n)
}
