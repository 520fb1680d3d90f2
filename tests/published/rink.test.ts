import { expect, test } from "vitest"
import { baseDepth } from "../../src/models/rink/depth.ts"
import { equalThirds, RINK_PRESETS, shortInternational } from "../../src/models/rink/presets.ts"
import { blueLineEdges, creaseCorner, creaseMark, creaseMarkTip } from "../../src/models/rink/rink.ts"
import {
  missOfCircleTangent,
  missOfCreaseMark,
  missOfPlace,
  sideLineCrossing,
} from "../../src/models/rink/sight-lines.ts"

const FOOT = 0.3048
const { "north-american": northAmerican, international, college } = RINK_PRESETS

// seen to fail: the blue line's middle taken for its far edge
test("the North American sheet has the marks its rule books print in feet", () => {
  const printed: readonly (readonly [number, number])[] = [
    // source: [ECHL2021] rule 1.2, 200 by 85 ft, corners of 28 ft
    [northAmerican.length, 200 * FOOT],
    [northAmerican.width, 85 * FOOT],
    [northAmerican.cornerRadius, 28 * FOOT],
    // source: [ECHL2021] rule 1.5 and drawing, goal line 11 ft from the boards
    [northAmerican.goalLineToBoards, 11 * FOOT],
    // source: [WHL2019] rule 1.5, blue line 75 ft from the boards and 64 ft from the goal line to the neutral-side edge
    [blueLineEdges(northAmerican).far, 64 * FOOT],
    [blueLineEdges(northAmerican).far + northAmerican.goalLineToBoards, 75 * FOOT],
    [northAmerican.blueWidth, FOOT],
    // source: [ECHL2021] drawing, 50 ft of neutral zone between those edges
    [northAmerican.length - 2 * 75 * FOOT, 50 * FOOT],
    // source: [ECHL2021] rule 1.9, end spots 20 ft out and 22 ft aside, neutral spots 5 ft beyond the blue line
    [northAmerican.endSpot.x, 20 * FOOT],
    [northAmerican.endSpot.y, 22 * FOOT],
    [northAmerican.neutralSpot.x, 69 * FOOT],
    [northAmerican.neutralSpot.y, 22 * FOOT],
    [northAmerican.circleRadius, 15 * FOOT],
    [northAmerican.spotDiameter, 2 * FOOT],
    [northAmerican.hashLength, 2 * FOOT],
    [northAmerican.hashGap, (5 + 11 / 12) * FOOT],
    // source: [ECHL2021] rule 1.7 and drawing, crease 8 ft wide, arc of 6 ft, marks 4 ft out and 5 in long
    [northAmerican.crease.radius, 6 * FOOT],
    [northAmerican.crease.halfWidth, 4 * FOOT],
    [northAmerican.crease.markOut, 4 * FOOT],
    [northAmerican.crease.markLength, (5 / 12) * FOOT],
    [creaseCorner(northAmerican.crease).x, Math.sqrt(20) * FOOT],
    // source: [ECHL2021] rule 1.8, 22 ft on the goal line and 28 ft on the boards
    [2 * northAmerican.trapezoid!.goalLineHalf, 22 * FOOT],
    [2 * northAmerican.trapezoid!.boardsHalf, 28 * FOOT],
    // source: [NHLRulesOnline] rule 5, the older zones of 60 ft
    [blueLineEdges(RINK_PRESETS["north-american-60"]).far, 60 * FOOT],
    [RINK_PRESETS["north-american-60"].neutralSpot.x, 65 * FOOT],
    // source: [NCAA2021] rule 1.2, corners of 20 ft
    [college.cornerRadius, 20 * FOOT],
  ]
  for (const [ours, theirs] of printed) expect(ours).toBeCloseTo(theirs, 10)
})

