import * as boxColumns from "../box-record.ts"
import type { Metres } from "../units.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { BOX_H, BOX_LEAST, BOX_MOST, BOX_Q, BOX_RECORD, BOX_W } = boxColumns

/**
 * Where a straight line comes closest to the core of a box, q(s) = q + s w in the box's own axes, s in [least, most]:
 *
 *   excess     e_i(s) = q_i(s) - clamp(q_i(s), -h_i, h_i)
 *   closest    minimise |e(s)|^2: convex in s, its slope sum e_i w_i is piecewise linear and never falls
 */

/** Column, behind those of the record, of s at the closest approach. */
export const CLOSEST_AT = BOX_RECORD
export const CLOSEST_RECORD = BOX_RECORD + 1

/** Newton steps at most: six kinks, each passed at most twice; two or three are usual. */
const MOST_STEPS = 24
/** A step shorter than this share of a unit of s is none. */
const NO_STEP = 1e-12

/**
 * Fills CLOSEST_AT: by Newton on the piecewise linear slope, kept inside a bracket, from nearest the box's centre. Gives the
 * distance from the core there, metres; 0 inside.
 */
export function findClosest(line: Float64Array): Metres {
  const q0 = line[BOX_Q]!
  const q1 = line[BOX_Q + 1]!
  const q2 = line[BOX_Q + 2]!
  const w0 = line[BOX_W]!
  const w1 = line[BOX_W + 1]!
  const w2 = line[BOX_W + 2]!
  const h0 = line[BOX_H]!
  const h1 = line[BOX_H + 1]!
  const h2 = line[BOX_H + 2]!
  const least = line[BOX_LEAST]!
  const most = line[BOX_MOST]!
  let s = -(q0 * w0 + q1 * w1 + q2 * w2) / (w0 * w0 + w1 * w1 + w2 * w2)
  if (s < least) s = least
  else if (s > most) s = most
  let low = least - 1
  let high = most + 1
  let e0 = 0
  let e1 = 0
  let e2 = 0
  for (let step = 0; step < MOST_STEPS; step++) {
    let slope = 0
    let curvature = 0
    const r0 = q0 + s * w0
    e0 = r0 > h0 ? r0 - h0 : r0 < -h0 ? r0 + h0 : 0
    if (e0 !== 0) {
      slope = e0 * w0
      curvature = w0 * w0
    }
    const r1 = q1 + s * w1
    e1 = r1 > h1 ? r1 - h1 : r1 < -h1 ? r1 + h1 : 0
    if (e1 !== 0) {
      slope += e1 * w1
      curvature += w1 * w1
    }
    const r2 = q2 + s * w2
    e2 = r2 > h2 ? r2 - h2 : r2 < -h2 ? r2 + h2 : 0
    if (e2 !== 0) {
      slope += e2 * w2
      curvature += w2 * w2
    }
    // at the lowest point, or inside the core
    if (slope <= NO_STEP * curvature && slope >= -NO_STEP * curvature) break
    if (slope > 0) {
      if (s === least) break
      high = s
    } else {
      if (s === most) break
      low = s
    }
    let next = s - slope / curvature
    if (next < least) next = least
    else if (next > most) next = most
    if (next <= low || next >= high) next = 0.5 * (low + high) // Newton would cycle between two kinks
    s = next
  }
  line[CLOSEST_AT] = s
  return Math.sqrt(e0 * e0 + e1 * e1 + e2 * e2)
}

/** Way out of the core along its axis i, at s. */
export function excessAt(line: Float64Array, i: number, s: number): number {
  const q = line[BOX_Q + i]! + s * line[BOX_W + i]!
  const h = line[BOX_H + i]!
  return q > h ? q - h : q < -h ? q + h : 0
}
