import { plain } from "../report/words.ts"
import type { Opening, PuckEyePanel, RunResults } from "../results.ts"
import { type Chart, chartNumber, questionOf, type Spec } from "./chart.ts"
import { cutTo, type Window } from "./cut.ts"
import { COLOURS, FONT_STACK, REGION_FILL, TEXT } from "./look.ts"
import {
  closed,
  HEADROOM,
  ironMarks,
  type Mouth,
  type MouthScale,
  mouthScale,
  netMarks,
  path,
  pixel,
  rectangle,
  text,
  textOnPaper,
} from "./mouth.ts"
import { gridOf, MOST_PANELS, panelHeads, panelPage } from "./panel-grid.ts"
import { textWidth } from "./text-width.ts"

/** Openings listed under each panel: all of them on a page with few panels, the largest on a full one. */
const MOST_OPENINGS = 5
const LINE = 26
/** How far outside its frame a picture is cut off, metres. */
const CUT_BEYOND = 0.1

/** The mouth as the puck sees it, one panel for each depth or stance, same scale; null when the run has none. */
export function puckEyeChart(results: Pick<RunResults, "experiment" | "puckEye">): Chart | null {
  const panels = results.puckEye.slice(0, MOST_PANELS)
  if (panels.length === 0) return null
  const { columns, width } = gridOf(panels.length)
  const listed = Math.min(MOST_OPENINGS, Math.max(...panels.map(({ openings }) => openings.length)))
  const headroom = headroomOf(panels)
  const heads = panelHeads(
    panels.map((panel) => ({ title: panel.title, subtitle: panel.subtitle, facts: factsOf(panel) })),
    width,
  )
  const drawings = panels.map((panel, at) =>
    drawPanel(panel, { width, listed, headroom, head: heads.marks[at]!, top: heads.height }),
  )
  return panelPage({
    name: "pucks-eye",
    question: questionOf(results.experiment),
    subtitles: [
      `${results.experiment.goalieName} as the puck sees it`,
      "numbers on the net: milliseconds, for a shot at the usual speed from there and the goalie's median reaction",
      // outlines are of straight lines and numbers of flights, which rise and drop: 16 cm at the mouth behind depth 3 m
      "the outlines are what hides the net in a straight line; a shot that drops can pass over a limb, and its number then stands on it",
    ],
    description: describe(panels),
    panels: drawings,
    size: { width, height: Math.max(...drawings.map(({ height }) => height)) },
    columns,
    footer: { marks: legendMarks(), height: LEGEND_ROWS * LINE + 24 },
  })
}

/** One headroom for all panels, so that they stay on one scale and in line. */
function headroomOf(panels: readonly PuckEyePanel[]): number {
  const tops = panels.map(({ outlines, mouthHeight, iron }) => {
    const highest = Math.max(0, ...outlines.flatMap(({ points }) => points.map(([, z]) => z)))
    return highest - mouthHeight - 2 * iron + 0.03
  })
  return Math.min(HEADROOM.most, Math.max(HEADROOM.least, ...tops))
}

interface PanelRoom {
  readonly width: number
  readonly listed: number
  readonly headroom: number
  readonly head: readonly Spec[]
  readonly top: number
}

function describe(panels: readonly PuckEyePanel[]): string {
  const lines = panels.map((panel) => {
    const open = panel.openings.map(({ zone, limb, travel }) => `${zone} (${wayText(limb, travel)})`)
    return `${panel.title}, ${factsOf(panel)}; open: ${open.join(", ")}`
  })
  return `The goal mouth as the puck sees it. ${lines.join(". ")}.`
}

/** The limb that closes an opening soonest and how far it travels; an opening may be out of every limb's reach. */
function wayText(limb: string, travel: number): string {
  return Number.isFinite(travel) ? `${limb} ${plain(travel * 100, 0)} cm` : "no limb in reach"
}

function factsOf(panel: PuckEyePanel): string {
  return `net covered ${plain(panel.netCovered * 100, 0)} % · box ${plain(panel.boxArea, 2)} m²`
}

