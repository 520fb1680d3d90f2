import { expect, test } from "vitest"
import { chosenSurroundings, cueError } from "../../src/models/reference/cue.ts"
import { offTheLine } from "../../src/models/reference/cue-error.ts"
import { markError } from "../../src/models/reference/ice-marking.ts"
import { missOfLine, offInLine } from "../../src/models/reference/marks-in-line.ts"
import { bodyError } from "../../src/models/reference/shooters-body.ts"
import { equalThirds, RINK_PRESETS, shortInternational } from "../../src/models/rink/presets.ts"
import { defaultSettings } from "../../src/models/settings.ts"

const DEGREE = Math.PI / 180

// seen to fail: depth times the angle in place of its sine
test("lining up on the body of a shooter 0.9 m beside the puck is 10 degrees and 0.21 m off at 5 m, 3.4 degrees at 15 m", () => {
  // source: plane geometry of an offset of 0.9 m square to the line, goalie 1.2 m out
  const near = offTheLine(bodyError({ beside: 0.9, blade: "left" }, 5), 1.2)
  expect(near.biasAngle / DEGREE).toBeCloseTo(10.2, 1)
  expect(near.bias).toBeCloseTo(0.21, 2)
  expect(offTheLine(bodyError({ beside: 0.9, blade: "left" }, 15), 1.2).biasAngle / DEGREE).toBeCloseTo(3.4, 1)
  // closed form: depth times opposite over hypotenuse
  expect(Math.abs(near.bias - (1.2 * 0.9) / Math.sqrt(25 + 0.81))).toBeLessThan(1e-12)
  // and by the settings alone, the shooter standing straight ahead
  const settings = defaultSettings()
  const chosen = cueError("shooter's body", settings, chosenSurroundings(settings, 0.9144), 1.2, 5, 0)
  expect(offTheLine(chosen, 1.2)).toEqual(near)
})

// seen to fail: home and here exchanged
test("a spot's line remembered from a North American sheet is wrong on an international one by the spots' angles", () => {
  // source: [ECHL2021] spot 20 ft out and 22 ft aside, 47.73 degrees; [SwedishFacilities2022] 6 m and 7 m, 49.40 degrees
  const here = { rink: RINK_PRESETS.international, measured: new Set<never>() }
  const home = { rink: RINK_PRESETS["north-american"], measured: new Set<never>() }
  const error = markError({ here, home, paint: 0 }, "end-zone spot", 7)
  expect(error.angleBias / DEGREE).toBeCloseTo(49.4 - 47.73, 2)
  expect(Math.abs(error.angleBias - (Math.atan(7 / 6) - Math.atan(22 / 20)))).toBeLessThan(1e-12)
  // closed form: the sine of a difference of angles, from the spots in feet and metres, 1.6 m out
  const sine = (20 * 7 - 22 * 6) / (Math.hypot(6, 7) * Math.hypot(20, 22))
  expect(Math.abs(offTheLine(error, 1.6).bias - 1.6 * sine)).toBeLessThan(1e-12)
})

// seen to fail: the miss of the crease's corner for that of its mark
test("the rules of thumb miss on each sheet by what its book implies", () => {
  // source: [QMJHL2021] [IIHFCrease2014] [ECHL2021] [SwedishFacilities2022] [NHLRulesOnline] [FIN2014], arithmetic on their marks; cm
  const table = [
    [RINK_PRESETS["north-american-half-circle"], -1.5, -3.5],
    [RINK_PRESETS["international-2014"], 6.5, 16.9],
    [RINK_PRESETS["north-american"], 8.2, -3.5],
    [RINK_PRESETS["north-american-60"], 8.2, -17.5],
    [RINK_PRESETS.college, 8.2, -3.5],
    [RINK_PRESETS.international, 13.2, 16.9],
    [RINK_PRESETS["international-26"], 13.2, 16.9],
    [equalThirds(), 13.2, -2.9],
    [shortInternational(56), 13.2, -2.9],
    [shortInternational(57), 13.2, 2.4],
  ] as const
  for (const [rink, crease, circle] of table) {
    expect(100 * missOfLine(rink, "spot and crease mark")).toBeCloseTo(crease, 1)
    expect(100 * missOfLine(rink, "neutral spot and circle")).toBeCloseTo(circle, 1)
  }
})

// seen to fail: the way off taken as the miss itself at any depth; net and tangent angles exchanged
test("a goalie in line with the marks is off the line by what the crossing of the lines says", () => {
  // source: analytic geometry of lines through two points and of tangents to a circle
  for (const rink of Object.values(RINK_PRESETS)) {
    for (const depth of [0.6, 1.2, 1.83]) {
      // spot and mark: the line through both, cut square to the spot's line at this depth
      const { endSpot: s, crease, neutralSpot: n, circleRadius: r } = rink
      const markSide =
        crease.shape === "half circle" ? Math.sqrt(crease.radius ** 2 - crease.markOut ** 2) : crease.halfWidth
      const [dx, dy] = [crease.markOut - s.x, markSide - s.y]
      const far = Math.hypot(s.x, s.y)
      const [ux, uy] = [s.x / far, s.y / far]
      const t = (depth - far) / (dx * ux + dy * uy)
      const off = (s.y + t * dy) * ux - (s.x + t * dx) * uy
      expect(Math.abs(offInLine(rink, "spot and crease mark", depth) - off)).toBeLessThan(1e-12)
      // tangent: the line through the neutral spot and the place found is a radius away from the circle's middle
      const sideways = offInLine(rink, "neutral spot and circle", depth)
      const reach = Math.hypot(n.x, n.y)
      const [vx, vy] = [n.x / reach, n.y / reach]
      const [px, py] = [depth * vx - sideways * vy, depth * vy + sideways * vx]
      const [qx, qy] = [px - n.x, py - n.y]
      const away = Math.abs(qx * (s.y - n.y) - qy * (s.x - n.x)) / Math.hypot(qx, qy)
      expect(Math.abs(away - r)).toBeLessThan(1e-12)
    }
  }
})
