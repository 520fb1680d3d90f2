import { expect, test } from "vitest"
import { fillGoal } from "../../../src/models/goal/fill-goal.ts"
import { buildPosture } from "../../../src/models/goalie/posture.ts"
import {
  boxMeasures,
  boxOpenings,
  boxPicture,
  mouthOf,
  puckView,
  viewBox,
  zoneCuts,
} from "../../../src/models/positioning/box.ts"
import { fillPuck } from "../../../src/models/puck/fill-puck.ts"
import { defaultSettings, type Settings, withSettings } from "../../../src/models/settings.ts"
import { measureBox } from "../../../src/sim/box/box.ts"
import { openGrid } from "../../../src/sim/box/open-grid.ts"
import { LIMBS, REGIONS } from "../../../src/sim/parts.ts"
import { STATION_COS, STATION_LENGTH, STATION_SIN, STATION_X, STATION_Y, stand } from "../../../src/sim/station.ts"
import { WORLD_LENGTH } from "../../../src/sim/world.ts"

const DEGREES = Math.PI / 180
type Changes = Parameters<typeof withSettings>[1]

function worldOf(settings: Settings): Float64Array {
  const world = new Float64Array(WORLD_LENGTH)
  fillGoal(world, settings)
  fillPuck(world, settings)
  return world
}

/** The puck's view of the goalie at a depth, the puck at a distance and an angle from straight on. */
function view(changes: Changes, depth: number, distance: number, angle = 0, phase = 0) {
  const settings = withSettings(defaultSettings(), changes)
  const posture = buildPosture(settings)
  const [px, py] = [distance * Math.cos(angle), distance * Math.sin(angle)]
  const s = new Float64Array(STATION_LENGTH)
  stand(depth, px, py, posture.halfStance, 0.9144, posture.foremost, 0, 0, 0, 0.8, s)
  const heading = Math.atan2(s[STATION_SIN]!, s[STATION_COS]!)
  return puckView(posture, { gx: s[STATION_X]!, gy: s[STATION_Y]!, heading, phase }, worldOf(settings), px, py)
}

// Seen to fail with the body kept at one depth.
test("the box shrinks all the way as the goalie comes out to a puck straight on", () => {
  for (const distance of [6, 8, 15]) {
    const boxes = [0.1, 0.5, 0.9, 1.3, 1.7, 2.1].map((depth) => viewBox(view({}, depth, distance)))
    for (let i = 1; i < boxes.length; i++) {
      expect(boxes[i]!.openArea).toBeLessThan(boxes[i - 1]!.openArea)
      expect(boxes[i]!.openAreaAtGoalie).toBeLessThan(boxes[i - 1]!.openAreaAtGoalie)
      expect(boxes[i]!.openSolidAngle).toBeLessThan(boxes[i - 1]!.openSolidAngle)
      expect(boxes[i]!.puckArea).toBeLessThan(boxes[i - 1]!.puckArea)
    }
  }
})

// Seen to fail with the body left out.
test("the box grows by more than 2 % of the mouth when the hands are tucked in front of the hips", () => {
  for (const distance of [5, 8, 15]) {
    const beside = viewBox(view({ choices: { "goalie.hands": "beside" } }, 1.2, distance))
    const tucked = viewBox(view({ choices: { "goalie.hands": "tucked" } }, 1.2, distance))
    expect(beside.netCovered - tucked.netCovered).toBeGreaterThan(0.02)
    expect(tucked.puckArea).toBeGreaterThan(beside.puckArea + 0.06)
  }
})

// Seen to fail with the body left out.
test("the box grows by more than 1 % of the mouth when the catching glove closes", () => {
  for (const distance of [5, 8, 15]) {
    const open = viewBox(view({ choices: { "goalie.glove": "open" } }, 1.2, distance))
    const closed = viewBox(view({ choices: { "goalie.glove": "closed" } }, 1.2, distance))
    expect(open.netCovered - closed.netCovered).toBeGreaterThan(0.01)
    expect(closed.puckArea).toBeGreaterThan(open.puckArea + 0.02)
  }
})

/** The same view with pads turned out by so many degrees and nothing else changed, and its mouth under 28 cm. */
function flared(degrees: number, changes: Changes, depth: number, distance: number, offLine: number, phase: number) {
  const turned = { ...changes, quantities: { "goalie.pad_flare": degrees * DEGREES } }
  const v = view(turned, depth, distance, (90 - offLine) * DEGREES, phase)
  const low = measureBox(v.body, v.puck, { ...v.mouth, height: 0.28 }, v.standing.gx, v.standing.gy)
  return { box: viewBox(v), low }
}

