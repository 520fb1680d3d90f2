import type { Chart } from "./chart.ts"
import { pngOf, svgOf } from "./render.ts"

/** A chart as it is written: the text of its picture, and the same in pixels, which may still be on its way. */
export interface DrawnChart {
  readonly svg: string
  readonly png: Promise<Uint8Array>
}

/** Draws a chart; the same chart gives the same bytes wherever it is drawn. */
export type Draw = (chart: Chart) => Promise<DrawnChart>

/** Draws in this thread; pixels are made beside it while the next chart is drawn. */
export async function drawHere(chart: Chart): Promise<DrawnChart> {
  const svg = await svgOf(chart)
  const png = pngOf(svg)
  // a failure is met where the pixels are waited for
  png.catch(() => {})
  return { svg, png }
}
