// The paths of a list of pairs as casts of a general engine for rigid bodies, Rapier, in single precision: a cylinder flung
// along the path at a round cuboid.
//   node casts.mjs pairs.bin answers.bin passes
// Writes 1 for each path that hits and 0 for each that does not; prints the processor seconds of all passes.
import { readFileSync, writeFileSync } from "node:fs"
import RAPIER from "@dimforge/rapier3d-compat"
import * as columns from "../../dist/sim/box-record.js"
import { timed } from "../clock.mjs"

const { BOX_H, BOX_LEAST, BOX_MOST, BOX_Q, BOX_ROUNDING, BOX_UP, BOX_W, CLEARANCE, DISC_HALF, DISC_RADIUS } = columns
const STILL = { x: 0, y: 0, z: 0 }
const UNTURNED = { x: 0, y: 0, z: 0, w: 1 }

/** One cast in the axes of the part, which stands still at their origin. */
function castOf(pair) {
  const least = pair[BOX_LEAST]
  const [x, y, z] = [0, 1, 2].map((i) => pair[BOX_Q + i] + least * pair[BOX_W + i])
  return {
    puck: new RAPIER.Cylinder(pair[DISC_HALF], pair[DISC_RADIUS]),
    part: new RAPIER.RoundCuboid(pair[BOX_H], pair[BOX_H + 1], pair[BOX_H + 2], pair[BOX_ROUNDING]),
    from: { x, y, z },
    turned: toUpright(pair[BOX_UP], pair[BOX_UP + 1], pair[BOX_UP + 2]),
    along: { x: pair[BOX_W], y: pair[BOX_W + 1], z: pair[BOX_W + 2] },
    length: pair[BOX_MOST] - least,
  }
}

/** The turn that takes a cylinder's own axis, y, to the vertical (u0, u1, u2). */
function toUpright(u0, u1, u2) {
  const [x, z, w] = u1 > -0.999 ? [u2, -u0, 1 + u1] : [1, 0, 0]
  const unit = 1 / Math.hypot(x, z, w)
  return { x: unit * x, y: 0, z: unit * z, w: unit * w }
}

function hits({ puck, from, turned, along, part, length }) {
  return puck.castShape(from, turned, along, part, STILL, UNTURNED, STILL, 0, length, true) !== null
}

const [pairs, answers, passes] = process.argv.slice(2)
await RAPIER.init()
const numbers = new Float64Array(new Uint8Array(readFileSync(pairs)).buffer)
const casts = Array.from({ length: numbers.length / CLEARANCE }, (_, i) =>
  castOf(numbers.subarray(CLEARANCE * i, CLEARANCE * (i + 1))),
)
let hit = casts.map(hits)
const seconds = timed(() => {
  for (let pass = 0; pass < Number(passes); pass++) hit = casts.map(hits)
})
writeFileSync(answers, new Uint8Array(Float64Array.from(hit, Number).buffer))
process.stdout.write(`${seconds.toFixed(9)}\n`)
