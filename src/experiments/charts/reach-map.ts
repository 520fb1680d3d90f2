import { plain } from "../report/words.ts"
import type { ReachMapPicture, RunResults } from "../results.ts"
import { type Chart, chartNumber, questionOf, type Spec } from "./chart.ts"
import { contourOf, toTheEdge, withoutSpecks } from "./contour.ts"
import { COLOURS, FONT_STACK, SHARE_RAMP, SPARE_RAMP, TEXT } from "./look.ts"
import {
  cellMarks,
  type Grid,
  ironMarks,
  type Mouth,
  type MouthScale,
  mouthScale,
  path,
  rectangle,
  text,
} from "./mouth.ts"
import { gridOf, MOST_PANELS, panelHeads, panelPage } from "./panel-grid.ts"
import { rampOf } from "./ramp.ts"

export interface ReachMapOptions {
  /** Draws the save probability instead of the milliseconds to spare, where the run was asked for it. */
  readonly probability?: boolean
}

/** What one kind of map shows. */
interface Kind {
  readonly name: string
  readonly field: (map: ReachMapPicture) => number[][]
  readonly ramp: readonly string[]
  /** How far along the ramp a value lies. */
  readonly share: (value: number) => number
  /** Level of the drawn contour. */
  readonly level: number
  readonly subtitle: string
  readonly legend: readonly (readonly [number, string])[]
  readonly legendEnds: readonly [number, number]
}

/** Milliseconds beyond which the colour changes no more. */
const FULL = 120

const SPARE: Kind = {
  name: "reach-map",
  field: (map) => map.milliseconds.map((row) => row.map((value) => value ?? Number.NEGATIVE_INFINITY)),
  ramp: SPARE_RAMP,
  share: (value) => (Math.max(-FULL, Math.min(FULL, value)) + FULL) / (2 * FULL),
  level: 0,
  subtitle: "milliseconds to spare · heavy line: just reached · hatched: covered by the stance alone",
  legend: [
    [-FULL, "beaten by 120 ms"],
    [0, "0"],
    [FULL, "120 ms to spare"],
  ],
  legendEnds: [-FULL, FULL],
}

const PROBABILITY: Kind = {
  name: "reach-map-probability",
  field: (map) => (map.probability ?? []).map((row) => [...row]),
  ramp: SHARE_RAMP,
  share: (value) => value,
  level: 0.5,
  subtitle: "chance of a save · heavy line: one in two · hatched: covered by the stance alone",
  legend: [
    [0, "0 %"],
    [0.5, "50 %"],
    [1, "100 %"],
  ],
  legendEnds: [0, 1],
}

/** Reach over the whole mouth, one panel for each pose; null when the run has no reach map. */
export function reachMapChart(
  results: Pick<RunResults, "experiment" | "reachMaps">,
  options: ReachMapOptions = {},
): Chart | null {
  const maps = results.reachMaps.slice(0, MOST_PANELS)
  if (maps.length === 0) return null
  const kind = options.probability === true ? PROBABILITY : SPARE
  if (kind === PROBABILITY && maps.some(({ probability }) => probability === undefined)) return null
  const subtitle = maps.some(hasIron) ? `${kind.subtitle} · white: the iron is in the way` : kind.subtitle
  const { columns, width } = gridOf(maps.length)
  const heads = panelHeads(
    maps.map(({ title, subtitle }) => ({ title, subtitle, facts: "" })),
    width,
  )
  const drawings = maps.map((map, at) => drawMap(map, kind, { width, head: heads.marks[at]!, top: heads.height }))
  return panelPage({
    name: kind.name,
    question: questionOf(results.experiment),
    subtitles: [`Reach of ${results.experiment.goalieName} as the puck sees it`, subtitle],
    description: `${subtitle}. ${maps.map((map) => describe(map)).join("; ")}.`,
    panels: drawings,
    size: { width, height: drawings[0]!.height },
    columns,
    footer: { marks: legendMarks(kind), height: 62 },
  })
}

function describe(map: ReachMapPicture): string {
  const clear = map.clear.flat()
  const cells = map.milliseconds.flat().filter((_, cell) => clear[cell])
  if (cells.length === 0) return `${map.title}: no puck gets past the iron`
  const reached = cells.filter((value) => value !== null && value >= 0).length
  return `${map.title}: ${plain((100 * reached) / cells.length, 0)} % of the mouth reached in time`
}

