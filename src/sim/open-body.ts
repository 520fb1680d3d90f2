import { OPENING_LEVELS, OPENINGS } from "./motion/opening.ts"
import type { OpenBody, Posture } from "./parts.ts"
import * as partColumns from "./parts.ts"
import type { Scene } from "./pose.ts"
import { type PreparedPosture, preparePosture, withUnsetLimbs } from "./prepared.ts"
import type { Metres, Probability } from "./units.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { AXIS_0, AXIS_1, AXIS_2, CENTRE, PART_STRIDE } = partColumns

/**
 * Bodies of goalies whom movement has opened, ready for the kernel: made when a shot first meets one, kept for the next.
 * Between the set stance and the fullest opening middles move on straight lines and axes turn, as between key phases.
 */
export interface OpenBodies {
  readonly scene: Pick<Scene, "postures" | "opened">
  readonly puckRadius: Metres
  readonly made: (PreparedPosture | undefined)[]
}

const PER_POSTURE = OPENINGS * (OPENING_LEVELS + 1) * 4

export function openBodies(scene: Pick<Scene, "postures" | "opened">, puckRadius: Metres): OpenBodies {
  return { scene, puckRadius, made: new Array(scene.postures.length * PER_POSTURE) }
}

/**
 * The body of posture `index` at a level of an opening. `lies`: down already, so that every phase of its drop is the last;
 * `unset`: with the limbs of a goalie who is not set.
 */
export function openBody(
  bodies: OpenBodies,
  index: number,
  mode: number,
  level: number,
  lies: boolean,
  unset: boolean,
): PreparedPosture {
  const place = index * PER_POSTURE + (mode * (OPENING_LEVELS + 1) + level) * 4 + (lies ? 2 : 0) + (unset ? 1 : 0)
  const known = bodies.made[place]
  if (known !== undefined) return known
  const { postures, opened } = bodies.scene
  const open = opened[index]?.[mode]
  let posture = postures[index]!
  if (level > 0 && open !== undefined) posture = openPosture(posture, open, level / OPENING_LEVELS)
  if (lies) posture = lyingPosture(posture)
  const made = preparePosture(unset ? withUnsetLimbs(posture) : posture, bodies.puckRadius)
  bodies.made[place] = made
  return made
}

/** A posture opened by a share of what a movement opens at its fullest. */
export function openPosture(set: Posture, open: OpenBody, share: Probability): Posture {
  const parts = set.parts.slice()
  for (let row = 0; row < parts.length; row += PART_STRIDE) {
    let turned = false
    for (let i = CENTRE; i < AXIS_2; i++) {
      const change = open.parts[row + i]! - set.parts[row + i]!
      if (change === 0) continue
      parts[row + i]! += share * change
      if (i >= AXIS_0) turned = true
    }
    // a part that keeps its axes keeps them to the last bit
    if (turned) makeUpright(parts, row)
  }
  const roots = set.roots.map((root, i) => (open.roots[i] === root ? root : root + share * (open.roots[i]! - root)))
  return { ...set, parts, roots }
}

/** Makes the first two axes of a part perpendicular units (Gram-Schmidt), and the third their product. */
function makeUpright(parts: Float64Array, row: number): void {
  const a = parts.subarray(row + AXIS_0, row + AXIS_1)
  const b = parts.subarray(row + AXIS_1, row + AXIS_2)
  const c = parts.subarray(row + AXIS_2, row + AXIS_2 + 3)
  makeUnit(a)
  const along = a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!
  for (let i = 0; i < 3; i++) b[i] = b[i]! - along * a[i]!
  makeUnit(b)
  c[0] = a[1]! * b[2]! - a[2]! * b[1]!
  c[1] = a[2]! * b[0]! - a[0]! * b[2]!
  c[2] = a[0]! * b[1]! - a[1]! * b[0]!
}

function makeUnit(v: Float64Array): void {
  const length = Math.sqrt(v[0]! * v[0]! + v[1]! * v[1]! + v[2]! * v[2]!)
  for (let i = 0; i < 3; i++) v[i] = v[i]! / length
}

/** A posture that is down already: every phase of its drop is the last. */
export function lyingPosture(posture: Posture): Posture {
  const { phases } = posture
  const parts = posture.parts.slice()
  const roots = posture.roots.slice()
  const [perPhase, rootsPerPhase] = [parts.length / phases, roots.length / phases]
  for (let k = 0; k + 1 < phases; k++) {
    parts.copyWithin(k * perPhase, (phases - 1) * perPhase)
    roots.copyWithin(k * rootsPerPhase, (phases - 1) * rootsPerPhase)
  }
  return { ...posture, parts, roots }
}
