import type { Metres, Probability } from "../units.ts"
import type { PlacedBody } from "./placed.ts"
import { coverRow } from "./shadow.ts"
import { lightFrom, type Mouth } from "./sight.ts"

/** Rows of the mouth looked along: the share is then within 0.01 of the box's own, see the test. */
const ROWS = 32

/**
 * Share of the mouth that a puck at (px, py, pz) sees past a body: the box in a form quick enough for many instants, rows
 * at even heights, each exact. 0 from on or behind the goal line, where no puck sees the mouth; 1 past nobody.
 */
export function openShare(body: PlacedBody, px: Metres, py: Metres, pz: Metres, mouth: Mouth): Probability {
  if (!(px > 0)) return 0
  const light = lightFrom(px, py, pz)
  const half = 0.5 * mouth.width
  const covered = new Float64Array(2 * (body.count + 1))
  let open = 0
  for (let row = 0; row < ROWS; row++) {
    const z = ((row + 0.5) / ROWS) * mouth.height
    const found = coverRow(light, body.parts, body.count, z, -half, half, covered)
    let width = mouth.width
    for (let i = 0; i < found; i++) width -= covered[2 * i + 1]! - covered[2 * i]!
    open += width
  }
  return Math.min(1, open / (ROWS * mouth.width))
}