/** The mouth a grid of cells fills; the iron is drawn as thick as the rule book's. */
export function mouthOf(picture: Grid): Mouth {
  const width = picture.y.at(-1)! - picture.y[0]! + picture.cell
  return { width, height: picture.z.at(-1)! + picture.cell / 2, iron: IRON_RADIUS }
}
/** Post and bar are 60 mm thick, m; only how thick the frame is drawn, no computation uses it. */
const IRON_RADIUS = 0.03

interface MapRoom {
  readonly width: number
  readonly head: readonly Spec[]
  readonly top: number
}

function drawMap(
  map: ReachMapPicture,
  kind: Kind,
  { width, head, top }: MapRoom,
): { marks: readonly Spec[]; height: number } {
  const mouth = mouthOf(map)
  const scale = mouthScale(mouth, width)
  const field = kind.field(map)
  const colour = rampOf(kind.ramp)
  const whole = toTheEdge(map.y, map.z, withoutSpecks(field, kind.level), map.cell)
  const contour = contourOf(whole.x, whole.y, whole.field, kind.level)
    .map(([x, y, x2, y2]) => `M${scale.x(x)},${scale.y(y)}L${scale.x(x2)},${scale.y(y2)}`)
    .join("")
  const marks = [
    cellMarks(map, scale, (row, column) =>
      map.milliseconds[row]![column] === Number.POSITIVE_INFINITY
        ? COLOURS.covered
        : colour(kind.share(field[row]![column]!)),
    ),
    path(hatch(map, scale), { stroke: COLOURS.ink, strokeWidth: 1.2, strokeOpacity: 0.42, fill: "transparent" }),
    path(contour, { stroke: COLOURS.ink, strokeWidth: 3, strokeCap: "round", fill: "transparent" }),
    ...behindIron(map, scale),
    ...ironMarks(mouth, scale),
  ]
  return {
    marks: [...head, { type: "group", encode: { update: { y: { value: top } } }, marks }],
    height: top + scale.height,
  }
}

/** Whether some places of the map cannot be reached past the iron. */
function hasIron(map: ReachMapPicture): boolean {
  return map.clear.some((row) => row.includes(false))
}

/** Covers the cells that no puck gets to past the iron; nothing where there are none. */
function behindIron(map: ReachMapPicture, scale: MouthScale): Spec[] {
  if (!hasIron(map)) return []
  return [cellMarks(map, scale, (row, column) => (map.clear[row]![column] ? "transparent" : COLOURS.snow))]
}

/** A diagonal through every cell that the stance covers: together they hatch it, so that it is told apart without colour. */
function hatch(map: ReachMapPicture, scale: MouthScale): string {
  const half = map.cell / 2
  return map.milliseconds
    .flatMap((row, at) =>
      row.map((value, column) => {
        if (value !== Number.POSITIVE_INFINITY) return ""
        const [y, z] = [map.y[column]!, map.z[at]!]
        return `M${scale.x(y - half)},${scale.y(z - half)}L${scale.x(y + half)},${scale.y(z + half)}`
      }),
    )
    .join("")
}

/** A strip of colour with its ends and middle named. */
function legendMarks(kind: Kind): Spec[] {
  const [from, to] = kind.legendEnds
  const width = 420
  const steps = 84
  const colour = rampOf(kind.ramp)
  const strip = Array.from({ length: steps }, (_, at) =>
    rectangle({
      x: chartNumber((at * width) / steps),
      x2: chartNumber(((at + 1) * width) / steps + 0.5),
      y: 18,
      y2: 34,
      fill: colour(kind.share(from + ((at + 0.5) / steps) * (to - from))),
    }),
  )
  const names = kind.legend.map(([value, name], at) => {
    const align = at === 0 ? "left" : at === kind.legend.length - 1 ? "right" : "center"
    const x = chartNumber(((value - from) / (to - from)) * width)
    return text(name, { x, y: 54, align, font: FONT_STACK, fontSize: TEXT.small })
  })
  return [...strip, ...names]
}
