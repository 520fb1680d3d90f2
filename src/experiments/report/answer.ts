import { axisOf, casesAreAlternatives, isDecision, isGoalies } from "../decision.ts"
import { GOALS_SAVED, type Measure, measureOf } from "../measures.ts"
import { ratedBy } from "../rated.ts"
import type { RunResults } from "../results.ts"
import { withSensitivity } from "../sensitivity/answer.ts"
import { bestSummary } from "./answer-best.ts"
import { compareSummary } from "./answer-compare.ts"
import { crossingHeadline, toldCrossings } from "./answer-crossing.ts"
import { designSummary } from "./answer-design.ts"
import { goalsSavedSummary } from "./answer-goals-saved.ts"
import { withInteractions } from "./answer-interaction.ts"
import { crossingNotes, placeNotes, signNotes } from "./answer-notes.ts"
import { choiceSummary, loneSummary } from "./answer-plain.ts"
import { rivalNotes, rivalsHeadline } from "./answer-rivals.ts"
import { secondShotSummary } from "./answer-second.ts"
import { shiftHeadline } from "./answer-shift.ts"
import { trendSummary } from "./answer-trend.ts"
import { worstSummary } from "./answer-worst.ts"
import { type Finding, focusOf, ratedPoints, type Summary } from "./finding.ts"

export { type Finding, isTold } from "./finding.ts"

export interface Answer {
  /** The first finding, or what all of them share: one sentence that can stand alone. */
  readonly headline: string
  readonly findings: readonly Finding[]
  /** Where curves cross, and what the numbers cannot tell. */
  readonly notes: readonly string[]
}

/**
 * The answer of a run in sentences, each with sampling and assumption spread. It speaks of the first measure the file
 * lists, then of the save rate; of a best place only along what the goalie decides.
 */
export function answerOf(results: RunResults): Answer {
  const focus = focusOf(results.experiment)
  const rates = withInteractions(results, rateSummary(results))
  const said = focus.key === ratedBy(results.experiment) ? rates : joined(results, focus, rates)
  const { headline, findings } = withGoalsSaved(results, focus, said)
  const notes = [
    ...rivalNotes(results),
    ...crossingNotes(results),
    ...placeNotes(results),
    ...signNotes(results, findings),
  ]
  return withSensitivity(results, { headline, findings, notes })
}

/** Goals saved beside what is said already, where the file lists them but not first. */
function withGoalsSaved(results: RunResults, focus: Measure, { headline, findings }: Summary): Summary {
  const isLater = focus.key !== GOALS_SAVED && results.experiment.measures.includes(GOALS_SAVED)
  const saved = isLater ? goalsSavedSummary(results) : null
  return { headline, findings: saved === null ? findings : [...findings, ...saved.findings] }
}

/** The first measure's answer, what a second exact one adds, and the save rate where the file lists it. */
function joined(results: RunResults, focus: Measure, rates: Summary): Summary {
  const { measures } = results.experiment
  const saved = focus.key === GOALS_SAVED ? goalsSavedSummary(results) : null
  const first = saved ?? secondShotSummary(results) ?? trendSummary(results, focus)
  if (first.findings.length === 0) return rates
  const next = measureOf(measures[1] ?? "")
  const second = focus.kind === "exact" && next?.kind === "exact" ? trendSummary(results, next).findings : []
  const last = measures.includes("save_rate") ? rates.findings : []
  return { headline: first.headline, findings: [...first.findings, ...second, ...last] }
}

function rateSummary(results: RunResults): Summary {
  const { experiment } = results
  const points = ratedPoints(results)
  if (points.length === 0) return { headline: "No shot on goal was sampled, so there is no answer", findings: [] }
  const design = designSummary(results)
  if (design !== null) return design
  const crossing = crossingHeadline(results)
  if (results.curves.length > 0) {
    const best = bestSummary(results)
    const worst = worstSummary(results, best)
    if (worst !== null) return worst
    const said =
      (toldCrossings(results)[0]?.plays === true ? crossing : null) ?? shiftHeadline(results) ?? rivalsHeadline(results)
    return said === null ? best : { ...best, headline: said }
  }
  if (points.length === 1) return loneSummary(results)
  const hasChoice = experiment.sweep.some((swept) => swept.kind === "choice" && isGoalies(swept.key))
  const hasAlternatives = casesAreAlternatives(experiment) || hasChoice
  const axis = experiment.sweep[axisOf(experiment.sweep)]
  if (hasAlternatives && (axis === undefined ? !hasChoice : !isDecision(axis.key))) {
    const compared = compareSummary(results)
    return crossing === null ? compared : { ...compared, headline: crossing }
  }
  return axis === undefined && hasChoice
    ? choiceSummary(results)
    : trendSummary(results, measureOf(ratedBy(experiment))!)
}