function drawPanel(
  panel: PuckEyePanel,
  { width, listed, headroom, head, top }: PanelRoom,
): { marks: readonly Spec[]; height: number } {
  const mouth: Mouth = { width: panel.mouthWidth, height: panel.mouthHeight, iron: panel.iron }
  const scale = mouthScale(mouth, width, headroom)
  const frame = mouth.height + 2 * mouth.iron + headroom
  const openings = panel.openings.toSorted((a, b) => b.area - a.area).slice(0, listed)
  const badges = badgePlaces(openings, scale)
  const picture: Spec = {
    type: "group",
    encode: {
      update: {
        y: { value: top },
        width: { value: chartNumber(scale.width) },
        height: { value: scale.height },
        clip: { value: true },
        stroke: { value: COLOURS.line },
      },
    },
    marks: [
      ...netMarks(mouth, scale),
      ...ironMarks(mouth, scale),
      ...panel.outlines
        .filter((outline) => !isCutHead(outline, frame))
        .map((outline) => limbMark({ ...outline, points: cutTo(outline.points, windowOf(scale, frame)) }, scale)),
      // the frame again, faintly, so that its edges can be followed across the goalie
      ...ironMarks(mouth, scale, 0.28),
      circleMark(panel, scale),
      ...spareMarks(panel, badges, scale),
      ...badges.flatMap(leader),
      ...layered(badges.map(({ x, y }, at) => badge(x, y, at + 1))),
    ],
  }
  const below = top + scale.height + 20
  return {
    marks: [...head, picture, ...layered(openings.map((opening, at) => listLine(opening, at, below + at * LINE)))],
    height: below + (listed - 1) * LINE + 14,
  }
}

/** A head that the frame would cut is left out: the slice of it would be read as something else. */
function isCutHead({ region, points }: PuckEyePanel["outlines"][number], frame: number): boolean {
  return region === "mask" && points.some(([, z]) => z > frame)
}

/** The frame and a little more, so that no stroke runs along the cut. */
function windowOf({ width, perMetre }: MouthScale, top: number): Window {
  const half = width / perMetre / 2 + CUT_BEYOND
  return { left: -half, right: half, bottom: -1, top: top + CUT_BEYOND }
}

function limbMark(outline: PuckEyePanel["outlines"][number], scale: MouthScale): Spec {
  return path(closed(outline.points, scale), {
    fill: REGION_FILL[outline.region] ?? COLOURS.quietInk,
    stroke: COLOURS.ink,
    strokeWidth: 1.3,
    strokeJoin: "round",
  })
}

function circleMark(panel: PuckEyePanel, scale: MouthScale): Spec {
  const { y, z, radius } = panel.clearCircle
  return dashedCircle(scale.x(y), scale.y(z), chartNumber(radius * scale.perMetre))
}

function dashedCircle(x: number, y: number, r: number): Spec {
  const top = chartNumber(y - r)
  const outline = `M${x},${top}a${r},${r} 0 1 1 0,${2 * r}a${r},${r} 0 1 1 0,${-2 * r}Z`
  return path(outline, { stroke: COLOURS.ink, strokeWidth: 2, strokeDash: [7, 5], fill: "transparent" })
}

/**
 * Milliseconds to spare at places of the open mouth, moved inside the posts; a number that would touch a badge or an
 * earlier number is left out.
 */
function spareMarks(panel: PuckEyePanel, badges: readonly BadgePlace[], scale: MouthScale): Spec[] {
  const taken = badges.map(({ x, y }) => ({ x, y, half: 13 }))
  const half = panel.mouthWidth / 2
  const numbers = panel.spare.map(({ y, z, milliseconds }) => {
    if (milliseconds === Number.POSITIVE_INFINITY) return []
    const label = milliseconds === null ? "×" : plain(milliseconds, 0)
    const width = Math.max(10, textWidth(label, TEXT.small, true) / 2 + 4)
    const x = Math.min(scale.x(half) - width - 3, Math.max(scale.x(-half) + width + 3, scale.x(y)))
    const place = { x: chartNumber(x), y: Math.min(scale.y(0) - 13, scale.y(z)), half: width }
    const touches = taken.some(
      (other) => Math.abs(other.x - x) < other.half + width + 4 && Math.abs(other.y - place.y) < 25,
    )
    if (touches) return []
    taken.push(place)
    return milliseconds === null || milliseconds < 0 ? beaten(place, label) : spared(place, label)
  })
  return layered(numbers)
}

/** Drawings that touch nowhere, the first mark of all of them before the second of any, so that like marks follow one another. */
function layered(drawings: readonly (readonly Spec[])[]): Spec[] {
  const most = Math.max(0, ...drawings.map(({ length }) => length))
  const layers = Array.from({ length: most }, (_, layer) => drawings.flatMap((marks) => marks.slice(layer, layer + 1)))
  return layers.flatMap((marks) => marks.toSorted((a, b) => order(a) - order(b)))
}

/** Boxes before texts: of what touches nowhere, either may come first. */
function order({ type }: Spec): number {
  return type === "text" ? 1 : 0
}

const NUMBER = { font: FONT_STACK, fontSize: TEXT.small, fontWeight: 600, align: "center", baseline: "middle" }

interface Place {
  readonly x: number
  readonly y: number
  readonly half: number
}

function spared({ x, y }: Place, label: string): Spec[] {
  return textOnPaper(label, { ...NUMBER, x, y: y + 1 })
}

