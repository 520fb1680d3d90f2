import { pngOf, svgOf } from "../charts/render.ts"
import type { RunFile } from "../write/into-place.ts"
import type { Survey } from "./survey.ts"
import { surveyChart } from "./survey-chart.ts"

/** The picture of a survey as files: SVG, PNG, and the specification behind them. */
export async function surveyPictures(survey: Survey): Promise<RunFile[]> {
  const chart = surveyChart(survey)
  const svg = await svgOf(chart)
  const text = new TextEncoder()
  return [
    { path: `${chart.name}.svg`, content: text.encode(svg) },
    { path: `${chart.name}.png`, content: await pngOf(svg) },
    { path: `${chart.name}.vg.json`, content: text.encode(`${JSON.stringify(chart.spec, null, 1)}\n`) },
  ]
}
