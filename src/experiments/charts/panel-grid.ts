import { capital } from "../report/words.ts"
import { type Chart, chartNumber, type Spec, VEGA_SCHEMA } from "./chart.ts"
import { gathered } from "./gathered.ts"
import { COLOURS, CONFIG, FONT_STACK, TEXT, WIDTH } from "./look.ts"
import { type Look, text } from "./mouth.ts"
import { wrapText } from "./text-width.ts"

/** A chart of panels in a grid, all on one scale, drawn with plain Vega on a page of fixed size. */
export interface PanelGrid {
  readonly name: string
  readonly question: string
  readonly subtitles: readonly string[]
  readonly description: string
  readonly panels: readonly PanelDrawing[]
  readonly size: { readonly width: number; readonly height: number }
  readonly columns: number
  /** Marks under the last row, and the height they need. */
  readonly footer?: { readonly marks: readonly Spec[]; readonly height: number }
}

export interface PanelDrawing {
  readonly marks: readonly Spec[]
}

export const MARGIN = 24
export const GAP = 28
/** Most panels one page holds. */
export const MOST_PANELS = 6

/** Columns for so many panels, and the width of one of them. */
export function gridOf(count: number): { readonly columns: number; readonly width: number } {
  const columns = count > 1 ? 2 : 1
  return { columns, width: (WIDTH - 2 * MARGIN - (columns - 1) * GAP) / columns }
}

/** Lays title, panels and footer out on one page. */
export function panelPage(grid: PanelGrid): Chart {
  const head = heading(grid)
  const rows = Math.ceil(grid.panels.length / grid.columns)
  const bottom = head.height + rows * grid.size.height + (rows - 1) * GAP
  const footer = grid.footer ?? { marks: [], height: 0 }
  const panels = grid.panels.map((panel, at) => {
    const column = at % grid.columns
    const row = Math.floor(at / grid.columns)
    const x = MARGIN + column * (grid.size.width + GAP)
    return group(x, head.height + row * (grid.size.height + GAP), panel.marks)
  })
  const height = bottom + footer.height + MARGIN
  return {
    name: grid.name,
    title: grid.question,
    description: grid.description,
    language: "vega",
    spec: {
      $schema: VEGA_SCHEMA,
      description: grid.description,
      width: WIDTH,
      height: chartNumber(height),
      padding: 0,
      autosize: "none",
      background: COLOURS.ice,
      config: { text: CONFIG.text, style: { cell: { stroke: null } } },
      ...gathered([...head.marks, ...panels, group(MARGIN, bottom, footer.marks)]),
    },
  }
}

function group(x: number, y: number, marks: readonly Spec[]): Spec {
  return {
    type: "group",
    encode: { update: { x: { value: chartNumber(x) }, y: { value: chartNumber(y) } } },
    marks,
  }
}

function heading(grid: PanelGrid): { readonly marks: readonly Spec[]; readonly height: number } {
  const room = WIDTH - 2 * MARGIN
  let y = MARGIN + TEXT.title * 0.9
  const marks: Spec[] = []
  for (const line of wrapText(grid.question, TEXT.title, room, true)) {
    marks.push(text(line, { x: MARGIN, y, font: FONT_STACK, fontSize: TEXT.title, fontWeight: 700 }))
    y += TEXT.title * 1.22
  }
  for (const line of grid.subtitles.flatMap((subtitle) => wrapText(subtitle, TEXT.subtitle, room))) {
    marks.push(text(line, { x: MARGIN, y, font: FONT_STACK, fontSize: TEXT.subtitle, fill: COLOURS.quietInk }))
    y += TEXT.subtitle * 1.35
  }
  return { marks, height: y + 6 }
}

/** What stands over one panel: its name, what follows it, and its facts. */
export interface PanelHead {
  readonly title: string
  readonly subtitle: string
  readonly facts: string
}

/**
 * Heads of all panels: the name in bold, what follows in plain, facts below, each wrapped to the width. All are as high
 * as the highest, so that the pictures stand in line.
 */
export function panelHeads(
  heads: readonly PanelHead[],
  width: number,
): { readonly marks: readonly (readonly Spec[])[]; readonly height: number } {
  const lined = heads.map((head) => headLines(head, width))
  const most = Math.max(...lined.map((lines) => lines.length))
  const marks = lined.map((lines) =>
    lines.map(({ content, look }, at) => text(content, { ...look, x: 0, y: 18 + at * HEAD_LINE, font: FONT_STACK })),
  )
  return { marks, height: 18 + (most - 1) * HEAD_LINE + 12 }
}

const HEAD_LINE = 22

function headLines({ title, subtitle, facts }: PanelHead, width: number): { content: string; look: Look }[] {
  const pieces = [
    { content: capital(title), look: { fontSize: TEXT.axisTitle, fontWeight: 700 } },
    { content: subtitle, look: { fontSize: TEXT.label, fontWeight: 400, fill: COLOURS.quietInk } },
    { content: facts, look: { fontSize: TEXT.label, fontWeight: 600 } },
  ]
  return pieces.flatMap(({ content, look }) =>
    wrapText(content, look.fontSize, width, look.fontWeight >= 600).map((line) => ({ content: line, look })),
  )
}
