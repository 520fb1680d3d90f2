import type { Chart, Spec } from "../charts/chart.ts"
import { COLOURS, FONT_STACK, TEXT, WIDTH } from "../charts/look.ts"
import { text, values } from "../charts/mouth.ts"
import { MARGIN, panelPage } from "../charts/panel-grid.ts"
import { wrapText } from "../charts/text-width.ts"
import { depthText, lineText, sheetText, verdictLines } from "./cue-words.ts"
import type { Survey } from "./survey.ts"
import { creaseDrawing } from "./survey-crease.ts"
import { planDrawing } from "./survey-plan.ts"
import { stripDrawing } from "./survey-strips.ts"

interface Part {
  readonly title: string
  readonly note: string
  readonly drawing: { readonly marks: readonly Spec[]; readonly height: number }
}

const GAP = 30

/** The picture of a survey: the end zone to scale, the crease enlarged, and every cue at every spot. */
export function surveyChart(survey: Survey): Chart {
  const width = WIDTH - 2 * MARGIN
  const { home, name } = survey.request
  const ghost = home === null ? "" : " · dashed grey: the marks at home"
  const remembered = home === null ? "" : ", dashed where the goalie remembers them"
  const stacked = stack(
    [
      {
        title: "The end zone, to scale",
        note: `signs: shooting spots · coloured lines: through end-zone spot and neutral spot${remembered}${ghost}`,
        drawing: planDrawing(survey, width),
      },
      {
        title: "The crease, enlarged",
        note: "ring: on angle · dots: where biased cues lead, the farthest with its number · dotted: end-zone spot and crease mark in line",
        drawing: creaseDrawing(survey, width),
      },
      {
        title: "Off the line by each cue",
        note: "sign: bias · bar: one standard deviation each way · band: trusted · dashed: distrusted beyond",
        drawing: stripDrawing(survey, width),
      },
    ],
    width,
  )
  const lines = survey.lines.map(lineText)
  return panelPage({
    name: "survey",
    question: `Which cues lead to the angle at ${name}?`,
    subtitles: [sheetText(survey), depthText(survey)],
    description: [...verdictLines(survey).map(({ title, items }) => `${title}: ${items.join(", ")}`), ...lines].join(
      ". ",
    ),
    panels: [{ marks: stacked.marks }],
    size: { width, height: stacked.height },
    columns: 1,
    footer: footer(lines, width),
  })
}

/** Parts below each other, each under its title and note. */
function stack(parts: readonly Part[], width: number): { readonly marks: Spec[]; readonly height: number } {
  const marks: Spec[] = []
  let y = 0
  for (const { title, note, drawing } of parts) {
    y += 22
    marks.push(text(title, { x: 0, y, font: FONT_STACK, fontSize: TEXT.axisTitle, fontWeight: 700 }))
    for (const line of wrapText(note, TEXT.small, width)) {
      y += TEXT.small * 1.4
      marks.push(text(line, { x: 0, y, font: FONT_STACK, fontSize: TEXT.small, fill: COLOURS.quietInk }))
    }
    y += 12
    marks.push({ type: "group", encode: { update: values({ x: 0, y }) }, marks: drawing.marks })
    y += drawing.height + GAP
  }
  return { marks, height: y - GAP }
}

/** What common practice says of marks in line, under the picture. */
function footer(sentences: readonly string[], width: number): { readonly marks: Spec[]; readonly height: number } {
  let y = 34
  const marks = [
    text("Marks in line: common practice, no source", {
      x: 0,
      y,
      font: FONT_STACK,
      fontSize: TEXT.label,
      fontWeight: 700,
    }),
  ]
  for (const sentence of sentences) {
    for (const line of wrapText(sentence, TEXT.small, width)) {
      y += TEXT.small * 1.45
      marks.push(text(line, { x: 0, y, font: FONT_STACK, fontSize: TEXT.small }))
    }
  }
  return { marks, height: y + 6 }
}
