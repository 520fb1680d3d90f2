import type { Spec } from "./chart.ts"
import { COLOURS } from "./look.ts"

/** Size of the goal's opening and radius of its iron, metres. */
export interface Mouth {
  readonly width: number
  readonly height: number
  readonly iron: number
}

/** How metres of the goal plane become pixels of one panel: y to the right, z up, the same for both. */
export interface MouthScale {
  readonly perMetre: number
  readonly x: (y: number) => number
  readonly y: (z: number) => number
  /** Size of the panel, px. */
  readonly width: number
  readonly height: number
}

/** Air beside the posts and ice shown below the goal line, metres. */
const AROUND = { side: 0.14, below: 0.07 }
/** Least and most air above the bar where a goalie is drawn, metres: room for head and hands as the puck sees them. */
export const HEADROOM = { least: 0.12, most: 0.45 }

/** Fits the mouth and a little around it into a width. */
export function mouthScale(mouth: Mouth, width: number, above = 0.02): MouthScale {
  const metres = mouth.width + 2 * (2 * mouth.iron + AROUND.side)
  const perMetre = width / metres
  const top = mouth.height + 2 * mouth.iron + above
  return {
    perMetre,
    x: (y) => pixel(width / 2 + y * perMetre),
    y: (z) => pixel((top - z) * perMetre),
    width,
    height: pixel((top + AROUND.below) * perMetre),
  }
}

/** A place on the page to a hundredth of a pixel: finer is not seen and only makes files longer. */
export function pixel(value: number): number {
  const rounded = Math.round(value * 100) / 100
  return rounded === 0 ? 0 : rounded
}

/** Cells of a grid over the mouth: middles of columns (y) and rows (z), and the side of a cell, metres. */
export interface Grid {
  readonly y: readonly number[]
  readonly z: readonly number[]
  readonly cell: number
}

/**
 * All cells of a grid in their colours, as one mark: neighbours in a row of one colour as one rectangle. Each is a hair
 * larger than its share so that no seam shows.
 */
export function cellMarks(grid: Grid, scale: MouthScale, fillOf: (row: number, column: number) => string): Spec {
  const half = grid.cell / 2
  const values = grid.z.flatMap((z, row) =>
    runsOf(grid.y.map((_, column) => fillOf(row, column))).map(({ fill, from, to }) => ({
      x: scale.x(grid.y[from]! - half),
      x2: pixel(scale.x(grid.y[to]! + half) + 0.6),
      y: scale.y(z + half),
      y2: pixel(scale.y(z - half) + 0.6),
      fill,
    })),
  )
  const fields = Object.fromEntries(["x", "x2", "y", "y2", "fill"].map((field) => [field, { field }]))
  const cells = { type: "rect", from: { data: "cells" }, interactive: false, encode: { update: fields } }
  return { type: "group", data: [{ name: "cells", values }], marks: [cells] }
}

/** Neighbours of one colour, from the first to the last of them; what is transparent is left out. */
function runsOf(fills: readonly string[]): { readonly fill: string; readonly from: number; readonly to: number }[] {
  const ends = fills.flatMap((fill, at) => (fills[at + 1] === fill ? [] : [at]))
  return ends
    .map((to, at) => ({ fill: fills[to]!, from: at === 0 ? 0 : ends[at - 1]! + 1, to }))
    .filter(({ fill }) => fill !== "transparent")
}

/** Marks of the open net: snow, a hint of mesh, and the ice in front. */
export function netMarks(mouth: Mouth, scale: MouthScale): Spec[] {
  const [left, right] = [scale.x(-mouth.width / 2), scale.x(mouth.width / 2)]
  const [top, ice] = [scale.y(mouth.height), scale.y(0)]
  return [
    rectangle({ x: left, x2: right, y: top, y2: ice, fill: COLOURS.snow }),
    path(mesh(mouth, scale), { stroke: COLOURS.net, strokeWidth: 0.8, fill: "transparent" }),
  ]
}

/** Slanted threads in both directions, cut at the frame. */
function mesh(mouth: Mouth, scale: MouthScale): string {
  const spacing = 0.09
  const { width, height } = mouth
  const threads: string[] = []
  const count = Math.ceil((width + height) / spacing)
  for (let at = 1; at < count; at++) {
    const from = -width / 2 + at * spacing
    for (const mirror of [1, -1]) {
      // the thread y + z = from, between the sides and between ice and bar
      const lowest = Math.max(0, from - width / 2)
      const highest = Math.min(height, from + width / 2)
      if (lowest >= highest) continue
      const corner = (z: number): string => `${scale.x(mirror * (from - z))},${scale.y(z)}`
      threads.push(`M${corner(lowest)}L${corner(highest)}`)
    }
  }
  return threads.join("")
}

/** The goal's iron to scale: two posts and the bar in one outline, and the line on the ice. */
export function ironMarks(mouth: Mouth, scale: MouthScale, opacity = 1): Spec[] {
  const inner = mouth.width / 2
  const outer = inner + 2 * mouth.iron
  const top = mouth.height + 2 * mouth.iron
  const corners: readonly (readonly [number, number])[] = [
    [-outer, 0],
    [-outer, top],
    [outer, top],
    [outer, 0],
    [inner, 0],
    [inner, mouth.height],
    [-inner, mouth.height],
    [-inner, 0],
  ]
  const line = { x: scale.x(-inner), x2: scale.x(inner), y: scale.y(0), y2: scale.y(-0.03) }
  return [
    rectangle({ ...line, fill: COLOURS.iron, opacity: opacity * 0.45 }),
    path(closed(corners, scale), { fill: COLOURS.iron, opacity }),
  ]
}

/** A closed outline in metres as a path in pixels. */
export function closed(corners: readonly (readonly [number, number])[], scale: MouthScale): string {
  if (corners.length === 0) return ""
  return `M${corners.map(([y, z]) => `${scale.x(y)},${scale.y(z)}`).join("L")}Z`
}

type Value = string | number | boolean | readonly number[] | readonly string[]
export type Look = Readonly<Record<string, Value>>

/** Vega encodes each property as an object around its value. */
export function values(look: Look): Spec {
  return Object.fromEntries(Object.entries(look).map(([key, value]) => [key, { value }]))
}

export function rectangle(look: Look): Spec {
  return { type: "rect", interactive: false, encode: { update: values(look) } }
}

export function path(outline: string, look: Look): Spec {
  return { type: "path", interactive: false, encode: { update: values({ path: outline, ...look }) } }
}

export function text(content: string, look: Look): Spec {
  return { type: "text", interactive: false, encode: { update: values({ text: content, fill: COLOURS.ink, ...look }) } }
}

/** Text with paper behind it, so that it can be read over anything. */
export function textOnPaper(content: string, look: Look, paper: string = COLOURS.snow): Spec[] {
  const halo = { ...look, fill: paper, stroke: paper, strokeWidth: 4, strokeJoin: "round" }
  return [text(content, halo), text(content, look)]
}
