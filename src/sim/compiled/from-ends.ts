import { PLANE_NEAREST, START_C, START_S } from "../box-record.ts"
import { seeAlong } from "../rounded-box.ts"
import { distanceInSpace } from "../swept-disc.ts"

/**
 * What the compiled kernel asks where a path ends near a part: distanceInSpace for the numbers of a record up to the disc's
 * half thickness, rounding left out, with the direction in which the plane's search ended and what it found. `record` is scratch.
 */
export function distanceFromEnds(
  record: Float64Array,
  q0: number,
  q1: number,
  q2: number,
  w0: number,
  w1: number,
  w2: number,
  u0: number,
  u1: number,
  u2: number,
  h0: number,
  h1: number,
  h2: number,
  least: number,
  most: number,
  radius: number,
  half: number,
  c: number,
  s: number,
  nearest: number,
): number {
  record[0] = q0
  record[1] = q1
  record[2] = q2
  record[3] = w0
  record[4] = w1
  record[5] = w2
  record[6] = u0
  record[7] = u1
  record[8] = u2
  record[9] = h0
  record[10] = h1
  record[11] = h2
  record[13] = least
  record[14] = most
  record[15] = radius
  record[16] = half
  seeAlong(record, record)
  record[START_C] = c
  record[START_S] = s
  record[PLANE_NEAREST] = nearest
  distanceInSpace(record, record)
  return record[PLANE_NEAREST]!
}
