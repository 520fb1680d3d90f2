import type { Experiment } from "../experiment.ts"
import type { RunResults } from "../results.ts"

/** Raised whenever a field of results.json changes its meaning, its name or its place. */
export const RESULTS_FORMAT = 1

/** results.json: everything a run found, versioned; an infinite number is the text "Infinity". */
export function resultsJsonOf(results: RunResults): string {
  const { experiment, version, ...found } = results
  const document = {
    format: "goalmouth results",
    formatVersion: RESULTS_FORMAT,
    version,
    experiment: slim(experiment),
    ...found,
  }
  return `${JSON.stringify(document, finite, 1)}\n`
}

/** Settings of a point are those all points share, so a point lists only what differs. */
function slim(experiment: Experiment): object {
  const { points, ...rest } = experiment
  const { shared } = experiment
  return {
    ...rest,
    points: points.map(({ settings, ...point }) => ({
      ...point,
      changes: {
        ...differing(settings.quantities, shared.quantities),
        ...differing(settings.choices, shared.choices),
      },
    })),
  }
}

function differing<Value>(
  own: Readonly<Record<string, Value>>,
  shared: Readonly<Record<string, Value>>,
): Record<string, Value> {
  return Object.fromEntries(Object.entries(own).filter(([key, value]) => shared[key] !== value))
}

/** JSON has no infinity: a place the stance covers has infinite time to spare, and must not read as "none". */
function finite(_key: string, value: unknown): unknown {
  if (typeof value === "number" && !Number.isFinite(value)) return Number.isNaN(value) ? null : String(value)
  return value
}
