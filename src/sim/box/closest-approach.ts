import { BOX_H, BOX_LEAST, BOX_MOST, BOX_Q, BOX_RECORD, BOX_W } from "../box-record.ts"

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

/** Fills CLOSEST_AT: by Newton on the piecewise linear slope, kept inside a bracket, from nearest the box's centre. */
export function findClosest(line: Float64Array): void {
  const least = line[BOX_LEAST]!
  const most = line[BOX_MOST]!
  let along = 0
  let long = 0
  for (let i = 0; i < 3; i++) {
    along -= line[BOX_Q + i]! * line[BOX_W + i]!
    long += line[BOX_W + i]! * line[BOX_W + i]!
  }
  let s = Math.min(most, Math.max(least, along / long))
  let low = least - 1
  let high = most + 1
  for (let step = 0; step < MOST_STEPS; step++) {
    let slope = 0
    let curvature = 0
    for (let i = 0; i < 3; i++) {
      const w = line[BOX_W + i]!
      const e = excessAt(line, i, s)
      if (e === 0) continue
      slope += e * w
      curvature += w * w
    }
    // at the lowest point, or inside the core
    if (Math.abs(slope) <= NO_STEP * curvature) break
    if (slope > 0) high = s
    else low = s
    if (s === (slope > 0 ? least : most)) break
    let next = Math.min(most, Math.max(least, s - slope / curvature))
    if (next <= low || next >= high) next = 0.5 * (low + high) // Newton would cycle between two kinks
    s = next
  }
  line[CLOSEST_AT] = s
}

/** Way out of the core along its axis i, at s. */
export function excessAt(line: Float64Array, i: number, s: number): number {
  const q = line[BOX_Q + i]! + s * line[BOX_W + i]!
  const h = line[BOX_H + i]!
  return q > h ? q - h : q < -h ? q + h : 0
}
