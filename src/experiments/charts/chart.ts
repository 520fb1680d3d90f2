import type { Experiment } from "../experiment.ts"
import { percent, shotsText } from "../report/words.ts"
import type { RunResults } from "../results.ts"
import { COLOURS, FONT_STACK, TEXT } from "./look.ts"
import { wrapText } from "./text-width.ts"

/** A specification in JSON for Vega or Vega-Lite; checked by their compilers, not by ours. */
export type Spec = Readonly<Record<string, unknown>>

/** One finished chart: its file name without ending, what a person who cannot see it should know, and its specification. */
export interface Chart {
  readonly name: string
  readonly title: string
  readonly description: string
  readonly language: "vega" | "vega-lite"
  readonly spec: Spec
}

export const VEGA_LITE_SCHEMA = "https://vega.github.io/schema/vega-lite/v6.json"
export const VEGA_SCHEMA = "https://vega.github.io/schema/vega/v6.json"

/** Title of a chart: the question, wrapped, and under it whose numbers these are. */
export function titleOf(question: string, lines: readonly string[], width: number): Spec {
  return {
    text: wrapText(question, TEXT.title, width, true),
    subtitle: lines.flatMap((line) => wrapText(line, TEXT.subtitle, width)),
    anchor: "start",
    frame: "bounds",
    font: FONT_STACK,
    fontSize: TEXT.title,
    fontWeight: 700,
    color: COLOURS.ink,
    lineHeight: TEXT.title * 1.22,
    subtitleFont: FONT_STACK,
    subtitleFontSize: TEXT.subtitle,
    subtitleColor: COLOURS.quietInk,
    subtitleLineHeight: TEXT.subtitle * 1.35,
    subtitlePadding: 8,
    offset: 16,
  }
}

/** Goalie, shots and what a band is: the second line of every chart. */
export function settingLine(results: RunResults, shown: string): string {
  return `${results.experiment.goalieName} · ${shotsText(results.points)} shots at each point · ${shown} ${percent(results.confidence, 0)} sampling interval`
}

/** Title of one view of a chart, set above the left end of its plot. */
export function panelTitle(text: string, offset: number): Spec {
  const look = { fontSize: TEXT.label, fontWeight: 600, color: COLOURS.ink, font: FONT_STACK }
  return { text, anchor: "start", frame: "group", offset, ...look }
}

/** Domain that holds every value with a margin, ends rounded outward to a fifth of a step. */
export function domainOf(values: readonly number[], step: number): [number, number] {
  const least = Math.min(...values)
  const most = Math.max(...values)
  const margin = (most - least) * 0.05
  const grain = step / 5
  return [Math.floor((least - margin) / grain) * grain, Math.ceil((most + margin) / grain) * grain]
}

/** Round step that cuts a span into four to eight parts. */
export function stepOf(values: readonly number[]): number {
  const span = Math.max(...values) - Math.min(...values)
  if (!(span > 0)) return 1
  const power = 10 ** Math.floor(Math.log10(span / 4))
  return [1, 2, 5, 10].map((factor) => factor * power).find((step) => span / step <= 8) ?? 10 * power
}

/** Number for a data value of a chart: short, and the same on every machine that agrees to nine digits. */
export function chartNumber(value: number): number {
  const rounded = Number(value.toPrecision(9))
  return rounded === 0 ? 0 : rounded
}

/** Share as a percentage for an axis. */
export function inPercent(share: number): number {
  return chartNumber(share * 100)
}

/** What a chart is about: the question, or the run's name where none was asked. */
export function questionOf(experiment: Experiment): string {
  return experiment.question === "" ? experiment.name : experiment.question
}
