import type { Metres } from "./units.ts"

/**
 * How far a level disc is from a box, slow and obvious: the nearest point of the one to the other and back again, which comes
 * ever nearer to the two that are nearest. The referee's own; the solvers it judges know nothing of it.
 */

/** Turns at most: discs and edges that lie almost along each other need many. */
const MOST_TURNS = 2000
/** A turn that brings the two this much nearer, m, is the last. */
const NO_NEARER: Metres = 1e-11

/** A box in some frame: its middle, three axes, half-sizes. */
export interface SteppedBox {
  readonly middle: readonly number[]
  readonly axes: readonly (readonly number[])[]
  readonly half: readonly number[]
}

/** Metres between the disc about `puck`, z upward, and the box; zero where they overlap. */
export function discToBox(puck: readonly number[], radius: Metres, halfThickness: Metres, box: SteppedBox): Metres {
  let disc = puck
  let distance = Number.POSITIVE_INFINITY
  for (let turn = 0; turn < MOST_TURNS; turn++) {
    const inBox = nearestInBox(disc, box)
    disc = nearestInDisc(inBox, puck, radius, halfThickness)
    const now = Math.hypot(disc[0]! - inBox[0]!, disc[1]! - inBox[1]!, disc[2]! - inBox[2]!)
    if (distance - now < NO_NEARER) return now
    distance = now
  }
  return distance
}

function nearestInBox(point: readonly number[], { middle, axes, half }: SteppedBox): number[] {
  const nearest = [...middle]
  for (const [i, axis] of axes.entries()) {
    let along = 0
    for (let j = 0; j < 3; j++) along += (point[j]! - middle[j]!) * axis[j]!
    const kept = Math.max(-half[i]!, Math.min(half[i]!, along))
    for (let j = 0; j < 3; j++) nearest[j]! += kept * axis[j]!
  }
  return nearest
}

function nearestInDisc(point: readonly number[], puck: readonly number[], radius: Metres, half: Metres): number[] {
  const x = point[0]! - puck[0]!
  const y = point[1]! - puck[1]!
  const z = point[2]! - puck[2]!
  const level = Math.hypot(x, y)
  const inward = level > radius ? radius / level : 1
  return [puck[0]! + inward * x, puck[1]! + inward * y, puck[2]! + Math.max(-half, Math.min(half, z))]
}
