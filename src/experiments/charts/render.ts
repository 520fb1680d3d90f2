import { fileURLToPath } from "node:url"
import type { Chart } from "./chart.ts"
import { COLOURS, FONT } from "./look.ts"
import { textWidth } from "./text-width.ts"

const FONT_FILES = ["400Regular/Inter_400Regular.ttf", "600SemiBold/Inter_600SemiBold.ttf", "700Bold/Inter_700Bold.ttf"]

/** Draws a chart as SVG text. Vega is loaded here and nowhere else, so that no other command waits for it. */
export async function svgOf(chart: Chart): Promise<string> {
  const vega = await import("vega")
  // without a canvas Vega only guesses widths; ours are those of the font that is drawn
  const { textMetrics } = vega as unknown as { readonly textMetrics: { width: typeof measuredWidth } }
  textMetrics.width = measuredWidth
  const view = new vega.View(vega.parse((await compiled(chart)) as never), {
    renderer: "none",
    logger: vega.logger(vega.Error),
  })
  try {
    return `${ownIds(await view.toSVG(), chart.name)}\n`
  } finally {
    view.finalize()
  }
}

/**
 * Vega numbers clips and gradients on through the life of the process; numbered anew under the chart's name, the same
 * chart is the same text, and several charts can stand in one page.
 */
function ownIds(svg: string, name: string): string {
  const ids = [...new Set([...svg.matchAll(/\bid="([^"]+)"/g)].map(([, id]) => id!))]
  const own = new Map(ids.map((id, at) => [id, `${name}-${at + 1}`]))
  return svg.replaceAll(/\bid="([^"]+)"|url\(#([^)]+)\)/g, (_, id?: string, reference?: string) => {
    if (id !== undefined) return `id="${own.get(id)}"`
    return `url(#${own.get(reference!) ?? reference})`
  })
}

interface TextItem {
  readonly fontSize?: number
  readonly fontWeight?: string | number
  /** Width beyond which Vega cuts the text with an ellipsis, px; 0 or absent for none. */
  readonly limit?: number
}

function measuredWidth(item: TextItem, text: unknown): number {
  const bold = item.fontWeight === "bold" || Number(item.fontWeight) >= 600
  const width = textWidth(String(text ?? ""), item.fontSize ?? 11, bold)
  return item.limit !== undefined && item.limit > 0 ? Math.min(item.limit, width) : width
}

/** The Vega specification behind a chart. */
async function compiled(chart: Chart): Promise<unknown> {
  if (chart.language === "vega") return chart.spec
  const { compile } = await import("vega-lite")
  return compile(chart.spec as never).spec
}

/**
 * Rasterises an SVG at twice its size with the font that ships with the package, never one of the machine. The drawing is
 * done beside this thread.
 */
export async function pngOf(svg: string, zoom = 2): Promise<Uint8Array> {
  const { renderAsync } = await import("@resvg/resvg-js")
  const image = await renderAsync(svg, {
    fitTo: { mode: "zoom", value: zoom },
    background: COLOURS.ice,
    font: { loadSystemFonts: false, fontFiles: fontFiles(), defaultFontFamily: FONT, sansSerifFamily: FONT },
  })
  return new Uint8Array(image.asPng())
}

/** Loads what draws charts ahead of the first of them. */
export async function loadRenderer(): Promise<void> {
  await Promise.all([import("vega"), import("vega-lite"), import("@resvg/resvg-js")])
}

/** Paths of the shipped font's three weights. */
export function fontFiles(): string[] {
  return FONT_FILES.map((file) => fileURLToPath(import.meta.resolve(`@expo-google-fonts/inter/${file}`)))
}
