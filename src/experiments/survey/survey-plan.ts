import { markPlace } from "../../models/reference/marks.ts"
import type { MarkName } from "../../models/reference/parameters.ts"
import type { Spec } from "../charts/chart.ts"
import { COLOURS, FONT_STACK, seriesMark, TEXT } from "../charts/look.ts"
import { path, textOnPaper, values } from "../charts/mouth.ts"
import { clipped, lineThrough, type PlanScale, planScale } from "../charts/plan-scale.ts"
import { GHOST, goalLineMarks, HERE, iceMark, netMark, sheetMarks } from "../charts/sheet-marks.ts"
import type { Survey } from "./survey.ts"

/** Ice shown beyond the neutral spots, beyond the boards at the end, and beside them, m. */
const AROUND = { far: 1.2, end: 0.5, side: 0.4 }

/** Marks whose lines are drawn over the plan. */
const LINED: readonly MarkName[] = ["end-zone spot", "neutral spot"]

/** The end zone from above, to scale: this sheet, the remembered one as a ghost, cue lines and shooting spots. */
export function planDrawing(survey: Survey, width: number): { readonly marks: Spec[]; readonly height: number } {
  const { here, home } = survey.request
  const rinks = home === null ? [here.rink] : [here.rink, home.rink]
  const far = Math.max(
    ...rinks.flatMap((rink) => [rink.neutralSpot.x, rink.blueLine]),
    ...survey.spots.map(({ x }) => x),
  )
  const farthest = far + AROUND.far
  const nearest = -here.rink.goalLineToBoards - AROUND.end
  const scale = planScale(width, 0.5 * here.rink.width + AROUND.side, nearest, farthest)
  // a wider sheet's ghost ends at these boards
  const ghost = home === null ? null : { ...home.rink, width: Math.min(home.rink.width, here.rink.width) }
  const marks = [
    iceMark(here.rink, scale, farthest),
    ...(ghost === null ? [] : sheetMarks(ghost, scale, GHOST)),
    ...goalLineMarks(here.rink, scale),
    ...sheetMarks(here.rink, scale, HERE),
    ...(ghost === null ? [] : sheetMarks(ghost, scale, { ...GHOST, strokeWidth: 0.9 })),
    ...LINED.flatMap((mark, i) => cueLines(survey, mark, i, scale)),
    netMark(scale, survey.mouthHalfWidth),
    ...survey.spots.flatMap((spot, i) => spotMarks(spot, i, scale)),
  ]
  return { marks: [clipped(scale, marks)], height: scale.height }
}

/** The line through a mark on either side, and where the goalie remembers it. */
function cueLines(survey: Survey, mark: MarkName, at: number, scale: PlanScale): Spec[] {
  const { here, home } = survey.request
  const { colour } = seriesMark(at === 0 ? 2 : 3)
  const place = markPlace(here.rink, mark)
  const reach = Math.hypot(place.x, place.y)
  return [1, -1].flatMap((side) => {
    const truth = path(
      lineThrough(scale, [
        [0, 0],
        [place.x, side * place.y],
      ]),
      { stroke: colour, strokeWidth: 2 },
    )
    if (home === null) return [truth]
    const there = markPlace(home.rink, mark)
    const share = reach / Math.hypot(there.x, there.y)
    const remembered = lineThrough(scale, [
      [0, 0],
      [share * there.x, side * share * there.y],
    ])
    return [truth, path(remembered, { stroke: colour, strokeWidth: 2, strokeDash: [7, 5] })]
  })
}

function spotMarks(spot: Survey["spots"][number], at: number, scale: PlanScale): Spec[] {
  const { colour, shape } = seriesMark(at)
  const [x, y] = [scale.across(spot.y), scale.down(spot.x)]
  // beside the spot, away from the lines that run in to the net
  const side = Math.abs(spot.y) < 0.5 ? 0 : spot.y > 0 ? -1 : 1
  const place = { x: x + side * 14, y: side === 0 ? y - 14 : y + 16 }
  const align = side === 0 ? "center" : side < 0 ? "right" : "left"
  const look = { font: FONT_STACK, fontSize: TEXT.label, fontWeight: 600, align, ...place }
  return [spotSymbol(x, y, colour, shape), ...textOnPaper(spot.label, look)]
}

/** The sign of a shooting spot in every part of the picture. */
export function spotSymbol(x: number, y: number, colour: string, shape: string, size = 150): Spec {
  const look = { x, y, shape, size, fill: colour, stroke: COLOURS.snow, strokeWidth: 1.2 }
  return { type: "symbol", interactive: false, encode: { update: values(look) } }
}
