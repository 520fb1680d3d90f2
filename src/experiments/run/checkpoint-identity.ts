import { createHash } from "node:crypto"
import { type Experiment, JUDGED, samplingOf } from "../experiment.ts"
import { ratedBy } from "../rated.ts"
import { trimNumber } from "../wording.ts"
import { assumedKeys } from "./assumptions.ts"

/** All that a shot or its tally can depend on. Words, charts, threads and the place to write are free to change. */
export interface Identity {
  readonly version: string
  /** Last digits of sines and logarithms are those of the runtime. */
  readonly machine: string
  readonly seed: string
  readonly shots: number
  readonly halfWidth: number | null
  /** What the half-width is of, where it is not the save rate. */
  readonly judged?: string
  readonly estimator: string
  /** Where the draws of the shots come from. */
  readonly sampling: string
  /** Settings that all points share, SI or names, as text: JSON has no word for what is not set. */
  readonly shared: Readonly<Record<string, string>>
  /** Hash of the settings of every point, in order. */
  readonly points: string
  /** Hash of the keys that are drawn for the assumption range, and of what is asked about sensitivity. */
  readonly drawn: string
}

export function identityOf(experiment: Experiment, version: string, estimator = "conditional"): Identity {
  const { seed, shots, halfWidth, judged, shared, points, sensitivity } = experiment
  const hash = createHash("sha256")
  for (const { settings } of points) hash.update(JSON.stringify(settings, textual)).update("\n")
  return {
    version,
    machine: `Node ${process.versions.node} on ${process.platform} ${process.arch}`,
    seed,
    shots,
    halfWidth,
    ...(judged === undefined ? {} : { judged }),
    estimator,
    sampling: samplingOf(experiment),
    shared: Object.fromEntries(
      Object.entries({ ...shared.quantities, ...shared.choices }).map(([k, v]) => [k, String(v)]),
    ),
    points: hash.digest("hex"),
    drawn: createHash("sha256")
      .update(JSON.stringify([assumedKeys(experiment), sensitivity ?? null, ratedBy(experiment)]))
      .digest("hex"),
  }
}

/** Settings named one by one in a message; more are counted. */
const MOST_NAMED = 3

/** What differs between two runs, in words: `seed (one, now two)`; empty when one can carry on the other. */
export function differencesOf(kept: Identity, asked: Identity): string[] {
  const named: [string, number | string | null | undefined, number | string | null | undefined][] = [
    ["program version", kept.version, asked.version],
    ["machine", kept.machine, asked.machine],
    ["seed", kept.seed, asked.seed],
    ["shots", kept.shots, asked.shots],
    ["half-width", kept.halfWidth, asked.halfWidth],
    ["what the half-width is of", kept.judged ?? JUDGED[0], asked.judged ?? JUDGED[0]],
    ["estimator", kept.estimator, asked.estimator],
    ["sampling", kept.sampling, asked.sampling],
  ]
  const keys = [...new Set([...Object.keys(kept.shared), ...Object.keys(asked.shared)])]
  const changed = keys.filter((key) => kept.shared[key] !== asked.shared[key])
  for (const key of changed.slice(0, MOST_NAMED))
    named.push([key, setting(kept.shared[key]), setting(asked.shared[key])])
  const differences = named
    .filter(([, before, now]) => before !== now)
    .map(([name, before, now]) => `${name} (${shown(before)}, now ${shown(now)})`)
  if (changed.length > MOST_NAMED) differences.push(`${changed.length - MOST_NAMED} more settings`)
  if (changed.length === 0 && kept.points !== asked.points) differences.push("the points of the sweep or the cases")
  if (differences.length === 0 && kept.drawn !== asked.drawn)
    differences.push("the settings that the file leaves open or asks about")
  return differences
}

/** Infinity and "not set" must not look alike. */
function textual(_key: string, value: unknown): unknown {
  return typeof value === "number" && !Number.isFinite(value) ? String(value) : value
}

function shown(value: number | string | null | undefined): string {
  if (value === null || value === undefined || value === "NaN") return "none"
  return typeof value === "number" ? trimNumber(value, 6) : value
}

/** A setting, as a number where it is one. */
function setting(text: string | undefined): number | string | undefined {
  return text === undefined || text === "" || !Number.isFinite(Number(text)) ? text : Number(text)
}
