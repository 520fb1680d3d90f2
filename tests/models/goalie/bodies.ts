import { PARTS, type Part } from "../../../src/models/goalie/part-names.ts"
import { buildPosture } from "../../../src/models/goalie/posture.ts"
import { type ChoiceKey, defaultSettings, type QuantityKey, withSettings } from "../../../src/models/settings.ts"
import {
  AXIS_0,
  AXIS_1,
  AXIS_2,
  CENTRE,
  HALF_SIZE,
  PART_STRIDE,
  type Posture,
  ROUNDING,
} from "../../../src/sim/parts.ts"
import { BOX_RECORD, CLEARANCE, clearancePath } from "../../../src/sim/rounded-box.ts"

export const DEGREES = Math.PI / 180

/** The default goalie with some quantities and choices changed; keys without their "goalie.". */
export function goalie(
  quantities: Readonly<Record<string, number>> = {},
  choices: Readonly<Record<string, string>> = {},
): Posture {
  const dotted = <T>(table: Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(Object.entries(table).map(([key, value]) => [`goalie.${key}`, value]))
  return buildPosture(
    withSettings(defaultSettings(), {
      quantities: dotted(quantities) as Partial<Record<QuantityKey, number>>,
      choices: dotted(choices) as Partial<Record<ChoiceKey, string>>,
    }),
  )
}

/** Where the numbers of one part at one phase start. */
export function rowOf(posture: Posture, part: Part, phase = 0): number {
  return (phase * posture.count + PARTS.indexOf(part)) * PART_STRIDE
}

export function centreOf(posture: Posture, part: Part, phase = 0): number[] {
  const at = rowOf(posture, part, phase) + CENTRE
  return [...posture.parts.subarray(at, at + 3)]
}

/** Outer size of a part along its own axes. */
export function sizeOf(posture: Posture, part: Part, phase = 0): number[] {
  const at = rowOf(posture, part, phase)
  return [0, 1, 2].map((i) => 2 * (posture.parts[at + HALF_SIZE + i]! + posture.parts[at + ROUNDING]!))
}

/** Axis 0, 1 or 2 of a part. */
export function axisOf(posture: Posture, part: Part, axis: 0 | 1 | 2, phase = 0): number[] {
  const at = rowOf(posture, part, phase) + [AXIS_0, AXIS_1, AXIS_2][axis]!
  return [...posture.parts.subarray(at, at + 3)]
}

/** Share of a 6 x 4 ft mouth that rays from a spot straight ahead find open, on a grid of `cell`. */
export function openShare(posture: Posture, distance: number, depth: number, phase = 0, cell = 0.04): number {
  const mouth = { half: 0.9144, height: 1.2192 }
  let open = 0
  let all = 0
  for (let y = cell / 2 - mouth.half; y < mouth.half; y += cell) {
    for (let z = cell / 2; z < mouth.height; z += cell) {
      all++
      if (!meets(posture, phase, [distance - depth, 0, 0.02], [-distance, y, z - 0.02])) open++
    }
  }
  return open / all
}

/** Area of the hole between the pads as seen from straight ahead, by flooding from a point between them, m². */
export function fiveHoleArea(posture: Posture, phase = 0, cell = 0.01): number {
  const [across, up] = [Math.round(1 / cell), Math.round(1.2 / cell)]
  const seen = new Uint8Array(across * up)
  const queue = [Math.round(across / 2) * up + Math.round(0.2 / cell)]
  let area = 0
  while (queue.length > 0) {
    const at = queue.pop()!
    if (seen[at] === 1) continue
    seen[at] = 1
    const [i, j] = [Math.floor(at / up), at % up]
    if (meets(posture, phase, [3, (i + 0.5) * cell - 0.5, (j + 0.5) * cell], [-6, 0, 0])) continue
    area += cell * cell
    if (i > 0) queue.push(at - up)
    if (i < across - 1) queue.push(at + up)
    if (j > 0) queue.push(at - 1)
    if (j < up - 1) queue.push(at + 1)
  }
  return area
}

function meets(posture: Posture, phase: number, from: readonly number[], way: readonly number[]): boolean {
  const box = new Float64Array(BOX_RECORD)
  for (let part = 0; part < posture.count; part++) {
    const at = (phase * posture.count + part) * PART_STRIDE
    clearancePath(posture.parts, at, from[0]!, from[1]!, from[2]!, way[0]!, way[1]!, way[2]!, 0, 1, 0, 0, box)
    if (box[CLEARANCE]! <= 0) return true
  }
  return false
}
