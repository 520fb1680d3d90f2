import { comparedWith, plain, pointsWithSpreads } from "../report/words.ts"
import type { AnglePicture, RunResults } from "../results.ts"
import { type Chart, questionOf, type Spec } from "./chart.ts"
import { COLOURS, FONT_STACK, seriesMark, TEXT } from "./look.ts"
import { path, text, textOnPaper } from "./mouth.ts"
import { gridOf, panelHeads, panelPage } from "./panel-grid.ts"
import { circleAt, clipped, lineThrough, type PlanScale, planScale } from "./plan-scale.ts"
import { GHOST, goalLineMarks, HERE, iceMark, netMark, sheetMarks } from "./sheet-marks.ts"
import { textWidth } from "./text-width.ts"

/** Ice around what is shown, m. */
const AROUND = { far: 1.5, behind: 1.6 }
const NEAR = { side: 0.35, far: 0.55, behind: 0.3 }
/** Height of the plan of the zone to its width, and the room under a panel. */
const ZONE_SHAPE = 0.62
const BELOW = 12
/** A line that is believed in: long dashes; its spread: dots. */
const BELIEVED = { colour: seriesMark(1).colour, dash: [9, 6] }
const SPREAD_DASH = [2, 4]
/** Less than this is not off the line, m. */
const SEEN = 5e-4

/** Where the goalie takes the line to be and where it is: the zone, and the crease enlarged under it. */
export function angleErrorChart(results: RunResults): Chart | null {
  const pictures = results.angles ?? []
  if (pictures.length === 0) return null
  const { columns, width } = gridOf(pictures.length)
  const heads = panelHeads(
    pictures.map((picture) => ({ title: picture.title, subtitle: picture.subtitle, facts: factsOf(results, picture) })),
    width,
  )
  const zoneHeight = ZONE_SHAPE * width
  const creases = pictures.map((picture) => creaseDrawing(picture, width))
  const high = Math.max(...creases.map(({ height }) => height))
  const panels = pictures.map((picture, at) => ({
    marks: [
      ...heads.marks[at]!,
      placed(heads.height, zoneMarks(picture, width, zoneHeight)),
      placed(heads.height + zoneHeight + BELOW, creases[at]!.marks),
    ],
  }))
  return panelPage({
    name: "angle-error",
    question: questionOf(results.experiment),
    subtitles: [
      "Where the goalie takes the line to the puck to be, and where it is: by geometry alone, the goalie otherwise exact",
    ],
    description: pictures.map((picture) => `${picture.title}: ${factsOf(results, picture)}`).join("; "),
    panels,
    size: { width, height: heads.height + zoneHeight + BELOW + high },
    columns,
    footer: { marks: keyMarks(), height: 76 },
  })
}

/** "4.4 cm to the goalie's left of the line 1.50 m out (1.7 degrees), spread 1.2 cm: -0.4 points [...] on no cue". */
function factsOf({ points, experiment }: RunResults, picture: AnglePicture): string {
  const { bias, spread, biasAngle, depth, index } = picture
  const side =
    Math.abs(bias) < SEEN
      ? "on the line"
      : `${cm(Math.abs(bias))} to the goalie's ${bias > 0 ? "left" : "right"} of the line`
  const degrees = Math.abs(bias) < SEEN ? "" : ` (${plain(Math.abs((biasAngle * 180) / Math.PI), 1)}°)`
  const scatter = spread < SEEN ? "" : `, give or take ${cm(spread)}`
  const where = `${side}${degrees}${scatter}, ${plain(depth, 2)} m out`
  const difference = points.find((point) => point.index === index && point.spot === "all")?.differences.save_rate
  if (difference === undefined || comparedWith(experiment, index) === index) return where
  return `${where}; save rate ${pointsWithSpreads(difference)}`
}

function cm(metres: number): string {
  return `${plain(100 * metres, 1)} cm`
}

function placed(y: number, marks: readonly Spec[]): Spec {
  return { type: "group", encode: { update: { y: { value: y } } }, marks }
}

/** The end zone with both lines, this sheet's marks and, dashed, those remembered. */
function zoneMarks(picture: AnglePicture, width: number, height: number): Spec[] {
  const { rink, remembered, puck } = picture
  const far = Math.max(puck.x, rink.endSpot.x + rink.circleRadius) + AROUND.far
  const tall = far + AROUND.behind
  const side = Math.max(0.5 * rink.width + 0.4, (0.5 * tall * width) / height)
  const scale = planScale(width, side, far - (2 * side * height) / width, far)
  const ghost =
    remembered === null
      ? []
      : sheetMarks({ ...remembered, width: Math.min(remembered.width, rink.width) }, scale, GHOST)
  const marks = [
    iceMark(rink, scale, far),
    ...goalLineMarks(rink, scale),
    ...sheetMarks(rink, scale, HERE),
    ...ghost,
    netMark(scale, picture.mouthHalfWidth),
    ...lines(picture, scale, Math.hypot(puck.x, puck.y)),
    puckMark(scale, puck.x, puck.y),
  ]
  return [clipped(scale, marks)]
}

