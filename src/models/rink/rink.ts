import type { Metres, Radians } from "../../sim/units.ts"

/*
 * The frame, drawn here once and never derived again. Origin O: centre of the goal line on the ice. x out toward centre
 * ice, y to the left of a goalie who faces out, z up. Right-handed; SI; angles from the x axis, positive toward y.
 *
 *                     end boards
 *      ------------------------------------------
 *                       goal
 *      ----------------+----O----+--------------- goal line    -> goalie's left is +y:
 *         right post  -y    |    +y  left post                    seen from above with x down
 *                           |
 *            o   end spot   |        o   end spot                 y
 *                           |                                  O---->
 *                           |                                  |
 *      =====================|==================== blue line    | x        z toward the reader
 *                           v                                  v
 *                           x, centre ice
 */

/** A place on the ice; marks come in pairs at +y and -y, the record holds the one at +y. */
export interface Place {
  readonly x: Metres
  readonly y: Metres
}

/**
 * The crease: straight sides at `halfWidth` closed by an arc about the centre of the goal line, or a full half-circle.
 * All measures go to the outer edge of the line, which is part of the crease.
 */
export interface Crease {
  readonly shape: "straight sides" | "half circle"
  readonly radius: Metres
  /** Half the width between the sides; the radius for a half circle. */
  readonly halfWidth: Metres
  /** How far out from the goal line the corner marks are. */
  readonly markOut: Metres
  /** Length of a mark, inward from the side line (straight sides) or of each arm of the L (half circle). */
  readonly markLength: Metres
}

/** Every mark of one end of a sheet that a goalie can use, in the frame above, metres. */
export interface Rink {
  readonly length: Metres
  readonly width: Metres
  readonly cornerRadius: Metres
  readonly boardsHeight: Metres
  readonly goalLineToBoards: Metres
  /** Middle of the blue line, out from the goal line, and its width. */
  readonly blueLine: Metres
  readonly blueWidth: Metres
  /** Width of goal line, crease and circle lines. */
  readonly lineWidth: Metres
  readonly endSpot: Place
  readonly neutralSpot: Place
  readonly spotDiameter: Metres
  /** Outer radius of the end-zone circles. */
  readonly circleRadius: Metres
  /** Hash marks beside the circles: distance between the two of a side, and length. */
  readonly hashGap: Metres
  readonly hashLength: Metres
  readonly crease: Crease
  /** Restricted area behind the goal: half-widths on the goal line and on the end boards; null where there is none. */
  readonly trapezoid: { readonly goalLineHalf: Metres; readonly boardsHalf: Metres } | null
}

/** Distance from the centre of the goal line to the crease outline along a bearing. */
export function creaseOutline(crease: Crease, bearing: Radians): Metres {
  if (crease.shape === "half circle") return crease.radius
  const sine = Math.abs(Math.sin(bearing))
  return crease.radius * sine <= crease.halfWidth ? crease.radius : crease.halfWidth / sine
}

/** Where the straight sides meet the arc; for a half circle where it meets the goal line. */
export function creaseCorner(crease: Crease): Place {
  const y = crease.halfWidth
  return { x: Math.sqrt(Math.max(0, crease.radius * crease.radius - y * y)), y }
}

/** The corner mark: where the hash leaves the side line, or the corner of the L on the half circle. */
export function creaseMark(crease: Crease): Place {
  const x = crease.markOut
  if (crease.shape === "straight sides") return { x, y: crease.halfWidth }
  return { x, y: Math.sqrt(crease.radius * crease.radius - x * x) }
}

/** Inner end of the corner mark of a straight-sided crease, parallel to the goal line. */
export function creaseMarkTip(crease: Crease): Place {
  const root = creaseMark(crease)
  return { x: root.x, y: root.y - crease.markLength }
}

/** The blue line's edges: the one toward the goal and the one toward the neutral zone. */
export function blueLineEdges(rink: Rink): { readonly near: Metres; readonly far: Metres } {
  return { near: rink.blueLine - 0.5 * rink.blueWidth, far: rink.blueLine + 0.5 * rink.blueWidth }
}

/** Outer hash marks of the circle at +y: each from the circle's edge outward, parallel to the goal line. */
export function hashMarks(rink: Rink): readonly { readonly from: Place; readonly to: Place }[] {
  const half = 0.5 * rink.hashGap
  const reach = Math.sqrt(rink.circleRadius ** 2 - half ** 2)
  return [-half, half].flatMap((out) =>
    [-1, 1].map((side) => ({
      from: { x: rink.endSpot.x + out, y: rink.endSpot.y + side * reach },
      to: { x: rink.endSpot.x + out, y: rink.endSpot.y + side * (reach + rink.hashLength) },
    })),
  )
}