// seen to fail: the spot 10 m from the goal line instead of from the boards
test("the international sheet has the marks its drawings print in metres", () => {
  // source: [IIHFDrawing2014] 22.86 m from boards to the middle of the blue line, 14.28 m between the two
  expect(international.goalLineToBoards + international.blueLine).toBeCloseTo(22.86, 10)
  expect(international.length - 2 * 22.86).toBeCloseTo(14.28, 10)
  // source: [SwedishFacilities2022] figure 1, spots 6 m out and 7 m aside, 10 m from the boards; circles of 4.5 m
  expect(international.endSpot).toEqual({ x: 6, y: 7 })
  expect(international.goalLineToBoards + international.endSpot.x).toBe(10)
  expect(international.circleRadius).toBe(4.5)
  expect(international.neutralSpot.x - international.blueLine).toBeCloseTo(1.5, 10)
  // source: [CreaseReport2018] the crease 2.44 m wide in place of 3.60 m, 3 cm farther out
  const { crease } = RINK_PRESETS["international-2014"]
  expect(2 * international.crease.halfWidth).toBeCloseTo(2.44, 10)
  expect(2 * crease.halfWidth).toBeCloseTo(3.6, 10)
  expect(international.crease.radius - crease.radius).toBeCloseTo(0.03, 10)
  // source: [IIHF2023] rule 27.8, restricted area 6.80 m on the goal line and 8.60 m on the boards
  expect(2 * international.trapezoid!.goalLineHalf).toBeCloseTo(6.8, 10)
  expect(2 * international.trapezoid!.boardsHalf).toBeCloseTo(8.6, 10)
  // source: [FIN2014] blue line at 21.71 m of 57 m and 21.34 m of 56 m
  expect(shortInternational(57).blueLine + 4).toBeCloseTo(21.717, 3)
  expect(shortInternational(56).blueLine + 4).toBeCloseTo(21.336, 3)
  expect(shortInternational(58).blueLine).toBeCloseTo(international.blueLine, 10)
})

// seen to fail: the arm's end taken for the corner of the L
test("the half-circle creases have their L where a line 4 ft out meets the arc", () => {
  // source: [QMJHL2021] rule 1.7, corner at (1.3631, 1.2192) m; [IIHFCrease2014] at (1.3235, 1.22) m
  const junior = creaseMark(RINK_PRESETS["north-american-half-circle"].crease)
  expect(junior.x).toBeCloseTo(1.2192, 10)
  expect(junior.y).toBeCloseTo(1.3631, 4)
  expect(creaseMark(RINK_PRESETS["international-2014"].crease).y).toBeCloseTo(1.3235, 4)
})

// seen to fail: the sight line taken from the far post
test("the line from end-zone spot to goal centre misses the crease's corner mark by what the books imply", () => {
  // source: [QMJHL2021] [IIHFCrease2014] [ECHL2021] [SwedishFacilities2022], arithmetic on their marks; cm, + outside
  const table = [
    ["north-american-half-circle", -1.5],
    ["international-2014", 6.5],
    ["north-american", 8.2],
    ["international", 13.2],
  ] as const
  for (const [name, miss] of table) expect(100 * missOfCreaseMark(RINK_PRESETS[name])).toBeCloseTo(miss, 1)
  // inner tip of the mark, corner of the crease, and where the line really cuts the side line
  expect(100 * missOfPlace(northAmerican.endSpot, creaseMarkTip(northAmerican.crease))).toBeCloseTo(16.7, 1)
  expect(100 * missOfPlace(northAmerican.endSpot, creaseCorner(northAmerican.crease))).toBeCloseTo(18.8, 1)
  expect(100 * missOfPlace(international.endSpot, creaseMarkTip(international.crease))).toBeCloseTo(21.7, 1)
  expect(100 * missOfPlace(international.endSpot, creaseCorner(international.crease))).toBeCloseTo(24.2, 1)
  expect(sideLineCrossing(northAmerican)).toBeCloseTo(1.108, 3)
  expect(sideLineCrossing(international)).toBeCloseTo(1.046, 3)
})

// seen to fail: the circle's middle line in place of its outer edge
test("the line from neutral spot to goal centre touches or misses the end-zone circle by what the books imply", () => {
  // source: [ECHL2021] [NHLRulesOnline] [SwedishFacilities2022] [FIN2014], arithmetic on their marks; cm, - cuts
  const table = [
    [northAmerican, -3.5],
    [RINK_PRESETS["north-american-60"], -17.5],
    [international, 16.9],
    [equalThirds(), -2.9],
    [shortInternational(56), -2.9],
    [shortInternational(57), 2.4],
  ] as const
  for (const [rink, miss] of table) expect(100 * missOfCircleTangent(rink)).toBeCloseTo(miss, 1)
  // exact tangency would need the neutral spot at 21.361 m and at 19.043 m
  const moved = (rink: typeof northAmerican | typeof international, x: number) =>
    missOfCircleTangent({ ...rink, neutralSpot: { x, y: rink.neutralSpot.y } })
  expect(Math.abs(moved(northAmerican, 21.361))).toBeLessThan(1e-4)
  expect(Math.abs(moved(international, 19.043))).toBeLessThan(1e-4)
})

// seen to fail: base measured to the corner of the crease
test("base depth is about 1.83 m at the centre of a North American crease", () => {
  // source: [GoaltendingUSAH] base is the skate blades on the crease outline
  expect(baseDepth(northAmerican)).toBeCloseTo(1.83, 2)
})