/** The goalie's ice enlarged: on the true line an outline, on the believed one filled, and the way between in centimetres. */
function creaseDrawing(picture: AnglePicture, width: number): { readonly marks: Spec[]; readonly height: number } {
  const { rink, depth, puck, bias, spread } = picture
  const bearing = Math.atan2(puck.y, puck.x)
  const far = Math.max(rink.crease.radius, depth) + NEAR.far
  const side =
    Math.max(rink.crease.halfWidth, depth * Math.abs(Math.sin(bearing)) + Math.abs(bias) + 2 * spread) + NEAR.side
  const scale = planScale(width, side, -NEAR.behind, far)
  const place = (off: number): readonly [number, number] => [
    depth * Math.cos(bearing) - off * Math.sin(bearing),
    depth * Math.sin(bearing) + off * Math.cos(bearing),
  ]
  const [truth, belief] = [place(0), place(bias)]
  const bar = path(lineThrough(scale, [place(bias - spread), place(bias + spread)]), {
    stroke: BELIEVED.colour,
    strokeWidth: 3,
  })
  const marks = [
    path(`M0,0H${scale.width}V${scale.height}H0Z`, { fill: COLOURS.snow }),
    ...goalLineMarks(rink, scale),
    ...sheetMarks(rink, scale, HERE).slice(-2),
    netMark(scale, picture.mouthHalfWidth),
    ...lines(picture, scale, far * 1.6),
    ...(spread < SEEN ? [] : [bar]),
    path(circleAt(scale, truth[0], truth[1], 9 / scale.perMetre), {
      fill: COLOURS.snow,
      stroke: COLOURS.ink,
      strokeWidth: 3,
    }),
    path(circleAt(scale, belief[0], belief[1], 6 / scale.perMetre), {
      fill: BELIEVED.colour,
      stroke: COLOURS.snow,
      strokeWidth: 1,
    }),
    ...offText(picture, scale, belief),
  ]
  return { marks: [clipped(scale, marks)], height: scale.height }
}

/** How far off, beside the place that was taken. */
function offText({ bias, spread }: AnglePicture, scale: PlanScale, [x, y]: readonly [number, number]): Spec[] {
  const content =
    Math.abs(bias) < SEEN
      ? `± ${cm(spread)}`
      : spread < SEEN
        ? cm(Math.abs(bias))
        : `${cm(Math.abs(bias))} ± ${cm(spread)}`
  if (Math.abs(bias) < SEEN && spread < SEEN) return []
  // away from the true line where there is room
  const room = 24 + textWidth(content, TEXT.label, true)
  const isLeft = bias > 0 ? scale.across(y) > room : scale.across(y) + room > scale.width
  const look = { font: FONT_STACK, fontSize: TEXT.label, fontWeight: 700, align: isLeft ? "right" : "left" }
  return textOnPaper(content, { ...look, x: scale.across(y) + (isLeft ? -16 : 16), y: scale.down(x) - 10 })
}

/** The line to the puck, the one believed in, and where it lies with one standard deviation to either side. */
function lines({ puck, depth, bias, spread }: AnglePicture, scale: PlanScale, reach: number): Spec[] {
  const bearing = Math.atan2(puck.y, puck.x)
  const along = (off: number): string => {
    const turned = bearing + (depth > 0 ? Math.atan2(off, depth) : 0)
    return lineThrough(scale, [
      [0, 0],
      [reach * Math.cos(turned), reach * Math.sin(turned)],
    ])
  }
  const spreads = spread < SEEN ? "" : along(bias - spread) + along(bias + spread)
  return [
    path(spreads, { stroke: BELIEVED.colour, strokeWidth: 1.4, strokeDash: SPREAD_DASH }),
    path(along(0), { stroke: COLOURS.ink, strokeWidth: 2.4 }),
    path(along(bias), { stroke: BELIEVED.colour, strokeWidth: 2.4, strokeDash: BELIEVED.dash }),
  ]
}

function puckMark(scale: PlanScale, x: number, y: number): Spec {
  return path(circleAt(scale, x, y, 5 / scale.perMetre), { fill: COLOURS.ink, stroke: COLOURS.snow, strokeWidth: 1.5 })
}

/** What each kind of line and dot means. */
function keyMarks(): Spec[] {
  const kinds = [
    { name: "the line to the puck", stroke: COLOURS.ink, dash: [] as number[], wide: 2.4 },
    { name: "where the goalie takes it to be", stroke: BELIEVED.colour, dash: BELIEVED.dash, wide: 2.4 },
    { name: "one standard deviation to either side", stroke: BELIEVED.colour, dash: SPREAD_DASH, wide: 1.4 },
  ]
  const starts = [0, 220, 510]
  const items = kinds.flatMap(({ name, stroke, dash, wide }, at) => {
    const x = starts[at]!
    return [
      path(`M${x},26L${x + 40},26`, { stroke, strokeWidth: wide, strokeDash: dash }),
      text(name, { x: x + 50, y: 31, font: FONT_STACK, fontSize: TEXT.small }),
    ]
  })
  const below =
    "ring: the goalie on the line · dot: the goalie on the line believed in · dashed marks: the sheet remembered"
  return [...items, text(below, { x: 0, y: 58, font: FONT_STACK, fontSize: TEXT.small, fill: COLOURS.quietInk })]
}