// Set on the feet, and in RVH, a flare of 25 degrees takes under 0.01 m² off the box at 0.6 m instead of opening it: a pad
// turns about its own length, and the openings beside it stay. Seen to fail with the body kept at one depth.
test("from 10 degrees off the goal line a flare of 25 degrees leaves more open than 5 along the post", () => {
  for (const stance of ["VH", "overlap"]) {
    for (const distance of [2.5, 5]) {
      const changes = { choices: { "goalie.stance": stance } }
      const tight = flared(5, changes, 0.6, distance, 10, 0)
      const wide = flared(25, changes, 0.6, distance, 10, 0)
      expect(wide.box.puckArea).toBeGreaterThan(tight.box.puckArea + 0.01)
      // in light the overlap moves by less than a thousandth of the mouth from near by
      if (stance === "overlap") continue
      expect(wide.box.openArea).toBeGreaterThan(tight.box.openArea)
      expect(wide.low.openArea).toBeGreaterThan(tight.low.openArea)
    }
  }
})

// Seen to fail with the body kept at one depth.
test("from 10 degrees off the goal line a flare of 25 degrees lets more pucks by a butterfly than 5", () => {
  for (const distance of [2.5, 5]) {
    const tight = flared(5, {}, 0.6, distance, 10, 1)
    const wide = flared(25, {}, 0.6, distance, 10, 1)
    expect(wide.box.puckArea).toBeGreaterThan(1.5 * tight.box.puckArea)
  }
})

// Seen to fail with the glove side always on the left.
test("catching on the right with the puck mirrored gives the same box, openings mirrored and named alike", () => {
  const settings = (catches: string): Changes => ({ choices: { "goalie.catches": catches } })
  const left = view(settings("left"), 1.1, 7, 25 * DEGREES)
  const right = view(settings("right"), 1.1, 7, -25 * DEGREES)
  expect(viewBox(right).openArea).toBeCloseTo(viewBox(left).openArea, 9)
  expect(viewBox(right).puckArea).toBeCloseTo(viewBox(left).puckArea, 9)
  const openings = (v: typeof left, catches: string) =>
    boxOpenings(v, zoneCuts(withSettings(defaultSettings(), settings(catches)))).filter((o) => o.area > 0.002)
  const [l, r] = [openings(left, "left"), openings(right, "right")]
  expect(r.map((o) => o.zone).sort()).toEqual(l.map((o) => o.zone).sort())
  for (const opening of l) {
    const twin = r.find((other) => other.zone === opening.zone && Math.abs(other.area - opening.area) < 1e-3)
    const sided = /glove|blocker/.test(opening.zone)
    expect(twin !== undefined && (!sided || twin.y * opening.y < 0), opening.zone).toBe(true)
  }
})

// Seen to fail with the radius of the circle given as its diameter, and with outlines moved aside.
test("the picture is plain data: outlines of named regions, openings that are open, limbs that close them", () => {
  const v = view({}, 1.2, 8, 20 * DEGREES)
  const picture = boxPicture(v, zoneCuts(defaultSettings()))
  expect(structuredClone(picture)).toEqual(picture)
  expect(picture.outlines.length).toBe(v.body.count)
  for (const outline of picture.outlines) {
    expect(REGIONS).toContain(outline.region)
    expect(outline.points.length).toBeGreaterThan(7)
  }
  for (const { y, z, limb, travel } of picture.openings) {
    const clearance = openGrid(v.puck, v.body.parts, v.body.count, [y], [z])[0]!
    expect(clearance).toBeGreaterThan(0)
    expect([...LIMBS, "none"]).toContain(limb)
    // no limb closes a place in less than the way from the whole body
    expect(travel).toBeGreaterThanOrEqual(clearance - 1e-12)
  }
  expect(picture.openings.length).toBeGreaterThan(3)
  const measures = boxMeasures(v)
  expect(measures.clear_circle_m).toBe(2 * picture.clearCircle.radius)
  expect(measures.net_covered).toBe(picture.netCovered)
  expect(measures.box_area_m2).toBe(picture.boxArea)
  expect(picture.mouthWidth).toBe(mouthOf(worldOf(defaultSettings())).width)
})
