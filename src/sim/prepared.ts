import {
  AXIS_0,
  CENTRE,
  GREATEST_V,
  HALF_SIZE,
  LEAST_V,
  LIMB_STRIDE,
  LONGEST_REACH,
  NO_LIMB,
  PART_STRIDE,
  PEAK_ACCELERATION,
  PEAK_SPEED,
  type Posture,
  ROUNDING,
  UNSET_FACTOR,
} from "./parts.ts"
import type { Metres } from "./units.ts"

/**
 * A posture made ready for the contact kernel: for each part the box, aligned with the goalie's frame, that holds it
 * through the whole drop, grown by the puck's radius; a path outside that box cannot touch the part.
 */
export interface PreparedPosture {
  readonly posture: Posture
  /** Where a compiled kernel keeps it. */
  readonly kept: Kept
  /** [count x phases] the part at each key phase: its row of the posture's table */
  readonly rows: readonly Float64Array[]
  /** [count] the space a part can fill, see BOUND_… */
  readonly bounds: readonly Float64Array[]
  /** [count x phases] least and greatest u, v, z at each key phase and those beside it; the first and the last, at rest, alone */
  readonly boxes: readonly Float64Array[]
  /** [count] parts from the foremost to the rearmost, by their middle: the order in which a puck is level with them */
  readonly order: Uint8Array
  /** [count x phases] furthest any point of the part moves from key phase k to k + 1, m; 0 in the last column */
  readonly moves: Float64Array
}

/** Where a posture stands in the memory of a compiled kernel, and since which clearing of it; see compiled/kernel.ts. */
export interface Kept {
  since: object | null
  at: number
}

/** Columns of the space a part can fill: least and greatest u, v, z, grown by the puck. */
export const BOUND_U = 0
export const BOUND_V = 2
export const BOUND_Z = 4
/** How much further the carrying limb can take the part, m; 0 for a part no limb carries. */
export const BOUND_REACH = 6
/** A path wholly under the first v, or over the second, is out of the carrying limb's reach, m. */
export const BOUND_LEAST_V = 7
export const BOUND_GREATEST_V = 8
const BOUNDS_LENGTH = 9
const BOX_LENGTH = 6

/** Works out the bounds. `puckRadius` is the disc's radius. */
export function preparePosture(posture: Posture, puckRadius: Metres): PreparedPosture {
  const bounds = rowsOf(posture.count, BOUNDS_LENGTH)
  const boxes = rowsOf(posture.count * posture.phases, BOX_LENGTH)
  const last = posture.phases - 1
  const rows: Float64Array[] = []
  for (let part = 0; part < posture.count; part++) {
    const limb = posture.carrier[part]!
    const bound = bounds[part]!
    bound[BOUND_REACH] = limb === NO_LIMB ? 0 : posture.limbs[limb * LIMB_STRIDE + LONGEST_REACH]!
    bound[BOUND_LEAST_V] = limb === NO_LIMB ? -Infinity : posture.limbs[limb * LIMB_STRIDE + LEAST_V]!
    bound[BOUND_GREATEST_V] = limb === NO_LIMB ? Infinity : posture.limbs[limb * LIMB_STRIDE + GREATEST_V]!
    fillBox(posture, part, 0, last, puckRadius, bound)
    for (let k = 0; k <= last; k++) {
      const rests = k === 0 || k === last
      fillBox(posture, part, rests ? k : k - 1, rests ? k : k + 1, puckRadius, boxes[part * posture.phases + k]!)
      const at = (k * posture.count + part) * PART_STRIDE
      rows.push(posture.parts.subarray(at, at + PART_STRIDE))
    }
  }
  // the middle of the drop decides when a puck is level with a part, see meetPart
  const middle = (posture.phases >> 1) * posture.count
  const front = (part: number) => posture.parts[(middle + part) * PART_STRIDE + CENTRE]!
  const order = Uint8Array.from({ length: posture.count }, (_, part) => part).sort((a, b) => front(b) - front(a))
  return { posture, kept: { since: null, at: 0 }, rows, bounds, boxes, order, moves: furthestMoves(posture) }
}

/** `count` rows of one table: a row is read by constant columns, which costs the compiler no sums of places. */
export function rowsOf(count: number, length: number): Float64Array[] {
  const table = new Float64Array(count * length)
  return Array.from({ length: count }, (_, row) => table.subarray(row * length, (row + 1) * length))
}

/** Writes the box, aligned with the goalie's frame, that holds a part through some key phases, grown by the puck. */
function fillBox(
  posture: Posture,
  part: number,
  from: number,
  to: number,
  puckRadius: Metres,
  out: Float64Array,
): void {
  for (let axis = 0; axis < 3; axis++) {
    let least = Infinity
    let greatest = -Infinity
    for (let phase = from; phase <= to; phase++) {
      const row = (phase * posture.count + part) * PART_STRIDE
      const extent = extentAlong(posture.parts, row, axis) + puckRadius
      const centre = posture.parts[row + CENTRE + axis]!
      least = Math.min(least, centre - extent)
      greatest = Math.max(greatest, centre + extent)
    }
    out[2 * axis] = least
    out[2 * axis + 1] = greatest
  }
}

/** Bounds on how far any point of a part moves between key phases: its middle, plus each axis' turn times its reach. */
function furthestMoves(posture: Posture): Float64Array {
  const moves = new Float64Array(posture.count * posture.phases)
  const parts = posture.parts
  for (let part = 0; part < posture.count; part++)
    for (let k = 0; k + 1 < posture.phases; k++) {
      const a = (k * posture.count + part) * PART_STRIDE
      const b = a + posture.count * PART_STRIDE
      let most = shift(parts, a + CENTRE, b + CENTRE)
      for (let i = 0; i < 3; i++)
        most +=
          shift(parts, a + AXIS_0 + 3 * i, b + AXIS_0 + 3 * i) * (parts[a + HALF_SIZE + i]! + parts[a + ROUNDING]!)
      moves[part * posture.phases + k] = most
    }
  return moves
}

function shift(parts: Float64Array, a: number, b: number): Metres {
  const x = parts[b]! - parts[a]!
  const y = parts[b + 1]! - parts[a + 1]!
  const z = parts[b + 2]! - parts[a + 2]!
  return Math.sqrt(x * x + y * y + z * z)
}

/** Half extent of a rounded box along one axis of the frame. */
function extentAlong(parts: Float64Array, at: number, axis: number): Metres {
  let extent = parts[at + ROUNDING]!
  for (let i = 0; i < 3; i++) extent += parts[at + HALF_SIZE + i]! * Math.abs(parts[at + AXIS_0 + 3 * i + axis]!)
  return extent
}

/** A posture whose limbs are as slow as those of a goalie who is moving or not set. */
export function withUnsetLimbs(posture: Posture): Posture {
  const limbs = posture.limbs.slice()
  for (let row = 0; row < limbs.length; row += LIMB_STRIDE) {
    limbs[row + PEAK_SPEED]! *= limbs[row + UNSET_FACTOR]!
    limbs[row + PEAK_ACCELERATION]! *= limbs[row + UNSET_FACTOR]!
  }
  return { ...posture, limbs }
}
