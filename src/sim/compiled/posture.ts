import { AXIS_0, AXIS_1, AXIS_2, CENTRE, HALF_SIZE, ROUNDING } from "../parts.ts"
import type { PreparedPosture } from "../prepared.ts"
import * as layout from "./layout.ts"

/** Bytes of a number and of an integer. */
const NUMBER = Float64Array.BYTES_PER_ELEMENT
const INTEGER = Int32Array.BYTES_PER_ELEMENT

/** Bytes of a posture in the memory of the compiled kernel. */
export function bytesOf({ posture }: PreparedPosture): number {
  return layout.POSTURE_PARTS + posture.count * layout.PART_BYTES
}

/** Writes a posture to that memory, `at` bytes from its start. */
export function writePosture(buffer: ArrayBuffer, at: number, prepared: PreparedPosture): void {
  const { posture } = prepared
  const head = new Int32Array(buffer, at, 2)
  head[layout.POSTURE_COUNT / INTEGER] = posture.count
  head[layout.POSTURE_PHASES / INTEGER] = posture.phases
  new Uint8Array(buffer, at + layout.POSTURE_ORDER, layout.MOST_PARTS).set(prepared.order)
  new Float64Array(buffer, at + layout.POSTURE_LIMBS, posture.limbs.length).set(posture.limbs)
  new Float64Array(buffer, at + layout.POSTURE_ROOTS, posture.roots.length).set(posture.roots)
  for (let part = 0; part < posture.count; part++)
    writePart(buffer, at + layout.POSTURE_PARTS + part * layout.PART_BYTES, prepared, part)
}

function writePart(buffer: ArrayBuffer, at: number, prepared: PreparedPosture, part: number): void {
  const { posture, bounds, boxes, moves, rows } = prepared
  const { phases } = posture
  const first = part * phases
  const numbers = new Float64Array(buffer, at, layout.PART_BYTES / NUMBER)
  const integers = new Int32Array(buffer, at, layout.PART_BYTES / INTEGER)
  numbers.set(bounds[part]!, layout.PART_BOUNDS / NUMBER)
  integers[layout.PART_REGION / INTEGER] = posture.region[part]!
  integers[layout.PART_LIMB / INTEGER] = posture.carrier[part]!
  // where a puck is level with the part, see meetPart
  const middle = rows[first + (phases >> 1)]!
  for (let i = 0; i < 2; i++) numbers[layout.PART_MIDDLE / NUMBER + i] = middle[CENTRE + i]!
  // sizes do not change through the drop
  const sizes = rows[first]!
  for (let i = 0; i < 3; i++) numbers[layout.PART_SIZES / NUMBER + i] = sizes[HALF_SIZE + i]!
  numbers[layout.PART_ROUNDING / NUMBER] = sizes[ROUNDING]!
  for (let phase = 0; phase < phases; phase++) {
    numbers[layout.PART_MOVES / NUMBER + phase] = moves[first + phase]!
    writeRow(numbers, (layout.PART_ROWS + phase * layout.ROW_STRIDE) / NUMBER, rows[first + phase]!)
    numbers.set(boxes[first + phase]!, (layout.PART_BOXES + phase * layout.BOX_STRIDE) / NUMBER)
  }
}

/** A part at one key phase: the first two axes side by side, then the third, then the middle. */
function writeRow(out: Float64Array, at: number, row: Float64Array): void {
  for (let i = 0; i < 3; i++) {
    out[at + 2 * i] = row[AXIS_0 + i]!
    out[at + 2 * i + 1] = row[AXIS_1 + i]!
    out[at + 6 + i] = row[AXIS_2 + i]!
    out[at + 9 + i] = row[CENTRE + i]!
  }
}
