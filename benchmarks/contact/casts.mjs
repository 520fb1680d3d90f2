// The paths of a list of pairs as casts of a general engine for rigid bodies, Jolt Physics, in single precision: a cylinder
// with a margin as wide as the part's rounding flung along the path at a sharp box.
//   node casts.mjs pairs.bin answers.bin passes
// Writes 1 for each path that hits and 0 for each that does not; prints the processor seconds of all passes.
import { readFileSync, writeFileSync } from "node:fs"
import * as columns from "../../dist/sim/box-record.js"
import { timed } from "../clock.mjs"
import { openJolt } from "./jolt.mjs"

const { BOX_H, BOX_LEAST, BOX_MOST, BOX_Q, BOX_ROUNDING, BOX_UP, BOX_W, CLEARANCE, DISC_HALF, DISC_RADIUS } = columns

const jolt = await openJolt()
const settings = new jolt.ShapeCastSettings()
settings.mCollisionTolerance = 1e-6
const [one, origin] = [new jolt.Vec3(1, 1, 1), new jolt.RVec3(0, 0, 0)]
const filter = new jolt.ShapeFilter()
const target = new jolt.TransformedShape()
const found = new jolt.CastShapeAnyHitCollisionCollector()

/** One cast in the axes of the part, which stands still at their origin. */
function castOf(pair) {
  const [least, most] = [pair[BOX_LEAST], pair[BOX_MOST]]
  const place = [0, 1, 2].map((i) => pair[BOX_Q + i] + least * pair[BOX_W + i])
  const way = [0, 1, 2].map((i) => (most - least) * pair[BOX_W + i])
  const puck = new jolt.CylinderShape(pair[DISC_HALF], pair[DISC_RADIUS], 0)
  const part = new jolt.BoxShape(new jolt.Vec3(pair[BOX_H], pair[BOX_H + 1], pair[BOX_H + 2]), 0)
  for (const shape of [puck, part]) shape.AddRef()
  const turned = toUpright(pair[BOX_UP], pair[BOX_UP + 1], pair[BOX_UP + 2])
  const start = new jolt.RMat44().sRotationTranslation(turned, new jolt.RVec3(...place))
  return { cast: new jolt.RShapeCast(puck, one, start, new jolt.Vec3(...way)), part, rounding: pair[BOX_ROUNDING] }
}

/** The turn that takes a cylinder's own axis, y, to the vertical (u0, u1, u2). */
function toUpright(u0, u1, u2) {
  const [x, z, w] = u1 > -0.999 ? [u2, -u0, 1 + u1] : [1, 0, 0]
  const unit = 1 / Math.hypot(x, z, w)
  return new jolt.Quat(unit * x, 0, unit * z, unit * w)
}

function hits({ cast, part, rounding }) {
  settings.mExtraConvexRadius = rounding
  target.mShape = part
  found.Reset()
  target.CastShape(cast, settings, origin, found, filter)
  return found.HadHit()
}

const [pairs, answers, passes] = process.argv.slice(2)
const numbers = new Float64Array(new Uint8Array(readFileSync(pairs)).buffer)
const casts = Array.from({ length: numbers.length / CLEARANCE }, (_, i) =>
  castOf(numbers.subarray(CLEARANCE * i, CLEARANCE * (i + 1))),
)
// boxes have their middles in one place: where the first stands, stand all
target.mShape = casts[0].part
target.SetWorldTransform(origin, new jolt.Quat(0, 0, 0, 1), one)
let hit = casts.map(hits)
const seconds = timed(() => {
  for (let pass = 0; pass < Number(passes); pass++) hit = casts.map(hits)
})
writeFileSync(answers, new Uint8Array(Float64Array.from(hit, Number).buffer))
process.stdout.write(`${seconds.toFixed(9)}\n`)
