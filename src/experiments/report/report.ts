import { shotsToSee as shotsForPower } from "../../sim/statistics/power.ts"
import type { Chart } from "../charts/chart.ts"
import type { RunResults } from "../results.ts"
import { sensitivitySection } from "../sensitivity/section.ts"
import { type Answer, answerOf } from "./answer.ts"
import { CATALOGUE, type Catalogue } from "./catalogue.ts"
import { cautionsSection } from "./cautions-section.ts"
import { type Html, html, section, trusted } from "./html.ts"
import { methodsSection } from "./methods-section.ts"
import { pageFont } from "./page-font.ts"
import { PAGE_STYLE } from "./page-style.ts"
import { parametersSection } from "./parameters-section.ts"
import { priceSection, type ShotsToSee } from "./price-section.ts"
import { splitSection, tableSection } from "./table-section.ts"
import { warningsOf } from "./warnings.ts"
import { capital, comparedWith, pointText } from "./words.ts"

export interface ReportOptions {
  readonly shotsToSee?: ShotsToSee
  readonly catalogue?: Catalogue
}

/** A chart and how it was drawn. */
export interface DrawnChart {
  readonly chart: Chart
  readonly svg: string
}

/** Nothing is fetched, the font stands in the page: the policy forbids it, so the page works from a file, offline, for good. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; font-src data:"

/** report.html: the question, the answer with both spreads, pictures, tables, methods and cautions in one file. */
export function reportOf(results: RunResults, charts: readonly DrawnChart[], options: ReportOptions = {}): string {
  const { experiment } = results
  const answer = answerOf(results)
  const [points, names] = splitPoints(results, answer)
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<title>${experiment.question || experiment.name}</title>
<style>${trusted(pageFont())}${trusted(PAGE_STYLE)}</style>
</head>
<body>
<main>
<h1>${experiment.question || experiment.name}</h1>
<p class="why">${experiment.why}</p>
${answerHtml(answer)}
${section(
  "Pictures",
  charts.map((drawn) => figure(drawn)),
)}
${tableSection(results)}
${splitSection(results, points, names)}
${sensitivitySection(results.sensitivity)}
${priceSection(results, answer.findings, options.shotsToSee ?? shotsForPower)}
${warningsHtml(results)}
${parametersSection(experiment, options.catalogue ?? CATALOGUE)}
${methodsSection(results)}
${cautionsSection()}
<p class="quiet">${experiment.goalieName} · seed ${experiment.seed} · goalmouth ${results.version}</p>
</main>
</body>
</html>
`
  return page.html
}

function answerHtml(answer: Answer): Html {
  const details = answer.findings.length > 1 ? answer.findings.map(({ sentence }) => sentence) : []
  const items = [...details, ...answer.notes].map((text) => html`<li>${text}.</li>\n`)
  const list = items.length === 0 ? html`` : html`<ul>\n${items}</ul>\n`
  return html`<div class="answer">\n<p class="headline">${answer.headline}.</p>\n${list}</div>\n`
}

/** The run's own warnings and those its numbers call for, each kind and text once. */
function warningsHtml(results: RunResults): Html {
  const all = new Map([...results.warnings, ...warningsOf(results)].map((warning) => [warning.text, warning]))
  const items = [...all.values()].map(
    ({ kind, text }) => html`<p class="warning"><strong>${spaced(kind)}.</strong> ${text}.</p>\n`,
  )
  return items.length === 0 ? html`` : section("What to be careful with", items)
}

/** "WideInterval" read aloud: "Wide interval". */
function spaced(kind: string): string {
  return capital(kind.replaceAll(/([a-z])([A-Z])/g, "$1 $2").toLowerCase())
}

function figure({ chart, svg }: DrawnChart): Html {
  const label = html`aria-label="${chart.description}"`
  const scalable = svg.replace(/<svg([^>]*?) width="[^"]*" height="[^"]*"/, `<svg$1 role="img" ${label.html}`)
  return html`<figure>\n${trusted(scalable)}<figcaption>charts/${chart.name}.svg</figcaption>\n</figure>\n`
}

/** Points whose save rate is taken apart: the best of each group and what it is compared with. */
function splitPoints(results: RunResults, answer: Answer): [RunResults["points"], string[]] {
  const points = answer.findings.flatMap(({ point }) => {
    const base = results.points.find(
      (one) => one.index === comparedWith(results.experiment, point.index) && one.spot === point.spot,
    )
    return base === undefined || base === point ? [point] : [base, point]
  })
  const unique = [...new Set(points)]
  return [unique, unique.map((point) => capital(pointText(results.experiment, point.index)))]
}
