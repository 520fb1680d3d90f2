import { capital, pointText } from "../report/words.ts"
import type { RunResults } from "../results.ts"
import { sensitivityHeadline, sensitivityNotes } from "./words.ts"

/** The parts of an answer that this adds to. */
interface Spoken {
  readonly headline: string
  readonly notes: readonly string[]
}

/**
 * An answer with what the measure hangs on: that is the headline where the file asks for nothing else, and stands below
 * the headline of a sweep or a comparison.
 */
export function withSensitivity<Answer extends Spoken>(results: RunResults, answer: Answer): Answer {
  const { sensitivity } = results
  if (sensitivity === undefined) return answer
  const headline = sensitivityHeadline(sensitivity)
  const notes = sensitivityNotes(sensitivity)
  const { points, baseline } = results.experiment
  if (points.length > 1) {
    const at = `${capital(pointText(results.experiment, baseline))}: ${headline}`
    return { ...answer, notes: [at, ...notes, ...answer.notes] }
  }
  return { ...answer, headline, notes: [...notes, answer.headline, ...answer.notes] }
}
