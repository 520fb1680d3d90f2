import type { MouthGrid } from "../../sim/mouth-grid.ts"
import { cumulativeNormal } from "../../sim/random/normal.ts"
import * as B from "../../sim/traffic/traffic.ts"
import type { Metres, Probability } from "../../sim/units.ts"
import { PUCK_HALF_THICKNESS, PUCK_RADIUS } from "../../sim/world.ts"

/** From where to where a body would have to stray to be in the way. */
type Strays = readonly [least: Metres, most: Metres]

/**
 * For each cell of the mouth the chance that a puck from (x, y, z) gets to its middle past those who stand in the way:
 * along a straight line, with each body straying as it does from shot to shot and stopping its share of the pucks that
 * meet it. What a shooter knows who looks for a lane; 1 everywhere where nobody stands.
 */
export function openLanes(
  world: Float64Array,
  traffic: Float64Array,
  x: Metres,
  y: Metres,
  z: Metres,
  grid: MouthGrid,
): Float64Array {
  const open = new Float64Array(grid.columns * grid.rows).fill(1)
  if (traffic.length === 0) return open
  const distance = Math.hypot(x, y)
  const [cosine, sine] = [x / distance, y / distance]
  for (let row = 0; row < grid.rows; row++)
    for (let column = 0; column < grid.columns; column++) {
      // the line to the middle of the cell, in the frame of the line from the middle of the net to the puck
      const across = 0.5 * (grid.y[column]! + grid.y[column + 1]!)
      const lane = {
        from: [distance, 0, z],
        to: [sine * across, cosine * across, 0.5 * (grid.z[row]! + grid.z[row + 1]!)],
      } as const
      for (const body of [0, 1]) {
        const inTheWay = chanceOf(straysInTheWay(world, traffic, body, lane), traffic[B.STRAYS]!)
        open[row * grid.columns + column]! *= 1 - traffic[B.STOPS]! * inTheWay
      }
    }
  return open
}

/** A straight line in the frame of the shot's line: a, b and z at its ends. */
interface Lane {
  readonly from: readonly [Metres, Metres, Metres]
  readonly to: readonly [Metres, Metres, Metres]
}

/** Where a body's boxes are in the way of a lane, as stretches of how far it strays. */
function straysInTheWay(world: Float64Array, traffic: Float64Array, body: number, lane: Lane): Strays[] {
  const strays: Strays[] = []
  const end = B.BOXES + traffic[B.BOX_COUNT]! * B.BOX_STRIDE
  for (let box = B.BOXES; box < end; box += B.BOX_STRIDE) {
    if (traffic[box + B.BODY] !== body) continue
    // the part of the lane, 0 at the puck to 1 at the net, beside the box in depth and in height
    const within = overlap(
      partWithin(lane.from[0], lane.to[0], traffic[box + B.A_LEAST]!, traffic[box + B.A_MOST]!, world[PUCK_RADIUS]!),
      partWithin(
        lane.from[2],
        lane.to[2],
        traffic[box + B.Z_LEAST]!,
        traffic[box + B.Z_MOST]!,
        world[PUCK_HALF_THICKNESS]!,
      ),
    )
    if (within === null) continue
    const [b0, b1] = within.map((share) => lane.from[1] + share * (lane.to[1] - lane.from[1])) as [Metres, Metres]
    const radius = world[PUCK_RADIUS]!
    strays.push([
      Math.min(b0, b1) - radius - traffic[box + B.B_MOST]!,
      Math.max(b0, b1) + radius - traffic[box + B.B_LEAST]!,
    ])
  }
  return strays
}

/** The part of a lane on which one coordinate lies between two faces, grown by the puck; null where it never does. */
function partWithin(from: Metres, to: Metres, least: Metres, most: Metres, grown: Metres): [number, number] | null {
  const low = least - grown
  const high = most + grown
  if (from === to) return from >= low && from <= high ? [0, 1] : null
  const a = (low - from) / (to - from)
  const b = (high - from) / (to - from)
  return overlap([Math.min(a, b), Math.max(a, b)], [0, 1])
}

function overlap(a: readonly [number, number] | null, b: readonly [number, number] | null): [number, number] | null {
  if (a === null || b === null) return null
  const least = Math.max(a[0], b[0])
  const most = Math.min(a[1], b[1])
  return least < most ? [least, most] : null
}

/** Chance that a body that strays with this standard deviation is in one of some stretches, which may overlap. */
function chanceOf(strays: readonly Strays[], sd: Metres): Probability {
  const below = (stray: Metres): Probability => (sd > 0 ? cumulativeNormal(stray / sd) : stray > 0 ? 1 : 0)
  let chance = 0
  let covered = Number.NEGATIVE_INFINITY
  for (const [least, most] of [...strays].sort((a, b) => a[0] - b[0])) {
    const from = Math.max(least, covered)
    if (most > from) chance += below(most) - below(from)
    covered = Math.max(covered, most)
  }
  return chance
}
