import type { Metres, Probability } from "../units.ts"

/**
 * Who stands between puck and goalie, as one flat table: bodies that hide the puck and stop it, and a stick that may tip
 * it. Empty where nobody does. Bodies are upright boxes in the frame of the shot's line: a out from the middle of the
 * goal line toward the puck, b to the left of a goalie who faces along it, z up. SI.
 */

/** Of the pucks whose way leads through a body, the share that it stops: the others slip by as it moves aside. */
export const STOPS = 0
/** Of the pucks within its reach, the share that the stick touches. */
export const TIP_SHARE = 1
/** Where the stick waits: distance a; it reaches pucks within this of the line, and up to this height. */
export const TIP_DISTANCE = 2
export const TIP_REACH = 3
export const TIP_HEIGHT = 4
/** Standard deviations of the angle by which a tip turns the puck, across and up, rad. */
export const TIP_ACROSS = 5
export const TIP_UP = 6
/** Share of its speed that a tipped puck keeps, and its standard deviation. */
export const TIP_KEEPS = 7
export const TIP_KEEPS_SD = 8
/** Standard deviation, from shot to shot, of how far a body stands off its place, along b. */
export const STRAYS = 9
export const BOX_COUNT = 10
/** First box. */
export const BOXES = 11

/** Columns of a box. */
export const BOX_STRIDE = 7
export const A_LEAST = 0
export const A_MOST = 1
export const B_LEAST = 2
export const B_MOST = 3
export const Z_LEAST = 4
export const Z_MOST = 5
/** Whose body it belongs to: 0 or 1. One draw decides whether a body stops a puck. */
export const BODY = 6

/** Draws of one shot in the PUCK stream: whether each body stops it, whether and how it is tipped, where bodies stand. */
export const PUCK_DRAWS = 12
/** Uniform of body 0, of body 1 at the next. */
export const DRAW_STOPS = 0
export const DRAW_TIPPED = 2
/** Normals. */
export const DRAW_TIP_ACROSS = 3
export const DRAW_TIP_UP = 4
export const DRAW_TIP_KEEPS = 5
/** Uniform of the reaction to the first flight of a tipped shot. */
export const DRAW_FIRST_REACTION = 6
/** Normal of where body 0 stands, of body 1 at the next. */
export const DRAW_STRAYS = 7

/** One upright box, as people say it. */
export interface UprightBox {
  readonly body: 0 | 1
  /** Least and greatest distance from the middle of the goal line, least and greatest offset to the left, heights. */
  readonly a: readonly [Metres, Metres]
  readonly b: readonly [Metres, Metres]
  readonly z: readonly [Metres, Metres]
}

/** The stick that may tip the shot. */
export interface TipStick {
  readonly share: Probability
  readonly distance: Metres
  readonly reach: Metres
  readonly height: Metres
  readonly across: number
  readonly up: number
  readonly keeps: number
  readonly keepsSpread: number
}

/** The table of some boxes and a stick. Empty when there is nothing that could change a shot. */
export function trafficTable(
  boxes: readonly UprightBox[],
  stops: Probability,
  strays: Metres,
  tip: TipStick,
): Float64Array {
  const solid = boxes.filter(({ a, b, z }) => a[1] > a[0] && b[1] > b[0] && z[1] > z[0])
  if (solid.length === 0 && tip.share === 0) return new Float64Array(0)
  const table = new Float64Array(BOXES + solid.length * BOX_STRIDE)
  table.set([stops, tip.share, tip.distance, tip.reach, tip.height, tip.across, tip.up, tip.keeps, tip.keepsSpread])
  table[STRAYS] = strays
  table[BOX_COUNT] = solid.length
  for (const [i, { a, b, z, body }] of solid.entries())
    table.set([a[0], a[1], b[0], b[1], z[0], z[1], body], BOXES + i * BOX_STRIDE)
  return table
}
