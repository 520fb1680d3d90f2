import type { Experiment } from "../experiments/experiment.ts"
import { firedShots } from "../experiments/run/shot-plan.ts"
import { count } from "../experiments/wording.ts"

/** Bytes that a kept shot takes on disk, about. */
export const BYTES_PER_SHOT = 45

/** How many shots a run fires at each point, and at all of them: "24,576 shots a point (20,000 rounded up to …)". */
export function shotsWords(experiment: Experiment): string {
  const { shots, points, halfWidth } = experiment
  const fired = firedShots(experiment)
  const rounded = fired === shots ? "" : ` (${shots.toLocaleString("en-US")} rounded up to whole batches)`
  const most = halfWidth === null ? "" : "at most "
  const all =
    points.length === 1
      ? ""
      : `, ${(fired * points.length).toLocaleString("en-US")} for ${count(points.length, "point")}`
  return `${most}${count(fired, "shot")} a point${rounded}${all}`
}

/** Room that every shot of every point takes on disk: "some 13 MB". */
export function roomWords(experiment: Experiment): string {
  const bytes = BYTES_PER_SHOT * firedShots(experiment) * experiment.points.length
  const [size, unit] = bytes < 1e9 ? [bytes / 1e6, "MB"] : [bytes / 1e9, "GB"]
  return `some ${size.toLocaleString("en-US", { maximumSignificantDigits: 2 })} ${unit}`
}