/** White on dark: read as "beaten" without colour. */
function beaten({ x, y, half }: Place, label: string): Spec[] {
  const box = { x: chartNumber(x - half), x2: chartNumber(x + half), y: y - 10, y2: y + 10, cornerRadius: 4 }
  return [rectangle({ ...box, fill: COLOURS.beaten }), text(label, { ...NUMBER, x, y: y + 1, fill: COLOURS.snow })]
}

/** Numbered ring that ties an opening to its line below the picture. */
function badge(x: number, y: number, number: number): Spec[] {
  const r = 11
  const ring = `M${x},${y - r}a${r},${r} 0 1 1 0,${2 * r}a${r},${r} 0 1 1 0,${-2 * r}Z`
  return [
    path(ring, { fill: COLOURS.badge, stroke: COLOURS.ink, strokeWidth: 1.5 }),
    text(String(number), { ...NUMBER, fontWeight: 700, fontSize: TEXT.label, x, y: y + 1 }),
  ]
}

/** Where a badge stands, and the opening it belongs to, px. */
interface BadgePlace {
  readonly x: number
  readonly y: number
  readonly of: { readonly x: number; readonly y: number }
}

/** Badges on their openings; where openings lie so near that they would touch, side by side, as near as can be. */
function badgePlaces(openings: readonly Opening[], scale: MouthScale): BadgePlace[] {
  const places = openings.map(({ y, z }) => {
    const of = { x: scale.x(y), y: scale.y(z) }
    return { ...of, of }
  })
  for (let round = 0; round < ROUNDS; round++)
    for (const [i, a] of places.entries())
      for (const b of places.slice(i + 1)) {
        const [dx, dy] = [b.x - a.x, b.y - a.y]
        const apart = Math.hypot(dx, dy)
        if (apart >= BADGE_ROOM) continue
        // on one place the later goes to the right
        const [ux, uy] = apart < 1e-6 ? [1, 0] : [dx / apart, dy / apart]
        const push = 0.5 * (BADGE_ROOM - apart)
        Object.assign(a, insideOf(scale, a.x - push * ux, a.y - push * uy))
        Object.assign(b, insideOf(scale, b.x + push * ux, b.y + push * uy))
      }
  return places.map(({ x, y, of }) => ({ x: pixel(x), y: pixel(y), of }))
}

const ROUNDS = 60
/** From the middle of one badge to that of the next, and to the edge of the picture, px. */
const BADGE_ROOM = 24
const BADGE_EDGE = 13

function insideOf({ width, height }: MouthScale, x: number, y: number): { readonly x: number; readonly y: number } {
  const held = (value: number, most: number): number => Math.min(most - BADGE_EDGE, Math.max(BADGE_EDGE, value))
  return { x: held(x, width), y: held(y, height) }
}

/** From a badge that had to move to its opening. */
function leader({ x, y, of }: BadgePlace): Spec[] {
  if (Math.hypot(x - of.x, y - of.y) < 3) return []
  return [path(`M${x},${y}L${of.x},${of.y}`, { stroke: COLOURS.ink, strokeWidth: 1.5 })]
}

const LEGEND_ROWS = 3

/** Every kind of mark on the net once, with what it means. */
function legendMarks(): Spec[] {
  const middle = 20
  const entries: readonly (readonly [(y: number) => Spec[], string])[] = [
    [(y) => spared({ x: middle, y, half: 12 }, "25"), "reached with 25 ms to spare"],
    [(y) => beaten({ x: middle, y, half: 19 }, plain(-49, 0)), "beaten by 49 ms"],
    [(y) => beaten({ x: middle, y, half: 10 }, "×"), "no limb gets there at any reaction"],
    [(y) => [dashedCircle(middle, y, 11)], "largest clear circle"],
    [(y) => badge(middle, y, 1), "opening; listed with the limb that closes it soonest, and how far it moves"],
  ]
  return entries.flatMap(([mark, meaning], at) => {
    const column = at < LEGEND_ROWS ? 0 : 1
    const y = 30 + (at % LEGEND_ROWS) * LINE
    const words = { font: FONT_STACK, fontSize: TEXT.small, baseline: "middle", x: 50, y: y + 1 }
    const update = { x: { value: column * 310 } }
    return [{ type: "group", encode: { update }, marks: [...mark(y), text(meaning, words)] }]
  })
}

function listLine(opening: Opening, at: number, y: number): Spec[] {
  const label = { font: FONT_STACK, fontSize: TEXT.label, baseline: "middle" }
  return [
    ...badge(13, y, at + 1),
    text(opening.zone, { ...label, x: 34, y: y + 1 }),
    text(wayText(opening.limb, opening.travel), { ...label, x: 190, y: y + 1, fontWeight: 600 }),
  ]
}
